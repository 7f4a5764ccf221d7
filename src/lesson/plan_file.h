// SPDX-License-Identifier: MIT
// Reads the member "plan" of an exercise: readPlan(). What is wrong goes to the place's refusal.
#pragma once

#include "bench/bench.h"
#include "lesson/names_file.h"
#include "plan/plan.h"

namespace loom::lesson {

// Every part of the plan must be one of the start or its kit, of the same kind; every cable must
// lead from one of its parts to another terminal of them, with ends that fit.
plan::Plan
readPlan(const bench::JsonPlace& place, const KnownMembers& only, const bench::Bench& start);

} // namespace loom::lesson

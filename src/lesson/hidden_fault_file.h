// SPDX-License-Identifier: MIT
// Reads one item of an exercise's "faults": readFault(). What is wrong goes to the place's refusal.
#pragma once

#include "lesson/hidden_fault.h"
#include "lesson/names_file.h"

namespace loom::lesson {

// Everything altered must be there at the start, and the fault must be one that can be put in.
HiddenFault
readFault(const bench::JsonPlace& place, const KnownMembers& only, const bench::Bench& start);

} // namespace loom::lesson

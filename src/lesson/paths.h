// SPDX-License-Identifier: MIT
// Whether a way leads from one terminal to another, by what is joined and closed; no current needed.
#pragma once

#include "lesson/exercise.h"

namespace loom::lesson {

// On this bench as it stands. False for a spot that is not on it.
bool joined(const bench::Bench& bench, const Spot& a, const Spot& b, Through through);

} // namespace loom::lesson

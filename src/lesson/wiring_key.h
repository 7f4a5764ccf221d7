// SPDX-License-Identifier: MIT
// A text that two benches share when they are wired alike: the same parts, cables, ends and screws by
// name, whatever their ids, the order in which they were laid, and where they lie.
#pragma once

#include "bench/bench.h"

#include <string>

namespace loom::lesson {

// Empty for a bench with ties, where it matters how the cables lie.
std::string wiringKey(const bench::Bench& bench);

} // namespace loom::lesson

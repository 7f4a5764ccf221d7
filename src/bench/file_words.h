// SPDX-License-Identifier: MIT
// The words of a bench file that are nowhere else: its format, conditions.
#pragma once

#include "bench/bench.h"

namespace loom::bench {

inline constexpr const char* formatWord = "loomwright bench";
// In the order of Condition and CableCondition.
inline constexpr const char* conditionWords[] = {"sound", "open", "welded"};
inline constexpr const char* cableConditionWords[] = {"sound", "softened", "charred", "parted"};
// In the order of MeterRange.
inline constexpr const char* rangeWords[] = {"off", "volts", "ohms", "tone", "amperes"};

inline constexpr std::size_t greatestBlades = 64, greatestReels = 64;
inline constexpr std::uint32_t greatestId = 1000000000;

} // namespace loom::bench

// SPDX-License-Identifier: MIT
// The words of a bench file that are nowhere else: its format, conditions.
#pragma once

#include "bench/bench.h"

namespace loom::bench {

inline constexpr const char* kFormatWord = "loomwright bench";
// In the order of Condition and CableCondition.
inline constexpr const char* kConditionWords[] = {"sound", "open", "welded"};
inline constexpr const char* kCableConditionWords[] = {"sound", "softened", "charred", "parted"};
// In the order of MeterRange.
inline constexpr const char* kRangeWords[] = {"off", "volts", "ohms", "tone", "amperes"};

inline constexpr std::size_t kGreatestBlades = 64, kGreatestReels = 64;
inline constexpr std::uint32_t kGreatestId = 1000000000;

} // namespace loom::bench

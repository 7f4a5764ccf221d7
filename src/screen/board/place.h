// SPDX-License-Identifier: MIT
// Where a part can be laid without covering another. Nothing here draws.
#pragma once

#include "bench/bench.h"

namespace loom::screen {

constexpr double kLeastGap_m = 0.02;      // left free between parts that a pointer lays
constexpr double kRoomForCables_m = 0.10; // between parts that keys lay one after the other

// The place nearest to the wish where a part of this kind keeps gap_m from every other; the least
// gap when there is no room for more, the wish itself on a full board. itself: does not count.
bench::Point freePlace(const bench::Bench& bench,
                       bench::PartKind kind,
                       int quarterTurns,
                       bench::Point wish,
                       bench::PartId itself,
                       double gap_m = kLeastGap_m);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// What is on the supply by what is joined and closed: a lamp that would be lit, a coil or a motor
// that would be fed. Batteries count as charged; relays are at rest.
#pragma once

#include "bench/bench.h"

namespace loom::lesson {

// The rocker's live lamp lies between a plus and a minus pole of batteries in one chain.
bool isLampLit(const bench::Bench& bench, bench::PartId rocker);

// Holding this button, which is held, puts a coil or a motor between the poles.
bool doesButtonRun(const bench::Bench& bench, bench::PartId button);

} // namespace loom::lesson

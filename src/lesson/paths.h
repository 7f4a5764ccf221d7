// SPDX-License-Identifier: MIT
// Whether a way leads from one terminal to another, by what is joined and closed; no current needed.
// Make Ways of a bench for several questions, or ask joined() for one.
#pragma once

#include "bench/wiring.h"
#include "lesson/exercise.h"

namespace loom::lesson {

class Ways {
public:
    // Of this bench as it stands, relays at rest. The bench outlives it.
    Ways(const bench::Bench& bench, Through through);

    // False for terminals that are not on the bench.
    bool joined(bench::TerminalRef a, bench::TerminalRef b) const;

private:
    const bench::Bench& bench;
    bench::Wiring wiring;
    std::vector<circuit::Node> groups; // of each node
};

// On this bench as it stands. False for a spot that is not on it.
bool joined(const bench::Bench& bench, const plan::Spot& a, const plan::Spot& b, Through through);

} // namespace loom::lesson

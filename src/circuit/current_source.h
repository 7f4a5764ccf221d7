// SPDX-License-Identifier: MIT
// An ideal current source, kept defined where its current has no way back.
//   i = I + v/R0 + (beyond 500 V only) (v - s 500 V) / 1 ohm,  s the sign of v.      R0 = 1 Tohm.
// Into an open circuit it therefore stands at 500 V and gives nothing; that is reported as a
// contradiction. 1 Tohm is lost beside anything; 500 V is below what makes a gap spark over (gap.h).
// Both are ours. Tested: absurd_test.
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

struct SourcePart {
    Key key = 0;
    std::uint32_t branch = 0;
    double current_A = 0.0;
    int side = 0; // s while it is at its limit
};

struct CurrentSources : Model<CurrentSource, SourcePart> {
    static bool valid(const CurrentSource& spec);

    static std::vector<Node> nodes(const CurrentSource& spec) { return {spec.from, spec.to}; }

    static bool feeds(const CurrentSource&) { return true; }

    Entry add(const CurrentSource& spec, Key key, Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    void contradicting(std::vector<Key>& keys) const; // its current has no way back
};

} // namespace loom::circuit

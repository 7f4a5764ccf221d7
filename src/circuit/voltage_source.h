// SPDX-License-Identifier: MIT
// An ideal voltage source: an ideal join with a voltage across it (joins.h), no branch of its own.
#pragma once

#include "circuit/limits.h"
#include "circuit/model.h"

namespace loom::circuit {

struct VoltageSources : Model<VoltageSource, Entry> {
    static constexpr Placing kPlacing = Placing::Ideal;

    static bool valid(const VoltageSource& s) { return within(s.emf_V, -kGreatest_V, kGreatest_V); }

    static std::vector<Node> nodes(const VoltageSource& s) { return {s.plus, s.minus}; }

    static std::optional<double> ideal_V(const VoltageSource& s) { return s.emf_V; }

    static bool feeds(const VoltageSource&) { return true; }
};

} // namespace loom::circuit

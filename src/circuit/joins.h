// SPDX-License-Identifier: MIT
// Ideal elements: voltage sources and resistors of no resistance. Wherever they form a tree, the
// nodes they join become one unknown with a known voltage between them: exact, no tiny resistance.
// Where they close a loop (a shorted source, two sources side by side, rings of ideal joins) their
// currents would be undefined or infinite: every element of such a loop gets kConflict_ohm in series
// (stage.h), which shares the current evenly and bounds it; a loop whose voltages do not add up to
// zero is a contradiction and is reported.
#pragma once

#include "circuit/netlist.h"

#include <cstdint>
#include <vector>

namespace loom::circuit {

struct IdealEdge {
    std::uint32_t element = 0; // index in the netlist
    Node a = 0, b = 0;
    double emf_V = 0.0; // voltage of a against b
};

// An ideal edge of a tree, parent nearer the root. Leaves come last.
struct TreeEdge {
    std::uint32_t element = 0;
    Node parent = 0, child = 0;
    bool parentIsA = true;
};

struct Joins {
    std::vector<std::uint32_t> unknown; // by node: which unknown it belongs to
    std::vector<double> offset_V;       // by node: its voltage against that unknown
    std::uint32_t unknowns = 0;
    std::vector<TreeEdge> tree;               // roots first
    std::vector<IdealEdge> resistive;         // take kConflict_ohm
    std::vector<std::uint32_t> contradictory; // elements, ascending
};

Joins joinIdeal(std::uint32_t nodeCount, const std::vector<IdealEdge>& edges);

} // namespace loom::circuit

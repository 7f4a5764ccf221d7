// SPDX-License-Identifier: MIT
// From the bench to its electrical network: wire(bench) gives the netlist, and the names that lead
// from parts and cables to elements and from terminals to nodes.
#pragma once

#include "bench/bench.h"
#include "circuit/netlist.h"

#include <optional>

namespace loom::bench {

// Elements of a part are numbered from 0; see wiring.cpp for which is which:
//   Rocker 0 contact, 1 lamp; Selector 0 forward, 1 reverse; all others 0.
circuit::Key partKey(PartId part, int element = 0);
circuit::Key cableKey(CableId cable);
// The part or cable a key belongs to; none for a foreign key.
PartId partOf(circuit::Key key);
CableId cableOf(circuit::Key key);

struct Wiring {
    circuit::Netlist netlist;
    // Node of each terminal: nodes[i][t] for bench.parts[i], terminal t.
    std::vector<std::vector<circuit::Node>> nodes;
};

Wiring wire(const Bench& bench);
std::optional<circuit::Node> nodeOf(const Bench& bench, const Wiring& wiring, TerminalRef terminal);

} // namespace loom::bench

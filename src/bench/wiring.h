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
// What joins the end to its neighbour: a strand that stands out, or bare copper lying on it.
circuit::Key strandKey(CableId cable, int end);

// Volts: the meter's own resistance. Amperes: fuse and shunt in series. Ohms and tone: a source and
// the resistor it tests through, from which the current enters the circuit at the red probe.
enum class MeterElement { Volts, Fuse, Shunt, Source, Through };

circuit::Key meterKey(MeterElement element);
// The part or cable a key belongs to; none for a foreign key.
PartId partOf(circuit::Key key);
CableId cableOf(circuit::Key key);
std::optional<EndRef> strandOf(circuit::Key key);

inline constexpr double kMeterVolts_ohm = 10e6; // and the rest: common practice, no source
inline constexpr double kMeterShunt_ohm = 10e-3;
inline constexpr double kMeterFuse_A = 10.0;
inline constexpr double kMeterTest_V = 1.5, kMeterTest_ohm = 1e3;

struct Wiring {
    circuit::Netlist netlist;
    // Node of each terminal: nodes[i][t] for bench.parts[i], terminal t.
    std::vector<std::vector<circuit::Node>> nodes;
    // Of the metal of each cable end: ends[i][e] for bench.cables[i]. One that does not touch its
    // terminal has a node of its own.
    std::vector<std::array<circuit::Node, 2>> ends;
};

Wiring wire(const Bench& bench);
std::optional<circuit::Node> nodeOf(const Bench& bench, const Wiring& wiring, TerminalRef terminal);
// What a probe touches; nothing when it lies on the board.
std::optional<circuit::Node> nodeOf(const Bench& bench, const Wiring& wiring, const ProbeTip& tip);

} // namespace loom::bench

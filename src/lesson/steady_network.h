// SPDX-License-Identifier: MIT
// The direct currents of a network as it stands, solved once, and how they change when a few
// conductances between nodes change (a short, a fuse that opens). Start with SteadyNetwork(netlist),
// then changed(). For bounds, not for the learner's readings: everything is cold but filaments,
// which are hot, batteries are full, a motor runs without load. No state, no time.
//
//   G v = j, each island of nodes grounded at one of its own; Z = G^-1, kept whole. With changes
//   d_k between nodes a_k and b_k, A their incidence, D = diag(d):
//   v' = v - Z A (D^-1 + A' Z A)^-1 A' v.   Source: Woodbury's identity.
// Costs n^3 once for n nodes, n k for k changes.
#pragma once

#include "circuit/netlist.h"

#include <cstddef>
#include <vector>

namespace loom::lesson {

class SteadyNetwork {
public:
    // i = siemens (v_a - v_b) + pushed_A, from a to b inside the element.
    struct Branch {
        circuit::Node a = 0, b = 0;
        double siemens = 0.0, pushed_A = 0.0;
        std::uint32_t element = 0; // index in the netlist
    };

    struct Change {
        circuit::Node a = 0, b = 0;
        double siemens = 0.0; // added; > -the conductance that is there
    };

    // What a relay or a diode does by its own voltage, from a to b.
    struct Decision {
        std::uint32_t element = 0;
        circuit::Node a = 0, b = 0;
        double onAt_V = 0.0, offBelow_V = 0.0;
        bool eitherSign = false; // a coil
        bool on = false;         // pulled in, conducting
    };

    using Decided = std::vector<bool>; // in the order of the elements

    // Each relay and diode does what its voltage says; one that finds no rest, either.
    explicit SteadyNetwork(const circuit::Netlist& netlist);
    // As given.
    SteadyNetwork(const circuit::Netlist& netlist, const Decided& given);

    const std::vector<Branch>& branches() const { return all; }

    // The branch of a cable, a fuse or whatever else has one; null for none.
    const Branch* branchOf(std::uint32_t element) const {
        const std::int32_t index = first[element];
        return index < 0 ? nullptr : &all[static_cast<std::size_t>(index)];
    }

    Decided decided() const;
    // What they would do at these voltages, and whether that is something else.
    bool decidesOtherwise(const std::vector<double>& volts_V) const;
    Decided decidedAt(const std::vector<double>& volts_V) const;

    // Some branch leads, over others, from one to the other.
    bool joined(circuit::Node a, circuit::Node b) const { return island[a] == island[b]; }

    // A battery or another source is in its island.
    bool fed(circuit::Node node) const { return islandFed[island[node]]; }

    double voltage_V(circuit::Node a, circuit::Node b) const { return volts[a] - volts[b]; }

    const std::vector<double>& voltages_V() const { return volts; }

    double current_A(const Branch& branch) const { return current_A(branch, volts); }

    static double current_A(const Branch& branch, const std::vector<double>& volts_V) {
        return branch.siemens * (volts_V[branch.a] - volts_V[branch.b]) + branch.pushed_A;
    }

    // The voltages with these changes, each within one island. At most kMostChanges.
    void changed(const std::vector<Change>& changes, std::vector<double>& volts_V) const;

    static constexpr std::size_t kMostChanges = 16;

private:
    std::vector<Branch> all;
    std::vector<std::int32_t> first; // branch of each element, -1 for none
    std::vector<Decision> decisions;
    std::vector<circuit::Node> island; // by node
    std::vector<bool> islandFed;     // by island
    std::vector<double> volts;
    std::vector<double> inverse; // Z, row by row; rows of grounded nodes are zero
    std::size_t nodes = 0;

    void build(const circuit::Netlist& netlist);
    void findIslands();
    void solve();
    bool wouldBeOn(const Decision& decision, const std::vector<double>& volts_V) const;
    double between(const Change& row, const Change& column) const;
};

} // namespace loom::lesson

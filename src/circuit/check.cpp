// SPDX-License-Identifier: MIT
#include "circuit/check.h"

#include <algorithm>
#include <cmath>

namespace loom::circuit {

namespace {

// False for NaN in any argument.
bool within(double x, double least, double greatest) {
    return x >= least && x <= greatest;
}

bool ohmsFine(double r) {
    return within(r, 0.0, kGreatest_ohm);
}

struct ValuesFine {
    bool operator()(const Resistor& p) const { return ohmsFine(p.resistance_ohm); }

    bool operator()(const VoltageSource& p) const {
        return within(p.emf_V, -kGreatest_V, kGreatest_V);
    }

    bool operator()(const CurrentSource& p) const {
        return within(p.current_A, -kGreatest_A, kGreatest_A);
    }

    bool operator()(const Capacitor& p) const {
        return within(p.capacitance_F, 1e-15, 1e6) &&
               within(p.initial_V, -kGreatest_V, kGreatest_V);
    }

    bool operator()(const Inductor& p) const {
        return within(p.inductance_H, 1e-9, 1e6) && ohmsFine(p.resistance_ohm) &&
               within(p.initial_A, -kGreatest_A, kGreatest_A);
    }

    bool operator()(const Cable& p) const {
        return within(p.length_m, 1e-4, 1e5) && within(p.area_m2, 1e-9, 0.1) &&
               within(p.sleeveLimit_K, 1.0, 1e4) && ohmsFine(p.endA.resistance_ohm) &&
               ohmsFine(p.endB.resistance_ohm);
    }

    bool operator()(const Battery& p) const {
        return within(p.full_V, 0.0, kGreatest_V) && within(p.low_V, 0.0, p.full_V) &&
               within(p.resistance_ohm, kLeast_ohm, kGreatest_ohm) &&
               within(p.capacity_C, 1e-3, 1e12) && within(p.charge, 0.0, 1.0) &&
               within(p.temp_K, 100.0, 1000.0);
    }

    bool operator()(const Contact& p) const { return ohmsFine(p.resistance_ohm); }

    bool operator()(const Fuse& p) const {
        return within(p.rating_A, 1e-6, 1e6) && within(p.cold_ohm, kLeast_ohm, kGreatest_ohm);
    }

    bool operator()(const Relay& p) const {
        return within(p.coil_ohm, 1e-3, kGreatest_ohm) && within(p.coil_H, 1e-9, 1e6) &&
               within(p.pullIn_V, 1e-9, kGreatest_V) && within(p.dropOut_V, 0.0, p.pullIn_V) &&
               ohmsFine(p.contact_ohm) && within(p.contactRating_A, 1e-6, kGreatest_A);
    }

    bool operator()(const Diode& p) const {
        return within(p.forward_V, 0.01, 10.0) && within(p.rated_A, 1e-6, 1e6) &&
               within(p.reverse_V, 1e-3, kGreatest_V);
    }

    bool operator()(const Lamp& p) const {
        return within(p.rated_V, 1e-3, kGreatest_V) && within(p.rated_W, 1e-6, 1e6) &&
               within(p.coldRatio, 1e-3, 1.0);
    }

    bool operator()(const Motor& p) const {
        return within(p.resistance_ohm, 1e-6, kGreatest_ohm) && within(p.inductance_H, 1e-9, 1e6) &&
               within(p.constant_Vs, 0.0, 1e6) && within(p.inertia_kg_m2, 1e-9, 1e9) &&
               within(p.friction_Nm, 0.0, 1e9) && within(p.viscous_Nms, 0.0, 1e9) &&
               within(p.load_Nm, 0.0, 1e9);
    }
};

struct NodesOf {
    std::vector<Node> operator()(const VoltageSource& p) const { return {p.plus, p.minus}; }

    std::vector<Node> operator()(const CurrentSource& p) const { return {p.from, p.to}; }

    std::vector<Node> operator()(const Battery& p) const { return {p.plus, p.minus}; }

    std::vector<Node> operator()(const Diode& p) const { return {p.anode, p.cathode}; }

    std::vector<Node> operator()(const Relay& p) const {
        return {p.coilA, p.coilB, p.common, p.normallyOpen, p.normallyClosed};
    }

    template <class TwoEnded> std::vector<Node> operator()(const TwoEnded& p) const {
        return {p.a, p.b};
    }
};

} // namespace

std::vector<Node> nodesOf(const Part& part) {
    return std::visit(NodesOf{}, part);
}

std::vector<char> usable(const Netlist& netlist) {
    std::vector<char> fine(netlist.elements.size(), 1);
    std::vector<std::pair<Key, std::size_t>> names;
    for (std::size_t e = 0; e < netlist.elements.size(); ++e) {
        const Element& element = netlist.elements[e];
        names.emplace_back(element.key, e);
        fine[e] = element.key != 0 && std::visit(ValuesFine{}, element.part);
        for (Node n : nodesOf(element.part))
            if (n >= netlist.nodeCount) fine[e] = 0;
    }
    std::sort(names.begin(), names.end());
    for (std::size_t k = 1; k < names.size(); ++k)
        if (names[k].first == names[k - 1].first) fine[names[k].second] = 0;
    return fine;
}

} // namespace loom::circuit

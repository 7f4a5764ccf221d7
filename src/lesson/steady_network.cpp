// SPDX-License-Identifier: MIT
#include "lesson/steady_network.h"

#include "circuit/cable.h"
#include "circuit/node_groups.h"

#include <array>
#include <cmath>
#include <utility>
#include <variant>

namespace loom::lesson {
namespace {

using circuit::Node;
using Branch = SteadyNetwork::Branch;

// Joins and contacts without resistance.
constexpr double kLeast_ohm = 1e-6;
constexpr double kDiodeOn_ohm = 0.05;
// What a motor that runs without load takes, as a resistance at this voltage.
constexpr double kRunningAt_V = 24.0;

double cableCold_ohm(const circuit::Cable& cable) {
    return circuit::cableValues(cable).copper_ohm + cable.endA.resistance_ohm +
           cable.endB.resistance_ohm;
}

double conductance_S(double resistance_ohm) {
    return 1.0 / (resistance_ohm > kLeast_ohm ? resistance_ohm : kLeast_ohm);
}

using Decision = SteadyNetwork::Decision;

// The branches of every element, with each decision as it stands.
class Branches {
public:
    explicit Branches(const std::vector<Decision>& made) : decisions(made) {}

    std::vector<Branch> all;

    void add(std::uint32_t index, const circuit::Element& element) {
        current = index;
        std::visit(*this, element.part);
    }

    void operator()(const circuit::Resistor& r) { join(r.a, r.b, r.resistance_ohm); }

    void operator()(const circuit::VoltageSource& s) { source(s.plus, s.minus, s.emf_V, 0.0); }

    void operator()(const circuit::CurrentSource& s) {
        all.push_back({s.from, s.to, 0.0, s.current_A, current});
    }

    void operator()(const circuit::Capacitor&) {}

    void operator()(const circuit::Inductor& l) { join(l.a, l.b, l.resistance_ohm); }

    void operator()(const circuit::Cable& c) {
        if (!c.parted) join(c.a, c.b, cableCold_ohm(c));
    }

    void operator()(const circuit::Battery& b) {
        source(b.plus, b.minus, b.full_V, b.resistance_ohm);
    }

    void operator()(const circuit::Contact& c) {
        if (c.closed) join(c.a, c.b, c.resistance_ohm);
    }

    void operator()(const circuit::Fuse& f) {
        if (!f.blown) join(f.a, f.b, f.cold_ohm);
    }

    void operator()(const circuit::Relay& r) {
        join(r.coilA, r.coilB, r.coil_ohm);
        const bool in = r.welded || isOn();
        join(r.common, in ? r.normallyOpen : r.normallyClosed, r.contact_ohm);
    }

    void operator()(const circuit::Diode& d) {
        if (isOn()) source(d.anode, d.cathode, d.forward_V, kDiodeOn_ohm);
    }

    void operator()(const circuit::Lamp& l) {
        if (!l.broken) join(l.a, l.b, l.rated_V * l.rated_V / l.rated_W);
    }

    void operator()(const circuit::Motor& m) {
        const double idle_A = (m.friction_Nm + m.load_Nm) / m.constant_Vs;
        join(m.a, m.b, m.jammed ? m.resistance_ohm : kRunningAt_V / idle_A);
    }

private:
    const std::vector<Decision>& decisions;
    std::uint32_t current = 0;

    bool isOn() const {
        for (const Decision& decision : decisions)
            if (decision.element == current) return decision.on;
        return false;
    }

    void join(Node a, Node b, double resistance_ohm) {
        if (a != b) all.push_back({a, b, conductance_S(resistance_ohm), 0.0, current});
    }

    // i from plus to minus inside: (v - emf) / R.
    void source(Node plus, Node minus, double emf_V, double resistance_ohm) {
        if (plus == minus) return;
        const double siemens = conductance_S(resistance_ohm);
        all.push_back({plus, minus, siemens, -siemens * emf_V, current});
    }
};

// Relays at rest, diodes not conducting.
std::vector<Decision> undecided(const circuit::Netlist& netlist) {
    std::vector<Decision> decisions;
    for (std::uint32_t i = 0; i < netlist.elements.size(); ++i) {
        const circuit::Part& part = netlist.elements[i].part;
        if (const auto* r = std::get_if<circuit::Relay>(&part))
            decisions.push_back({i, r->coilA, r->coilB, r->pullIn_V, r->dropOut_V, true, false});
        if (const auto* d = std::get_if<circuit::Diode>(&part))
            decisions.push_back({i, d->anode, d->cathode, d->forward_V, d->forward_V, false, false});
    }
    return decisions;
}

std::vector<Branch> branchesOf(const circuit::Netlist& netlist,
                               const std::vector<Decision>& decisions) {
    Branches branches(decisions);
    for (std::uint32_t i = 0; i < netlist.elements.size(); ++i)
        branches.add(i, netlist.elements[i]);
    return std::move(branches.all);
}

// Gauss-Jordan on a symmetric positive definite matrix of n rows; its inverse in place. Needs no
// pivoting: G of a grounded island is diagonally dominant.
void invert(std::vector<double>& m, std::size_t n) {
    for (std::size_t k = 0; k < n; ++k) {
        double* const row = m.data() + k * n;
        const double per = 1.0 / row[k];
        row[k] = 1.0;
        for (std::size_t c = 0; c < n; ++c)
            row[c] *= per;
        for (std::size_t r = 0; r < n; ++r) {
            if (r == k) continue;
            double* const other = m.data() + r * n;
            const double share = other[k];
            if (share == 0.0) continue;
            other[k] = 0.0;
            for (std::size_t c = 0; c < n; ++c)
                other[c] -= share * row[c];
        }
    }
}

} // namespace

SteadyNetwork::SteadyNetwork(const circuit::Netlist& netlist)
    : decisions(undecided(netlist)), nodes(netlist.nodeCount) {
    // A relay that interrupts itself, or diodes that chase one another, stop here on one side.
    constexpr int kMostRounds = 8;
    for (int round = 0; round < kMostRounds; ++round) {
        build(netlist);
        const Decided found = decidedAt(volts);
        if (found == decided()) return;
        for (std::size_t i = 0; i < found.size(); ++i)
            decisions[i].on = found[i];
    }
    build(netlist);
}

SteadyNetwork::SteadyNetwork(const circuit::Netlist& netlist, const Decided& given)
    : decisions(undecided(netlist)), nodes(netlist.nodeCount) {
    for (std::size_t i = 0; i < decisions.size() && i < given.size(); ++i)
        decisions[i].on = given[i];
    build(netlist);
}

SteadyNetwork::Decided SteadyNetwork::decided() const {
    Decided now;
    for (const Decision& decision : decisions)
        now.push_back(decision.on);
    return now;
}

bool SteadyNetwork::wouldBeOn(const Decision& d, const std::vector<double>& volts_V) const {
    const double across_V = volts_V[d.a] - volts_V[d.b];
    const double drives_V = d.eitherSign ? std::fabs(across_V) : across_V;
    return joined(d.a, d.b) && drives_V >= (d.on ? d.offBelow_V : d.onAt_V);
}

bool SteadyNetwork::decidesOtherwise(const std::vector<double>& volts_V) const {
    for (const Decision& decision : decisions)
        if (wouldBeOn(decision, volts_V) != decision.on) return true;
    return false;
}

SteadyNetwork::Decided SteadyNetwork::decidedAt(const std::vector<double>& volts_V) const {
    Decided found;
    for (const Decision& decision : decisions)
        found.push_back(wouldBeOn(decision, volts_V));
    return found;
}

void SteadyNetwork::build(const circuit::Netlist& netlist) {
    all = branchesOf(netlist, decisions);
    first.assign(netlist.elements.size(), -1);
    for (std::size_t i = all.size(); i-- > 0;)
        first[all[i].element] = static_cast<std::int32_t>(i);
    findIslands();
    solve();
}

void SteadyNetwork::findIslands() {
    circuit::NodeGroups joins(nodes);
    for (const Branch& branch : all)
        joins.join(branch.a, branch.b);
    island = joins.tops();
    islandFed.assign(nodes, false);
    for (const Branch& branch : all)
        if (branch.pushed_A != 0.0) islandFed[island[branch.a]] = true;
}

void SteadyNetwork::solve() {
    // The node that names its island is its ground: a row and column of the identity.
    inverse.assign(nodes * nodes, 0.0);
    std::vector<double> pushed(nodes, 0.0);
    for (const Branch& branch : all) {
        const bool a = island[branch.a] != branch.a, b = island[branch.b] != branch.b;
        if (a) inverse[branch.a * nodes + branch.a] += branch.siemens;
        if (b) inverse[branch.b * nodes + branch.b] += branch.siemens;
        if (a && b) {
            inverse[branch.a * nodes + branch.b] -= branch.siemens;
            inverse[branch.b * nodes + branch.a] -= branch.siemens;
        }
        pushed[branch.a] -= branch.pushed_A;
        pushed[branch.b] += branch.pushed_A;
    }
    // A node that only a current source reaches has no conductance: it stays where its ground is.
    std::vector<bool> held(nodes);
    for (std::size_t node = 0; node < nodes; ++node) {
        double& own = inverse[node * nodes + node];
        held[node] = own == 0.0;
        if (held[node]) own = 1.0;
    }
    invert(inverse, nodes);
    volts.assign(nodes, 0.0);
    for (std::size_t node = 0; node < nodes; ++node) {
        double* const row = inverse.data() + node * nodes;
        if (held[node]) row[node] = 0.0;
        for (std::size_t from = 0; from < nodes; ++from)
            volts[node] += row[from] * pushed[from];
    }
}

double SteadyNetwork::between(const Change& row, const Change& column) const {
    const double* const a = inverse.data() + row.a * nodes;
    const double* const b = inverse.data() + row.b * nodes;
    return (a[column.a] - a[column.b]) - (b[column.a] - b[column.b]);
}

void SteadyNetwork::changed(const std::vector<Change>& changes,
                            std::vector<double>& volts_V) const {
    const std::size_t k = changes.size() < kMostChanges ? changes.size() : kMostChanges;
    if (k == 1) { // nearly always
        const Change& only = changes.front();
        const double current_A =
            voltage_V(only.a, only.b) / (1.0 / only.siemens + between(only, only));
        const double* const a = inverse.data() + only.a * nodes;
        const double* const b = inverse.data() + only.b * nodes;
        volts_V.resize(nodes);
        for (std::size_t node = 0; node < nodes; ++node)
            volts_V[node] = volts[node] - (a[node] - b[node]) * current_A;
        return;
    }
    std::array<double, kMostChanges * kMostChanges> matrix;
    for (std::size_t r = 0; r < k; ++r)
        for (std::size_t c = 0; c < k; ++c)
            matrix[r * k + c] =
                between(changes[r], changes[c]) + (r == c ? 1.0 / changes[r].siemens : 0.0);
    // The currents of the changes, by elimination with the greatest pivot.
    std::array<double, kMostChanges> current_A;
    for (std::size_t r = 0; r < k; ++r)
        current_A[r] = voltage_V(changes[r].a, changes[r].b);
    for (std::size_t p = 0; p < k; ++p) {
        std::size_t best = p;
        for (std::size_t r = p + 1; r < k; ++r)
            if (std::fabs(matrix[r * k + p]) > std::fabs(matrix[best * k + p])) best = r;
        for (std::size_t c = 0; c < k; ++c)
            std::swap(matrix[p * k + c], matrix[best * k + c]);
        std::swap(current_A[p], current_A[best]);
        const double pivot = matrix[p * k + p];
        if (pivot == 0.0) continue;
        for (std::size_t r = p + 1; r < k; ++r) {
            const double share = matrix[r * k + p] / pivot;
            for (std::size_t c = p; c < k; ++c)
                matrix[r * k + c] -= share * matrix[p * k + c];
            current_A[r] -= share * current_A[p];
        }
    }
    for (std::size_t p = k; p-- > 0;) {
        for (std::size_t c = p + 1; c < k; ++c)
            current_A[p] -= matrix[p * k + c] * current_A[c];
        const double pivot = matrix[p * k + p];
        current_A[p] = pivot == 0.0 ? 0.0 : current_A[p] / pivot;
    }
    volts_V = volts;
    for (std::size_t r = 0; r < k; ++r) {
        // Z is symmetric: a row serves as a column.
        const double* const a = inverse.data() + changes[r].a * nodes;
        const double* const b = inverse.data() + changes[r].b * nodes;
        for (std::size_t node = 0; node < nodes; ++node)
            volts_V[node] -= (a[node] - b[node]) * current_A[r];
    }
}

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
#include "circuit/network.h"

#include "circuit/portable_math.h"

#include <algorithm>
#include <cmath>

namespace loom::circuit {

namespace {

constexpr int kRounds = 60;

template <class Parts> void stampKind(const Parts& parts, Stage& s) {
    if (!parts.empty()) stamp(parts, s);
}

template <class Parts> void settleKind(Parts& parts, Stage& s) {
    if (!parts.empty()) settle(parts, s);
}

} // namespace

void Network::stampAll(Stage& s) {
    stampKind(capacitors, s);
    stampKind(coils, s);
    stampKind(cables, s);
    stampKind(batteries, s);
    stampKind(contacts, s);
    stampKind(fuses, s);
    stampKind(diodes, s);
    stampKind(lamps, s);
    stampKind(motors, s);
}

void Network::settleAll(Stage& s) {
    settleKind(capacitors, s);
    settleKind(coils, s);
    settleKind(cables, s);
    settleKind(batteries, s);
    settleKind(contacts, s);
    settleKind(fuses, s);
    settleKind(diodes, s);
    settleKind(lamps, s);
    settleKind(motors, s);
    if (!relays.empty()) settle(relays, contacts, s);
}

bool Network::conductancesChanged() {
    for (std::size_t k = firstMoving; k < branches.size(); ++k)
        if (branches.g[k] != factored_S[k]) return true;
    return false;
}

void Network::solveNodes() {
    Branches& br = branches;
    if (conductancesChanged()) {
        std::vector<double>& slots = mesh.conductances();
        std::copy(fixedConductance.begin(), fixedConductance.end(), slots.begin());
        for (std::size_t k = firstMoving; k < br.size(); ++k) {
            factored_S[k] = br.g[k];
            if (br.slot[k] >= 0) slots[br.slot[k]] += br.g[k];
        }
        mesh.factor();
        ++factorings;
    }
    std::copy(fixedInject_A.begin(), fixedInject_A.end(), inject_A.begin());
    for (std::size_t k = firstMoving; k < br.size(); ++k) {
        const double through = br.j[k] + br.g[k] * br.offset_V[k];
        inject_A[br.a[k]] -= through;
        inject_A[br.b[k]] += through;
    }
    mesh.solve(inject_A.data(), volts_V.data());
    for (std::size_t k = 0; k < br.size(); ++k)
        br.v[k] = volts_V[br.a[k]] - volts_V[br.b[k]] + br.offset_V[k];
}

bool Network::stage(double a_s, double time_s, const double* base, double* y, double* f) {
    Stage s;
    s.a_s = a_s;
    s.time_s = time_s;
    s.ambient_K = netlist.ambient_K;
    s.base = base;
    s.y = y;
    s.f = f;
    s.g = branches.g.data();
    s.j = branches.j.data();
    s.v = branches.v.data();
    s.i = branches.i.data();
    bool agreed = false;
    for (int round = 0; round < kRounds && !agreed; ++round) {
        stampAll(s);
        solveNodes();
        s.disagreement = 0.0;
        settleAll(s);
        agreed = s.disagreement <= 1.0;
    }
    for (std::size_t k = 0; k < firstMoving; ++k)
        branches.i[k] = branches.g[k] * branches.v[k] + branches.j[k];
    return agreed;
}

void Network::forgetGuesses() {
    for (CoilPart& c : coils)
        c.spark = 0;
    for (MotorPart& m : motors)
        m.spark = 0;
    for (ContactPart& c : contacts)
        c.gap.side = 0;
    for (FusePart& f : fuses)
        f.gap.side = 0;
    for (CablePart& c : cables)
        c.parted.side = 0;
    for (DiodePart& d : diodes)
        d.at_V = 0.0;
    for (LampPart& l : lamps) {
        l.at_V = 0.0;
        l.gap.side = 0;
    }
}

void Network::recoverIdealCurrents(const double* branchCurrent_A,
                                   std::vector<double>& treeCurrent_A) const {
    std::vector<double> leaving(netlist.nodeCount, 0.0);
    for (std::size_t k = 0; k < branches.size(); ++k) {
        leaving[branches.nodeA[k]] += branchCurrent_A[k];
        leaving[branches.nodeB[k]] -= branchCurrent_A[k];
    }
    treeCurrent_A.assign(joins.tree.size(), 0.0);
    for (std::size_t k = joins.tree.size(); k-- > 0;) {
        const TreeEdge& e = joins.tree[k];
        treeCurrent_A[k] = e.parentIsA ? leaving[e.child] : -leaving[e.child];
        leaving[e.parent] += leaving[e.child];
    }
}

std::vector<std::uint32_t> Network::islands() const {
    std::vector<std::uint32_t> root(joins.unknowns);
    for (std::uint32_t k = 0; k < joins.unknowns; ++k)
        root[k] = k;
    const auto find = [&](std::uint32_t k) {
        while (root[k] != k)
            k = root[k] = root[root[k]];
        return k;
    };
    for (std::size_t k = 0; k < branches.size(); ++k)
        if (branches.g[k] > 0.0) {
            const std::uint32_t a = find(branches.a[k]), b = find(branches.b[k]);
            if (a != b) root[a < b ? b : a] = a < b ? a : b;
        }
    std::vector<std::uint32_t> island(netlist.nodeCount);
    for (std::uint32_t n = 0; n < netlist.nodeCount; ++n)
        island[n] = find(joins.unknown[n]);
    return island;
}

} // namespace loom::circuit

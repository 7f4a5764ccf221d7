// SPDX-License-Identifier: MIT
#include "circuit/network.h"

#include <algorithm>

namespace loom::circuit {

namespace {

constexpr int kRounds = 150, kBoldRounds = 15;

} // namespace

Point Network::emptyPoint() const {
    Point p;
    p.y = states.value;
    p.f.assign(states.value.size(), 0.0);
    p.v.assign(branches.size(), 0.0);
    p.i.assign(branches.size(), 0.0);
    p.volts_V.assign(joins.unknowns, 0.0);
    return p;
}

void Network::stampAll(Stage& s) {
    stamp(sources, s);
    stamp(capacitors, s);
    stamp(coils, s);
    stamp(cables, s);
    stamp(batteries, s);
    stamp(contacts, s);
    stamp(fuses, s);
    stamp(diodes, s);
    stamp(lamps, s);
    stamp(motors, s);
}

void Network::settleAll(Stage& s) {
    settle(sources, s);
    settle(capacitors, s);
    settle(coils, s);
    settle(cables, s);
    settle(batteries, s);
    settle(contacts, s);
    settle(fuses, s);
    settle(diodes, s);
    settle(lamps, s);
    settle(motors, s);
}

void Network::warmAll(Stage& s) {
    warm(coils, s);
    warm(cables, s);
    warm(batteries, s);
    warm(fuses, s);
    warm(lamps, s);
    warm(motors, s);
    warm(relays, contacts, s);
}

void Network::forgetGuesses(const double* y, const double* v) {
    for (SourcePart& p : sources)
        p.side = 0;
    for (CoilPart& c : coils)
        c.spark = 0;
    for (MotorPart& m : motors)
        m.spark = 0;
    for (ContactPart& c : contacts)
        c.gap.side = 0;
    for (FusePart& f : fuses)
        f.gap.side = 0;
    for (Gap& g : cables.parted)
        g.side = 0;
    for (DiodePart& d : diodes)
        d.at_V = v[d.branch] < d.knee_V ? v[d.branch] : d.knee_V;
    for (LampPart& l : lamps) {
        l.at_V = l.last_V = v[l.branch];
        l.perSecond_V = l.last_s = 0.0;
        l.gap.side = 0;
    }
    refresh(coils, y);
    refresh(cables, y);
    refresh(batteries, y);
    refresh(fuses, y);
    refresh(motors, y);
    std::fill(factored_S.begin(), factored_S.end(), -1.0);
}

void Network::modelsChanged() {
    std::fill(silent.begin(), silent.end(), 0);
    for (std::size_t k = 0; k < cables.size(); ++k)
        silent[cables.branch(k)] = cables.parted[k].closed();
    for (const ContactPart& c : contacts)
        silent[c.branch] = c.gap.closed();
    feeding.clear();
    for (std::uint32_t k = firstMoving; k < branches.size(); ++k) {
        const bool feeds = !silent[k] || branches.offset_V[k] != 0.0;
        if (feeds && branches.slot[k] >= 0) feeding.push_back(k);
        if (silent[k]) branches.j[k] = 0.0;
    }
}

int Network::sparks() const {
    int count = 0;
    for (const CoilPart& c : coils)
        count += c.spark != 0;
    for (const MotorPart& m : motors)
        count += m.spark != 0;
    for (const ContactPart& c : contacts)
        count += c.gap.side != 0;
    for (const FusePart& f : fuses)
        count += f.gap.side != 0;
    for (const LampPart& l : lamps)
        count += l.gap.side != 0;
    for (const std::uint32_t k : cables.apart)
        count += cables.parted[k].side != 0;
    return count;
}

// The current that a branch passes at equal node voltages, from its lower unknown to its higher.
double Network::offsetCurrent_A(std::uint32_t k) const {
    const double along = branches.j[k] + branches.g[k] * branches.offset_V[k];
    return branches.a[k] < branches.b[k] ? along : -along;
}

void Network::feedFixed() {
    std::fill(fixedCurrent.begin(), fixedCurrent.end(), 0.0);
    for (std::uint32_t k = 0; k < firstMoving; ++k)
        if (branches.slot[k] >= 0 && branches.g[k] > 0.0)
            fixedCurrent[branches.slot[k]] += offsetCurrent_A(k);
}

bool Network::factorIsOld() const {
    const double* const g = branches.g.data();
    const double* const old = factored_S.data();
    const std::size_t n = branches.size();
    for (std::size_t k = firstMoving; k < n; ++k)
        if (g[k] != old[k]) return true;
    return false;
}

void Network::factor() {
    std::vector<double>& slots = mesh.conductances();
    std::copy(fixedConductance.begin(), fixedConductance.end(), slots.begin());
    for (std::size_t k = firstMoving; k < branches.size(); ++k) {
        factored_S[k] = branches.g[k];
        if (branches.slot[k] >= 0) slots[branches.slot[k]] += branches.g[k];
    }
    mesh.factor();
    ++factorings;
}

void Network::solveNodes(Point& p) {
    if (factorIsOld()) factor();
    const Branches& br = branches;
    double* const x = p.volts_V.data();
    double* const t = mesh.currents().data();
    std::copy(fixedCurrent.begin(), fixedCurrent.end(), t);
    for (const std::uint32_t k : feeding)
        t[br.slot[k]] += offsetCurrent_A(k);
    mesh.solve(x);
    const std::uint32_t *const a = br.a.data(), *const b = br.b.data();
    const double* const offset = br.offset_V.data();
    double* const v = p.v.data();
    const std::size_t n = br.size();
    for (std::size_t k = 0; k < n; ++k)
        v[k] = x[a[k]] - x[b[k]] + offset[k];
    ++rounds;
}

Network::Outcome
Network::stage(double a_s, double time_s, const double* base, Point& p, bool exactly) {
    Stage s;
    s.a_s = a_s;
    s.time_s = time_s;
    s.ambient_K = netlist.ambient_K;
    s.driftRelative = kDriftRelative * tolerance;
    s.staleRelative = capacitors.empty() ? kStaleRelative * std::min(tolerance, 1.0) : 0.0;
    s.agreeRelative = exactly ? kAgreeExactly : kAgreeRelative * std::min(tolerance, 1.0);
    s.base = base;
    s.y = p.y.data();
    s.f = p.f.data();
    s.g = branches.g.data();
    s.j = branches.j.data();
    s.v = p.v.data();
    s.i = p.i.data();
    s.factored_S = factored_S.data();
    bool agreed = false;
    for (int round = 0; round < kRounds && !agreed; ++round) {
        stampAll(s);
        solveNodes(p);
        s.first = s.flipped = false;
        s.cautious = round >= kBoldRounds;
        s.disagreement = 0.0;
        settleAll(s);
        agreed = s.disagreement <= 1.0;
    }
    for (std::size_t k = 0; k < firstMoving; ++k)
        p.i[k] = branches.g[k] * p.v[k] + branches.j[k];
    warmAll(s);
    return {agreed, s.drift};
}

void Network::balance(std::vector<double>& current_A) {
    const Branches& br = branches;
    std::fill(residual_A.begin(), residual_A.end(), 0.0);
    for (std::size_t k = 0; k < br.size(); ++k) {
        residual_A[br.a[k]] -= current_A[k];
        residual_A[br.b[k]] += current_A[k];
    }
    mesh.solveForced(residual_A.data());
    for (std::size_t k = 0; k < br.size(); ++k) {
        const double g = k < firstMoving ? br.g[k] : factored_S[k];
        current_A[k] += g * (residual_A[br.a[k]] - residual_A[br.b[k]]);
    }
}

void Network::recoverIdealCurrents(const std::vector<double>& branchCurrent_A,
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

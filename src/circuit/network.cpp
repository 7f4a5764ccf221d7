// SPDX-License-Identifier: MIT
#include "circuit/network.h"

#include <algorithm>

namespace loom::circuit {

namespace {

constexpr int kMostIterations = 150, kUndampedIterations = 15;

} // namespace

Solution Network::emptySolution() const {
    Solution p;
    p.y = states.value;
    p.f.assign(states.value.size(), 0.0);
    p.v.assign(branches.size(), 0.0);
    p.i.assign(branches.size(), 0.0);
    p.volts_V.assign(joins.unknowns, 0.0);
    return p;
}

void Network::forgetGuesses(const double* y, const double* v) {
    models.each([&](auto& model) { model.restart(y, v); });
    std::fill(factored_S.begin(), factored_S.end(), -1.0);
}

void Network::modelsChanged() {
    std::fill(silent.begin(), silent.end(), 0);
    models.each([&](const auto& model) { model.markSilent(silent); });
    feeding.clear();
    for (std::uint32_t k = firstMoving; k < branches.size(); ++k) {
        const bool feeds = !silent[k] || branches.offset_V[k] != 0.0;
        if (feeds && branches.slot[k] >= 0) feeding.push_back(k);
        if (silent[k]) branches.j[k] = 0.0;
    }
}

int Network::sparks() const {
    int count = 0;
    models.each([&](const auto& model) { count += model.sparks(); });
    return count;
}

double Network::firstCrossing(const Step& step) const {
    Crossings first(step, models);
    models.each(CrossingOrder{}, [&](const auto& model) { model.findCrossings(first); });
    return first.theta;
}

double Network::extinction(const Step& step) const {
    Extinction first(step);
    models.each([&](const auto& model) { model.findExtinction(first); });
    return first.least;
}

double Network::nextTimed_s() const {
    double next = 1e300;
    models.each([&](const auto& model) { next = std::min(next, model.nextTimed_s()); });
    return next;
}

bool Network::applyEvents(double time_s,
                          std::vector<double>& y,
                          const Solution& at,
                          std::vector<Event>& events) {
    Instant now{models, time_s, y, at, events};
    bool jumped = false;
    models.each(EventOrder{}, [&](auto& model) { jumped = model.applyEvents(now) || jumped; });
    return jumped;
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

void Network::solveNodes(Solution& p) {
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
    ++iterations;
}

Network::Agreement
Network::stage(double a_s, double time_s, const double* base, Solution& p, bool exactly) {
    Stage s;
    s.a_s = a_s;
    s.time_s = time_s;
    s.ambient_K = netlist.ambient_K;
    s.driftRelative = kDriftRelative * tolerance;
    s.staleRelative =
        models.of<Capacitors>().all.empty() ? kStaleRelative * std::min(tolerance, 1.0) : 0.0;
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
    for (int iteration = 0; iteration < kMostIterations && !agreed; ++iteration) {
        models.each([&](auto& model) { model.stamp(s); });
        solveNodes(p);
        s.first = s.flipped = false;
        s.cautious = iteration >= kUndampedIterations;
        s.disagreement = 0.0;
        models.each([&](auto& model) { model.updateBranches(s); });
        agreed = s.disagreement <= 1.0;
    }
    for (std::size_t k = 0; k < firstMoving; ++k)
        p.i[k] = branches.g[k] * p.v[k] + branches.j[k];
    models.each([&](auto& model) { model.updateTemperatures(s, models); });
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

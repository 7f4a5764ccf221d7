// SPDX-License-Identifier: MIT
#include "circuit/current_source.h"

#include "circuit/models.h"

namespace loom::circuit {

namespace {

constexpr double kLeak_S = 1e-12, kCompliance_V = 500.0, kLimit_S = 1.0;

} // namespace

bool CurrentSources::valid(const CurrentSource& spec) {
    return within(spec.current_A, -kGreatest_A, kGreatest_A);
}

Entry CurrentSources::add(const CurrentSource& spec, Key key, Builder& b) {
    all.push_back({key, b.branch(spec.from, spec.to), spec.current_A});
    return {lastIndex(all), all.back().branch};
}

void CurrentSources::restart(const double*, const double*) {
    for (SourcePart& p : all)
        p.side = 0;
}

void CurrentSources::stamp(Stage& s) {
    for (const SourcePart& p : all) {
        const double limit_S = p.side == 0 ? 0.0 : kLimit_S;
        s.g[p.branch] = kLeak_S + limit_S;
        s.j[p.branch] = p.current_A - limit_S * p.side * kCompliance_V;
    }
}

void CurrentSources::updateBranches(Stage& s) {
    for (SourcePart& p : all) {
        const double v = s.v[p.branch];
        s.i[p.branch] = s.g[p.branch] * v + s.j[p.branch];
        s.changeSide(p.side, v > kCompliance_V ? 1 : v < -kCompliance_V ? -1 : 0);
    }
}

void CurrentSources::contradicting(std::vector<Key>& keys) const {
    for (const SourcePart& p : all)
        if (p.side != 0) keys.push_back(p.key);
}

} // namespace loom::circuit

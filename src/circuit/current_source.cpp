// SPDX-License-Identifier: MIT
#include "circuit/current_source.h"

namespace loom::circuit {

namespace {

constexpr double kLeak_S = 1e-12, kCompliance_V = 500.0, kLimit_S = 1.0;

} // namespace

void stamp(const std::vector<SourcePart>& sources, Stage& s) {
    for (const SourcePart& p : sources) {
        const double limit_S = p.side == 0 ? 0.0 : kLimit_S;
        s.g[p.branch] = kLeak_S + limit_S;
        s.j[p.branch] = p.current_A - limit_S * p.side * kCompliance_V;
    }
}

void settle(std::vector<SourcePart>& sources, Stage& s) {
    for (SourcePart& p : sources) {
        const double v = s.v[p.branch];
        s.i[p.branch] = s.g[p.branch] * v + s.j[p.branch];
        s.changeSide(p.side, v > kCompliance_V ? 1 : v < -kCompliance_V ? -1 : 0);
    }
}

} // namespace loom::circuit

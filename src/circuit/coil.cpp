// SPDX-License-Identifier: MIT
#include "circuit/coil.h"

#include "circuit/gap.h"

namespace loom::circuit {

void refresh(std::vector<CoilPart>& coils, const double* y) {
    for (CoilPart& c : coils)
        c.stamped_ohm = c.resistance(y);
}

void stamp(std::vector<CoilPart>& coils, Stage& s) {
    for (CoilPart& c : coils) {
        if (s.first) {
            const double r = c.resistance(s.y);
            if (c.warms && s.stale(c.stamped_ohm, r)) c.stamped_ohm = r;
            const double perD = 1.0 / (c.inductance_H + s.a_s * c.stamped_ohm);
            c.line_S = s.a_s * perD;
            c.line_A = c.inductance_H * s.base[c.current] * perD;
        }
        double g = c.line_S, j = c.line_A;
        stampInsulation(c.spark, g, j);
        s.g[c.branch] = g;
        s.j[c.branch] = j;
    }
}

void settle(std::vector<CoilPart>& coils, Stage& s) {
    for (CoilPart& c : coils) {
        const double v = s.v[c.branch], i = c.line_S * v + c.line_A;
        s.y[c.current] = i;
        s.f[c.current] = (v - c.stamped_ohm * i) / c.inductance_H;
        s.i[c.branch] = i + settleInsulation(c.spark, v, s);
    }
}

void warm(const std::vector<CoilPart>& coils, Stage& s) {
    for (const CoilPart& c : coils) {
        if (!c.warms) continue;
        const double i = s.y[c.current], p = i * i * c.stamped_ohm, a = s.a_s / c.heat_J_per_K;
        const double rise =
            (s.base[c.temperature] - s.ambient_K + a * p) / (1.0 + a * c.loss_W_per_K);
        s.f[c.temperature] = (p - c.loss_W_per_K * rise) / c.heat_J_per_K;
        s.y[c.temperature] = s.ambient_K + rise;
        s.compare(c.resistance(s.y), c.stamped_ohm);
    }
}

} // namespace loom::circuit

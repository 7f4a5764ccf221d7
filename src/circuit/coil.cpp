// SPDX-License-Identifier: MIT
#include "circuit/coil.h"

#include "circuit/gap.h"

#include <cmath>

namespace loom::circuit {

namespace {

void warm(const CoilPart& c, double i, double r, Stage& s) {
    const double a = s.a_s / c.heat_J_per_K, rise = s.base[c.temperature] - s.ambient_K;
    const double next = (rise + a * i * i * r) / (1.0 + a * c.loss_W_per_K);
    s.f[c.temperature] = (i * i * r - c.loss_W_per_K * next) / c.heat_J_per_K;
    s.y[c.temperature] = s.ambient_K + next;
    s.disagree(std::fabs(c.resistance(s.y) - r) / (r * 1e-6 + 1e-12));
}

} // namespace

void stamp(const std::vector<CoilPart>& coils, Stage& s) {
    for (const CoilPart& c : coils) {
        const double d = 1.0 / (c.inductance_H + s.a_s * c.resistance(s.y));
        double g = s.a_s * d, j = c.inductance_H * s.base[c.current] * d;
        stampInsulation(c.spark, g, j);
        s.g[c.branch] = g;
        s.j[c.branch] = j;
    }
}

void settle(std::vector<CoilPart>& coils, Stage& s) {
    for (CoilPart& c : coils) {
        const double v = s.v[c.branch], r = c.resistance(s.y);
        const double i =
            (c.inductance_H * s.base[c.current] + s.a_s * v) / (c.inductance_H + s.a_s * r);
        s.y[c.current] = i;
        s.f[c.current] = (v - r * i) / c.inductance_H;
        s.i[c.branch] = i + settleInsulation(c.spark, v, s);
        if (c.warms) warm(c, i, r, s);
    }
}

} // namespace loom::circuit

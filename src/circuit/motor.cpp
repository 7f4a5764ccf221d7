// SPDX-License-Identifier: MIT
#include "circuit/motor.h"

#include "circuit/gap.h"

#include <cmath>

namespace loom::circuit {

namespace {

// The motor's own equations with its states eliminated: i = (c + a v) / d, w = w0 + b i.
struct Eliminated {
    double w0, b, c, d;
};

Eliminated eliminate(const MotorPart& m, const Stage& s, double r) {
    const double a = s.a_s;
    Eliminated e{0.0, 0.0, 0.0, 0.0};
    if (m.turning != 0) {
        const double perD = 1.0 / (m.inertia_kg_m2 + a * m.viscous_Nms);
        e.w0 = (m.inertia_kg_m2 * s.base[m.speed] - a * m.turning * m.drag_Nm) * perD;
        e.b = a * m.constant_Vs * perD;
    }
    e.c = m.inductance_H * s.base[m.current] - a * m.constant_Vs * e.w0;
    e.d = m.inductance_H + a * r + a * m.constant_Vs * e.b;
    return e;
}

} // namespace

void stamp(const std::vector<MotorPart>& motors, Stage& s) {
    for (const MotorPart& m : motors) {
        const Eliminated e = eliminate(m, s, m.resistance(s.y));
        double g = s.a_s / e.d, j = e.c / e.d;
        stampInsulation(m.spark, g, j);
        s.g[m.branch] = g;
        s.j[m.branch] = j;
    }
}

void settle(std::vector<MotorPart>& motors, Stage& s) {
    for (MotorPart& m : motors) {
        const double v = s.v[m.branch], r = m.resistance(s.y), a = s.a_s;
        const Eliminated e = eliminate(m, s, r);
        const double i = (e.c + a * v) / e.d, w = m.turning == 0 ? 0.0 : e.w0 + e.b * i;
        s.y[m.current] = i;
        s.f[m.current] = (v - r * i - m.constant_Vs * w) / m.inductance_H;
        s.y[m.speed] = w;
        s.f[m.speed] =
            m.turning == 0
                ? 0.0
                : (m.constant_Vs * i - m.viscous_Nms * w - m.turning * m.drag_Nm) / m.inertia_kg_m2;
        s.y[m.angle] = s.base[m.angle] + a * w;
        s.f[m.angle] = w;
        s.i[m.branch] = i + settleInsulation(m.spark, v, s);

        const double ah = a / m.heat_J_per_K, rise = s.base[m.temperature] - s.ambient_K;
        const double next = (rise + ah * i * i * r) / (1.0 + ah * m.loss_W_per_K);
        s.f[m.temperature] = (i * i * r - m.loss_W_per_K * next) / m.heat_J_per_K;
        s.y[m.temperature] = s.ambient_K + next;
        s.disagree(std::fabs(m.resistance(s.y) - r) / (r * 1e-6));
    }
}

} // namespace loom::circuit

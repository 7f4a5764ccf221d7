// SPDX-License-Identifier: MIT
#include "circuit/motor.h"

#include "circuit/gap.h"

namespace loom::circuit {

namespace {

// The motor's own equations with its states eliminated: i = (c + a v) / d, w = w0 + b i.
struct Eliminated {
    double w0, b, c, d;
};

Eliminated eliminate(const MotorPart& m, const Stage& s) {
    const double a = s.a_s, r = m.stamped_ohm;
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

void refresh(std::vector<MotorPart>& motors, const double* y) {
    for (MotorPart& m : motors)
        m.stamped_ohm = m.resistance(y);
}

void stamp(std::vector<MotorPart>& motors, Stage& s) {
    for (MotorPart& m : motors) {
        if (s.stale(m.stamped_ohm, m.resistance(s.y))) m.stamped_ohm = m.resistance(s.y);
        const Eliminated e = eliminate(m, s);
        double g = s.a_s / e.d, j = e.c / e.d;
        stampInsulation(m.spark, g, j);
        s.g[m.branch] = g;
        s.j[m.branch] = j;
    }
}

void settle(std::vector<MotorPart>& motors, Stage& s) {
    for (MotorPart& m : motors) {
        const double v = s.v[m.branch], a = s.a_s;
        const Eliminated e = eliminate(m, s);
        const double i = (e.c + a * v) / e.d, w = m.turning == 0 ? 0.0 : e.w0 + e.b * i;
        const double torque = m.constant_Vs * i - m.viscous_Nms * w - m.turning * m.drag_Nm;
        s.y[m.current] = i;
        s.f[m.current] = (v - m.stamped_ohm * i - m.constant_Vs * w) / m.inductance_H;
        s.y[m.speed] = w;
        s.f[m.speed] = m.turning == 0 ? 0.0 : torque / m.inertia_kg_m2;
        s.y[m.angle] = s.base[m.angle] + a * w;
        s.f[m.angle] = w;
        s.i[m.branch] = i + settleInsulation(m.spark, v, s);
    }
}

void warm(const std::vector<MotorPart>& motors, Stage& s) {
    for (const MotorPart& m : motors) {
        const double i = s.y[m.current], p = i * i * m.stamped_ohm, a = s.a_s / m.heat_J_per_K;
        const double rise =
            (s.base[m.temperature] - s.ambient_K + a * p) / (1.0 + a * m.loss_W_per_K);
        s.f[m.temperature] = (p - m.loss_W_per_K * rise) / m.heat_J_per_K;
        s.y[m.temperature] = s.ambient_K + rise;
        s.compare(m.resistance(s.y), m.stamped_ohm);
    }
}

} // namespace loom::circuit

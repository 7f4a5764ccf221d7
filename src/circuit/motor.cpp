// SPDX-License-Identifier: MIT
#include "circuit/motor.h"

#include "circuit/gap.h"

namespace loom::circuit {

namespace {

// The motor's own equations with its states eliminated (motor.h).
void eliminate(MotorPart& m, const Stage& s) {
    const double a = s.a_s, k = m.constant_Vs;
    double w0 = 0.0, b = 0.0;
    if (m.turning != 0) {
        const double perD = 1.0 / (m.inertia_kg_m2 + a * m.viscous_Nms);
        w0 = (m.inertia_kg_m2 * s.base[m.speed] - a * m.turning * m.drag_Nm) * perD;
        b = a * k * perD;
    }
    const double perD = 1.0 / (m.inductance_H + a * m.stamped_ohm + a * k * b);
    m.line_S = a * perD;
    m.line_A = (m.inductance_H * s.base[m.current] - a * k * w0) * perD;
    m.still_rad_s = w0;
    m.perAmpere_rad_s = b;
}

} // namespace

void refresh(std::vector<MotorPart>& motors, const double* y) {
    for (MotorPart& m : motors)
        m.stamped_ohm = m.resistance(y);
}

void stamp(std::vector<MotorPart>& motors, Stage& s) {
    for (MotorPart& m : motors) {
        if (s.first) {
            const double r = m.resistance(s.y);
            if (s.stale(m.stamped_ohm, r)) m.stamped_ohm = r;
            eliminate(m, s);
        }
        double g = m.line_S, j = m.line_A;
        stampInsulation(m.spark, g, j);
        s.g[m.branch] = g;
        s.j[m.branch] = j;
    }
}

void settle(std::vector<MotorPart>& motors, Stage& s) {
    for (MotorPart& m : motors) {
        const double v = s.v[m.branch], i = m.line_S * v + m.line_A;
        const double w = m.still_rad_s + m.perAmpere_rad_s * i;
        const double torque = m.constant_Vs * i - m.viscous_Nms * w - m.turning * m.drag_Nm;
        s.y[m.current] = i;
        s.f[m.current] = (v - m.stamped_ohm * i - m.constant_Vs * w) / m.inductance_H;
        s.y[m.speed] = w;
        s.f[m.speed] = m.turning == 0 ? 0.0 : torque / m.inertia_kg_m2;
        s.y[m.angle] = s.base[m.angle] + s.a_s * w;
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

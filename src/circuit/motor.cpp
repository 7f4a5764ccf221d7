// SPDX-License-Identifier: MIT
#include "circuit/motor.h"

#include "circuit/models.h"

#include <algorithm>

namespace loom::circuit {

namespace {

// Error allowed in a step: of the current what this voltage drives through the winding at rest.
constexpr double kAbsolute_V = 2.4e-4, kRelative = 1e-5;
constexpr double kTurn_rad = 6.28318530717958648;

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

bool turn(MotorPart& m, int way) {
    if (m.turning == way) return false;
    m.turning = way;
    return true;
}

bool applyEvent(MotorPart& m, Instant& now) {
    const double i = now.at.i[m.branch], torque = m.constant_Vs * now.y[m.current];
    const int pull = torque > m.drag_Nm ? 1 : torque < -m.drag_Nm ? -1 : 0;
    if (m.turning != 0) {
        m.stalled = false;
        if (m.turning * now.y[m.speed] > 0.0) return false;
        now.y[m.speed] = 0.0;
        if (pull == 0) now.add(EventKind::MotorStopped, m.key, i);
        return turn(m, pull);
    }
    if (!m.jammed && pull != 0) {
        m.stalled = false;
        now.add(EventKind::MotorStarted, m.key, i);
        return turn(m, pull);
    }
    const bool driven = std::fabs(torque) > 0.5 * m.drag_Nm && std::fabs(i) > 0.05 &&
                        std::fabs(now.at.f[m.current]) * 2e-3 < 0.05 * std::fabs(i);
    if (driven && !m.stalled) {
        m.stalled = true;
        now.add(EventKind::MotorStalled, m.key, i);
    }
    if (std::fabs(i) < 0.02) m.stalled = false;
    return false;
}

} // namespace

bool Motors::valid(const Motor& spec) {
    return within(spec.resistance_ohm, 1e-6, kGreatest_ohm) &&
           within(spec.inductance_H, 1e-9, 1e6) && within(spec.constant_Vs, 0.0, 1e6) &&
           within(spec.inertia_kg_m2, 1e-9, 1e9) && within(spec.friction_Nm, 0.0, 1e9) &&
           within(spec.viscous_Nms, 0.0, 1e9) && within(spec.load_Nm, 0.0, 1e9);
}

Entry Motors::add(const Motor& spec, Key key, Builder& b) {
    MotorPart m;
    m.key = key;
    m.branch = b.branch(spec.a, spec.b);
    m.current = b.states.add(0.0, kAbsolute_V / spec.resistance_ohm, kRelative);
    m.speed = b.states.add(0.0, 1e-4, kRelative);
    m.angle = b.states.add(0.0, kUncontrolled, 0.0);
    m.temperature = b.temperatures(1);
    m.resistance_ohm = spec.resistance_ohm;
    m.inductance_H = spec.inductance_H;
    m.constant_Vs = spec.constant_Vs;
    m.inertia_kg_m2 = spec.inertia_kg_m2;
    m.viscous_Nms = spec.viscous_Nms;
    m.drag_Nm = spec.friction_Nm + spec.load_Nm;
    const double size = spec.constant_Vs * spec.constant_Vs / spec.resistance_ohm;
    const double braked = size + spec.viscous_Nms;
    b.states.creeping.push_back({m.speed, braked / spec.inertia_kg_m2});
    m.heat_J_per_K = std::max(1.0, kMotorHeat * size);
    m.loss_W_per_K = std::max(0.01, kMotorLoss * size);
    m.jammed = spec.jammed;
    all.push_back(m);
    return {lastIndex(all), m.branch};
}

void Motors::restart(const double* y, const double*) {
    for (MotorPart& m : all) {
        m.spark = 0;
        m.stamped_ohm = m.resistance(y);
    }
}

void Motors::stamp(Stage& s) {
    for (MotorPart& m : all) {
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

void Motors::updateBranches(Stage& s) {
    for (MotorPart& m : all) {
        const double v = s.v[m.branch], i = m.line_S * v + m.line_A;
        const double w = m.still_rad_s + m.perAmpere_rad_s * i;
        const double torque = m.constant_Vs * i - m.viscous_Nms * w - m.turning * m.drag_Nm;
        s.y[m.current] = i;
        s.f[m.current] = (v - m.stamped_ohm * i - m.constant_Vs * w) / m.inductance_H;
        s.y[m.speed] = w;
        s.f[m.speed] = m.turning == 0 ? 0.0 : torque / m.inertia_kg_m2;
        s.y[m.angle] = s.base[m.angle] + s.a_s * w;
        s.f[m.angle] = w;
        s.i[m.branch] = i + updateInsulation(m.spark, v, s);
    }
}

void Motors::updateTemperatures(Stage& s, const Models&) {
    for (const MotorPart& m : all) {
        const double i = s.y[m.current], p = i * i * m.stamped_ohm, a = s.a_s / m.heat_J_per_K;
        const double rise =
            (s.base[m.temperature] - s.ambient_K + a * p) / (1.0 + a * m.loss_W_per_K);
        s.f[m.temperature] = (p - m.loss_W_per_K * rise) / m.heat_J_per_K;
        s.y[m.temperature] = s.ambient_K + rise;
        s.compare(m.resistance(s.y), m.stamped_ohm);
    }
}

int Motors::sparks() const {
    int count = 0;
    for (const MotorPart& m : all)
        count += m.spark != 0;
    return count;
}

void Motors::findExtinction(Extinction& first) const {
    for (const MotorPart& m : all)
        first.winding(m.branch, m.current);
}

void Motors::findCrossings(Crossings& first) const {
    const Step& s = first.step;
    for (const MotorPart& m : all)
        if (m.turning != 0)
            first.look([&](double th) { return -m.turning * s.state(m.speed, th); });
        else if (!m.jammed)
            first.look([&](double th) {
                return std::fabs(m.constant_Vs * s.state(m.current, th)) - m.drag_Nm - 1e-15;
            });
}

bool Motors::applyEvents(Instant& now) {
    bool jumped = false;
    for (MotorPart& m : all)
        jumped = applyEvent(m, now) || jumped;
    return jumped;
}

void Motors::carryOver(const Carry& c) {
    const MotorPart& was = c.from.of<Motors>().all[c.was];
    MotorPart& m = all[c.is];
    c.copy(was.current, m.current, 4);
    m.turning = m.jammed ? 0 : was.turning;
    if (m.jammed) c.y[m.speed] = 0.0;
    m.stalled = was.stalled;
}

void Motors::addTo(Hash& hash) const {
    for (const MotorPart& m : all) {
        hash.add(static_cast<std::uint64_t>(m.turning + 1));
        hash.add(static_cast<std::uint64_t>(m.jammed));
    }
}

void Motors::read(const View& view, std::uint32_t index, Reading& r) const {
    const MotorPart& m = all[index];
    r.temp_K = view.y[m.temperature];
    r.speed_rad_s = view.y[m.speed];
    const double angle = view.y[m.angle];
    r.angle_rad = angle - kTurn_rad * std::floor(angle / kTurn_rad);
}

bool Motors::active(const Activity& now) const {
    for (const MotorPart& m : all)
        if (m.turning != 0 || now.builds(m.current) || now.warm(m.temperature)) return true;
    return false;
}

} // namespace loom::circuit

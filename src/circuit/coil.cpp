// SPDX-License-Identifier: MIT
#include "circuit/coil.h"

#include "circuit/models.h"

namespace loom::circuit {

namespace {

constexpr double kHeat_J_per_K = 12.0;  // of a relay of 2 W, some 25 g of copper: no source
constexpr double kLoss_W_per_K = 0.033; // 55 K at 1.8 W: no source

} // namespace

bool Coils::valid(const Inductor& spec) {
    return within(spec.inductance_H, 1e-9, 1e6) && validOhms(spec.resistance_ohm) &&
           within(spec.initial_A, -kGreatest_A, kGreatest_A);
}

Entry Coils::add(const Inductor& spec, Key, Builder& b) {
    CoilPart c;
    c.branch = b.branch(spec.a, spec.b);
    c.current = b.states.add(spec.initial_A, 1e-6, kPlainRelative);
    c.resistance_ohm = spec.resistance_ohm;
    c.inductance_H = spec.inductance_H;
    all.push_back(c);
    return {lastIndex(all), c.branch};
}

std::uint32_t Coils::addWarming(const Relay& spec, double tolerance_A, Builder& b) {
    CoilPart c;
    c.branch = b.branch(spec.coilA, spec.coilB);
    c.current = b.states.add(0.0, tolerance_A, kPlainRelative);
    c.resistance_ohm = spec.coil_ohm;
    c.inductance_H = spec.coil_H;
    c.warms = true;
    c.temperature = b.temperatures(1);
    c.heat_J_per_K = kHeat_J_per_K;
    c.loss_W_per_K = kLoss_W_per_K;
    all.push_back(c);
    return lastIndex(all);
}

void Coils::restart(const double* y, const double*) {
    for (CoilPart& c : all) {
        c.spark = 0;
        c.stamped_ohm = c.resistance(y);
    }
}

void Coils::stamp(Stage& s) {
    for (CoilPart& c : all) {
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

void Coils::updateBranches(Stage& s) {
    for (CoilPart& c : all) {
        const double v = s.v[c.branch], i = c.line_S * v + c.line_A;
        s.y[c.current] = i;
        s.f[c.current] = (v - c.stamped_ohm * i) / c.inductance_H;
        s.i[c.branch] = i + updateInsulation(c.spark, v, s);
    }
}

void Coils::updateTemperatures(Stage& s, const Models&) {
    for (const CoilPart& c : all) {
        if (!c.warms) continue;
        const double i = s.y[c.current], p = i * i * c.stamped_ohm, a = s.a_s / c.heat_J_per_K;
        const double rise =
            (s.base[c.temperature] - s.ambient_K + a * p) / (1.0 + a * c.loss_W_per_K);
        s.f[c.temperature] = (p - c.loss_W_per_K * rise) / c.heat_J_per_K;
        s.y[c.temperature] = s.ambient_K + rise;
        s.compare(c.resistance(s.y), c.stamped_ohm);
    }
}

int Coils::sparks() const {
    int count = 0;
    for (const CoilPart& c : all)
        count += c.spark != 0;
    return count;
}

void Coils::findExtinction(Extinction& first) const {
    for (const CoilPart& c : all)
        first.winding(c.branch, c.current);
}

void Coils::carryOver(const Carry& c) {
    c.copy(c.from.of<Coils>().all[c.was].current, all[c.is].current);
}

bool Coils::active(const Activity& now) const {
    for (const CoilPart& c : all)
        if (now.builds(c.current) || (c.warms && now.warm(c.temperature))) return true;
    return false;
}

} // namespace loom::circuit

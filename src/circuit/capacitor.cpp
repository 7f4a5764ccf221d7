// SPDX-License-Identifier: MIT
#include "circuit/capacitor.h"

#include "circuit/models.h"

namespace loom::circuit {

bool Capacitors::valid(const Capacitor& spec) {
    return within(spec.capacitance_F, 1e-15, 1e6) &&
           within(spec.initial_V, -kGreatest_V, kGreatest_V);
}

Entry Capacitors::add(const Capacitor& spec, Key, Builder& b) {
    CapacitorPart c;
    c.branch = b.branch(spec.a, spec.b);
    c.voltage = b.states.add(spec.initial_V, 1e-6, kPlainRelative);
    c.capacitance_F = spec.capacitance_F;
    all.push_back(c);
    return {lastIndex(all), c.branch};
}

void Capacitors::stamp(Stage& s) {
    if (!s.first) return;
    for (const CapacitorPart& c : all) {
        s.g[c.branch] = c.capacitance_F / s.a_s;
        s.j[c.branch] = -s.g[c.branch] * s.base[c.voltage];
    }
}

void Capacitors::updateBranches(Stage& s) {
    for (const CapacitorPart& c : all) {
        const double v = s.v[c.branch];
        s.y[c.voltage] = v;
        s.f[c.voltage] = (v - s.base[c.voltage]) / s.a_s;
        s.i[c.branch] = c.capacitance_F * s.f[c.voltage];
    }
}

void Capacitors::carryOver(const Carry& c) {
    c.copy(c.from.of<Capacitors>().all[c.was].voltage, all[c.is].voltage);
}

bool Capacitors::active(const Activity& now) const {
    for (const CapacitorPart& c : all)
        if (now.builds(c.voltage)) return true;
    return false;
}

} // namespace loom::circuit

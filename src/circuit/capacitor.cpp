// SPDX-License-Identifier: MIT
#include "circuit/capacitor.h"

namespace loom::circuit {

void stamp(const std::vector<CapacitorPart>& capacitors, Stage& s) {
    if (!s.first) return;
    for (const CapacitorPart& c : capacitors) {
        s.g[c.branch] = c.capacitance_F / s.a_s;
        s.j[c.branch] = -s.g[c.branch] * s.base[c.voltage];
    }
}

void settle(const std::vector<CapacitorPart>& capacitors, Stage& s) {
    for (const CapacitorPart& c : capacitors) {
        const double v = s.v[c.branch];
        s.y[c.voltage] = v;
        s.f[c.voltage] = (v - s.base[c.voltage]) / s.a_s;
        s.i[c.branch] = c.capacitance_F * s.f[c.voltage];
    }
}

} // namespace loom::circuit

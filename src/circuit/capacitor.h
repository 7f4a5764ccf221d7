// SPDX-License-Identifier: MIT
// An ideal capacitor.
//   C dv/dt = i.  One stage:  i = C (v - vb) / a,  vb the base voltage.  Stamp: g = C/a, j = -g vb.
// Source: definition. Valid: C > 0. Tested: transients_test, published_transients.
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

struct CapacitorPart {
    std::uint32_t branch = 0;
    std::uint32_t voltage = 0; // state
    double capacitance_F = 0.0;
};

struct Capacitors : Model<Capacitor, CapacitorPart> {
    static bool valid(const Capacitor& spec);

    static bool feeds(const Capacitor& spec) { return spec.initial_V != 0.0; }

    Entry add(const Capacitor& spec, Key key, Builder& b);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    void carryOver(const Carry& c);
    bool active(const Activity& now) const;
};

} // namespace loom::circuit

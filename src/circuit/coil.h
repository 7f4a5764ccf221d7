// SPDX-License-Identifier: MIT
// A winding: inductance in series with resistance. Serves Inductor and the coil of a Relay.
//
//   L di/dt = v - R i.  One stage:  i = (L ib + a v) / (L + a R),  ib the base current.
//   Stamp: g = a / (L + a R), j = L ib / (L + a R).                 v V, i A, R ohm, L H, a s.
// The current is a state: it never jumps. A winding warms as one lump when its thermal values are
// set:  C dT/dt = i^2 R(T) - G (T - ambient),  R(T) = R copperFactor(T) / copperFactor(293.15).
// Source of both: definitions. Valid: L > 0, R >= 0. Tested: transients_test, relay_test,
// published_transients, published_relays.
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

struct CoilPart {
    std::uint32_t branch = 0;
    std::uint32_t current = 0;     // state
    std::uint32_t temperature = 0; // state, used when warms
    double resistance_ohm = 0.0;   // at 20 C
    double inductance_H = 0.0;
    bool warms = false;
    double heat_J_per_K = 1.0, loss_W_per_K = 1.0;
    double stamped_ohm = 0.0;
    double line_S = 0.0, line_A = 0.0; // of the winding alone, this stage: i = line_S v + line_A
    int spark = 0;                     // sign of the current through its insulation now

    double resistance(const double* y) const {
        return warms ? resistance_ohm * copperFactor(y[temperature]) : resistance_ohm;
    }
};

struct Coils : Model<Inductor, CoilPart> {
    static bool valid(const Inductor& spec);

    static bool feeds(const Inductor& spec) { return spec.initial_A != 0.0; }

    Entry add(const Inductor& spec, Key key, Builder& b);
    // Of a relay: it warms, and its current is known within tolerance_A.
    std::uint32_t addWarming(const Relay& spec, double tolerance_A, Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    void updateTemperatures(Stage& s, const Models& models);
    int sparks() const;
    void findExtinction(Extinction& first) const;
    void carryOver(const Carry& c);
    bool active(const Activity& now) const;
};

} // namespace loom::circuit

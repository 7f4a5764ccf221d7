// SPDX-License-Identifier: MIT
// A silicon diode.
//   i = Is (e^(v/V0) - 1) + v/R0,  V0 = 0.05 V, Is = rated_A e^(-forward_V/V0), R0 = 1 Gohm;
//   i A, v V.
//   Beyond 10 x rated_A the curve goes on straight with the slope it has there (bulk resistance);
//   beyond -reverse_V it breaks down with 1 ohm. Source: Shockley's equation with emission
//   coefficient 2 at 293 K (textbook, from memory); slope and breakdown are ours.
// Newton: forward, it is linearised next where the law gives the current that the last line met, so
// that e^ never overshoots. Left out: its heat, recovery time, failure. Tested: lamp_diode_test.
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

struct DiodePart {
    std::uint32_t branch = 0;
    double saturation_A = 0.0, reverse_V = 0.0;
    double knee_V = 0.0, knee_A = 0.0, knee_S = 0.0; // where it goes on straight
    double at_V = 0.0;                               // linearised here
};

constexpr double kJunction_V = 0.05;

struct Diodes : Model<Diode, DiodePart> {
    static bool valid(const Diode& spec);

    static std::vector<Node> nodes(const Diode& spec) { return {spec.anode, spec.cathode}; }

    Entry add(const Diode& spec, Key key, Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
};

} // namespace loom::circuit

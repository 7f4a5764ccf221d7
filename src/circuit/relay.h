// SPDX-License-Identifier: MIT
// The armature of a changeover relay: moves by coil current, carries two contacts, can weld.
//
//   Pulls in when |i| >= pullIn_V / coil_ohm, falls when |i| <= dropOut_V / coil_ohm (coil_ohm at
//   20 C, so a hot coil needs more voltage: REFERENCE R21). Then, counted from that instant:
//     pulling in:  0.6 ms  normally-closed opens;  2.6 ms  normally-open closes and bounces once
//                  (opens 0.3 ms later for 0.4 ms)
//     falling:     1.0 ms  normally-open opens;    2.5 ms  normally-closed closes
//   Both open between: the transfer gap of R20 (1-3 ms, from memory); bounce R20 0.5-3 ms; with a
//   coil's own rise the whole stays inside R07 (operate 10 ms, release 5 ms; Wn sheet).
//   A fall before the make, or a pull before the break, turns the armature back with the same times.
// Welding, in place of a probability: energy at the normally-open contact while it touches badly,
//   E = integral of 12 V |i| dt while it bounces or arcs, or of I^2 R dt while I R > 0.37 V (the
//   melting voltage of silver: Holm, from memory). It welds at E >= 0.036 J per ampere of rating:
//   12 V for 1 ms at three times rating, the make limit of R10 (120 A for a 40 A relay). E is
//   forgotten when the contact has been closed and cool for 10 ms. Ours; no source for the rule.
// Tested: relay_test.
#pragma once

#include "circuit/contact.h"

namespace loom::circuit {

constexpr double kBreakAfter_s = 0.6e-3, kMakeAfter_s = 2.6e-3;
constexpr double kBounceAfter_s = 2.9e-3, kBounceEnds_s = 3.3e-3;
constexpr double kReleaseAfter_s = 1.0e-3, kRestAfter_s = 2.5e-3;
constexpr double kMelting_V = 0.37, kArcFootForWeld_V = 12.0, kWeld_J_per_A = 0.036;

// What the armature is doing; each moving phase ends at a known time.
enum class Armature : std::uint8_t {
    Rest,
    Leaving,  // pulled, normally-closed still made
    Crossing, // pulled, both open
    Touching, // normally-open made, before its bounce
    Bouncing, // normally-open apart once more
    In,
    Letting,  // let go, normally-open still made
    Returning // let go, both open
};

struct RelayPart {
    std::uint32_t coil = 0, normallyOpen = 0, normallyClosed = 0; // indices of parts
    std::uint32_t weldEnergy = 0;                                 // state, J
    double pullIn_A = 0.0, dropOut_A = 0.0, rating_A = 1.0;
    double kickThreshold_V = 0.0, kick_V = 0.0; // highest coil voltage of the kick going on
    bool kicking = false;
    bool welded = false;
    Armature armature = Armature::Rest;
    double began_s = 0.0; // when the present movement began

    bool in() const { return armature >= Armature::Touching && armature <= Armature::Letting; }

    bool pulled() const { return armature >= Armature::Leaving && armature <= Armature::In; }
};

// When the present phase ends by itself; a very large time when it does not.
double phaseEnds_s(const RelayPart& r);

// The weld energy of each relay, after its contacts have settled.
void warm(const std::vector<RelayPart>& relays, const std::vector<ContactPart>& contacts, Stage& s);

} // namespace loom::circuit

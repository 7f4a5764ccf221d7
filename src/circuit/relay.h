// SPDX-License-Identifier: MIT
// The armature of a changeover relay: moves by coil current, carries two contacts, can weld.
//
//   Pulls in when |i| >= pullIn_V / coil_ohm, falls when |i| <= dropOut_V / coil_ohm (coil_ohm at
//   20 C, so a hot coil needs more voltage: 21.1 V for 16.8 V at 85 C). Then, counted from that instant:
//     pulling in:  0.6 ms  normally-closed opens;  2.6 ms  normally-open closes and bounces once
//                  (opens 0.3 ms later for 0.4 ms)
//     falling:     1.0 ms  normally-open opens;    2.5 ms  normally-closed closes
//   Both open between: the transfer gap is 1-3 ms, bounce 0.5-3 ms (from memory); with a coil's own
//   rise the whole stays inside the sheet of a 24 V relay (fooclesmod.com: operate 10 ms, release 5).
//   A fall before the make, or a pull before the break, turns the armature back with the same times.
// Welding, in place of a probability: energy at the normally-open contact while it touches badly,
//   E = integral of 12 V |i| dt while it bounces or arcs, or of I^2 R dt while I R > 0.37 V (the
//   melting voltage of silver: Holm, from memory). It welds at E >= 0.036 J per ampere of rating:
//   12 V for 1 ms at three times rating, the make limit of Hongfa's HFV4 (120 A for a 40 A relay). E is
//   forgotten when the contact has been closed and cool for 10 ms. Ours; no source for the rule.
// Tested: relay_test, published_relays.
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
    Key key = 0;
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

struct Relays : Model<Relay, RelayPart> {
    static bool valid(const Relay& spec);

    static std::vector<Node> nodes(const Relay& spec) {
        return {spec.coilA, spec.coilB, spec.common, spec.normallyOpen, spec.normallyClosed};
    }

    static bool replaced(const Relay& was, const Relay& now) { return was.welded && !now.welded; }

    Entry add(const Relay& spec, Key key, Builder& b);
    // The weld energy, after the contacts have been updated.
    void updateTemperatures(Stage& s, const Models& models);
    void findCrossings(Crossings& first) const;
    bool applyEvents(Instant& now);
    double nextTimed_s() const;
    void carryOver(const Carry& c);
    void addTo(Hash& hash) const;
    void read(const View& view, std::uint32_t index, Reading& r) const;
};

} // namespace loom::circuit

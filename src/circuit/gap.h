// SPDX-License-Identifier: MIT
// An opening in a conductor: a contact apart, a melted fuse, a parted cable, a broken filament.
// Closed, its owner says how it conducts. Opened while carrying current it arcs until the current
// is too small, then it is open; open, it still sparks over far beyond any bench's voltage.
//
// Piecewise law of an opened gap:  i = 0 for |v| <= V,  i = sign(v) (|v| - V) / R beyond.
//   arcing: V = 12 V + 4500 V/s (t - t_opened), R = 20 mohm; ends when |i| < 0.5 A.
//   open:   V = 1000 V, R = 1 ohm: what a coil's last current does when it has no other way.
// Sources: least arc voltage 12 V and current 0.4-0.5 A of silver contacts: R. Holm, Electric
// Contacts (from memory); growth = 0.3 m/s of opening times 15 V/mm (from memory); 1000 V: lower
// end of TE's note on suppressing relay coils (1000-1500 V for a 12 V coil).
// Left out: re-striking while the gap is still short. Tested: transients_test, relay_test, ida_networks.
#pragma once

#include "circuit/hash.h"
#include "circuit/stage.h"

namespace loom::circuit {

constexpr double kArcLeast_A = 0.5;
constexpr double kArcFoot_V = 12.0, kArcGrowth_V_per_s = 4500.0, kArc_ohm = 0.020;
constexpr double kSpark_V = 1000.0, kSpark_ohm = 1.0;
// Every winding sparks over at its own terminals beyond this, so that a coil cut off altogether
// still has somewhere to put its current. Upper end of TE's note.
constexpr double kInsulation_V = 1500.0;

enum class GapPhase : std::uint8_t { Closed, Arcing, Open };

struct Gap {
    GapPhase phase = GapPhase::Closed;
    double opened_s = 0.0;
    int side = 0; // sign of the current it lets through now, 0 none

    bool closed() const { return phase == GapPhase::Closed; }

    // What opened by itself stays open when the network is changed, and an arc goes on.
    void carryOver(const Gap& older) {
        if (!older.closed()) *this = older;
    }

    void addTo(Hash& hash) const {
        hash.add(static_cast<std::uint64_t>(phase));
        hash.add(opened_s);
    }
};

// Opens it at time_s while it carries current_A.
void openGap(Gap& gap, double current_A, double time_s);
double gapLimit_V(const Gap& gap, double time_s);

// For gaps that are not closed.
void stampGap(const Gap& gap, std::uint32_t branch, Stage& s);
void updateGap(Gap& gap, std::uint32_t branch, Stage& s);

// Spark-over of a winding's insulation, in parallel with it: adds to g and j, to i.
void stampInsulation(int side, double& g, double& j);
double updateInsulation(int& side, double v, Stage& s);

} // namespace loom::circuit

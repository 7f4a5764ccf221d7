// SPDX-License-Identifier: MIT
// Whether a hand may work on the bench now, for the status line: safe, live or in danger, with where
// and how much. Made by supplyOf().
#pragma once

#include "attempt/danger.h"

namespace loom::attempt {

// Points that a finger or a probe can touch: the terminals of all parts, the metal of loose ends.
struct Supply {
    bool live = false; // a battery gives current, or a point other than a battery's own terminals
                       // is at more than 1 V against any other
    double voltage_V = 0.0;  // the greatest such voltage
    bench::PartId at;        // a block or a load at that voltage; else
    bench::CableId looseAt;  // a loose end at it; else it reaches no further than
    bench::PartId battery;   // this one, or several: none
    bench::PartId dead;      // the part that stands for all that is not at voltage; may be none
    double current_A = 0.0;  // delivered by the batteries together (a series pair counts once)
    bool batteryOut = false; // a battery lies on the bench
    Danger danger;
};

Supply supplyOf(const bench::Bench& bench, const LiveCircuit& live);

// Less is not worth a warning: what a cable loses. No source.
inline constexpr double kLive_V = 1.0;
inline constexpr double kGives_A = 0.5e-3; // less is what a meter takes

} // namespace loom::attempt

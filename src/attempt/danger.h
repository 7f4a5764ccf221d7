// SPDX-License-Identifier: MIT
// What does harm at this moment, with its name and its figure: dangerOf() gives the worst.
#pragma once

#include "attempt/live_circuit.h"

namespace loom::attempt {

// What harms at this moment, of a battery or of a cable; the figure that belongs to it.
enum class Harm {
    None,
    Shorted,   // a battery whose poles are joined by metal alone (cables, closed contacts, whole
               // fuses, further batteries): the current it gives, A
    Charged,   // a battery into which another drives more than it can take: that current, A
    Overdrawn, // a battery that gives more than its greatest discharge: that current, A
    Burning,   // a cable whose sleeve is at the heat at which it burns,
    Smoking,   // smokes, or
    Hot,       // is no longer within its limit: its conductor's temperature, K
    Overloaded // a cable that will be over its limit within kSoon_s at this current, A
};

struct Danger {
    Harm harm = Harm::None;
    bench::PartId battery; // one of the two is none
    bench::CableId cable;
    double figure = 0.0;
};

// Harm::None when nothing does.
Danger dangerOf(const LiveCircuit& live);

inline constexpr double kSoon_s = 10.0;    // a starting current is over before; no source
// A per Ah that lead-acid takes: common practice, no source.
inline constexpr double kChargeMost_per_h = 0.3;

} // namespace loom::attempt

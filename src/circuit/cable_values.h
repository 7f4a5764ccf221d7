// SPDX-License-Identifier: MIT
// What of a cable follows from its make alone: resistance, heat, cooling. Formulas and sources: cable.h.
#pragma once

#include "circuit/netlist.h"

namespace loom::circuit {

constexpr double kSoundEnd_ohm = 1e-3;

// DC resistance of one metre at 20 C, ohm. area_m2 > 0.
double copperCable_ohm_per_m(double area_m2);

// What does not change of one cable, for all its length.
struct CableValues {
    double copper_ohm = 0.0; // at 20 C
    double soundEnds_ohm = 0.0;
    double heatConductor_J_per_K = 1.0, heatSleeve_J_per_K = 1.0;
    double inner_W_per_K = 1.0, outer_W_per_K = 1.0;
    double limit_K = 343.15;
};

CableValues cableValues(const Cable& spec);

// Whether an end is modelled by itself.
inline bool ownModel(const Joint& end) {
    return end.loose || end.resistance_ohm > kSoundEnd_ohm;
}

} // namespace loom::circuit

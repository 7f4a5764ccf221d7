// SPDX-License-Identifier: MIT
// A filament lamp: a hot wire that radiates.
//
//   R(T) = Rh (q + (1-q) (T-293)/(Th-293)),  Rh = rated_V^2/rated_W, q cold over hot resistance;
//   C dT/dt = v^2/R(T) - P (T^4 - A^4)/(Th^4 - A0^4),  P rated_W, A ambient, A0 = 293.15 K.
//   T K, R ohm, C J/K; Th = 2800 K (gas-filled lamp, from memory; C30 uses 2850 C for tungsten).
//   C = 6.0e-5 J/K per (W rated): a 24 V 21 W lamp takes some 5 ms to half its current rush and 0.2 s to full light
//   (common practice, no source).
//   The wire fails at 3500 K (tungsten melts at 3695 K, from memory): about 1.8 x rated voltage.
//   Light over rated: (T/Th)^9, near volts^3.5 of lamp makers' rerating rule (from memory).
// R linear in T: REFERENCE C30 (University Physics m58731, 4.5e-3 /K).
// One stage solves T for a given v by Newton: f(T) = T - Tb - a F(T, v), f' > 0.
// Left out: cooling by gas and supports, evaporation. Tested: lamp_diode_test, C30, C31.
#pragma once

#include "circuit/gap.h"
#include "circuit/stage.h"

namespace loom::circuit {

constexpr double kFilament_K = 2800.0, kFilamentFails_K = 3500.0;

struct LampPart {
    std::uint32_t branch = 0;
    std::uint32_t temperature = 0; // state
    double hot_ohm = 1.0, coldRatio = 0.1, rated_W = 1.0, heat_J_per_K = 1.0;
    double slope_ohm_per_K = 0.0, radiates_W_per_K4 = 0.0; // dR/dT, P/(Th^4 - A0^4)
    double at_V = 0.0;                                     // linearised here
    double last_V = 0.0, last_s = 0.0, perSecond_V = 0.0;  // where it was and how it moved
    Gap gap;                                               // closed while the filament is whole
};

LampPart makeLamp(double rated_V, double rated_W, double coldRatio);
double resistance_ohm(const LampPart& l, double temp_K);
double brightness(double temp_K);

void stamp(std::vector<LampPart>& lamps, Stage& s);
void settle(std::vector<LampPart>& lamps, Stage& s);
// Notes how the voltage moves, so that the next stage begins near its answer.
void warm(std::vector<LampPart>& lamps, const Stage& s);

} // namespace loom::circuit

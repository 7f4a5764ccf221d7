// SPDX-License-Identifier: MIT
// A filament lamp: a hot wire that radiates.
//
//   R(T) = Rh (q + (1-q) (T-293)/(Th-293)),  Rh = rated_V^2/rated_W, q cold over hot resistance;
//   C dT/dt = v^2/R(T) - P (T^4 - A^4)/(Th^4 - A0^4),  P rated_W, A ambient, A0 = 293.15 K.
//   T K, R ohm, C J/K; Th = 2800 K (gas-filled lamp, from memory; University Physics m58731 takes 2850 C).
//   C = 6.0e-5 J/K per (W rated): a 24 V 21 W lamp takes some 5 ms to half its current rush and 0.2 s to full light
//   (common practice, no source).
//   The wire fails at 3500 K (tungsten melts at 3695 K, from memory): about 1.8 x rated voltage.
//   Light over rated: (T/Th)^9, near volts^3.5 of lamp makers' rerating rule (from memory).
// R linear in T: University Physics m58731 (tungsten, 4.5e-3 /K).
// One stage solves T for a given v by Newton: f(T) = T - Tb - a F(T, v), f' > 0.
// Left out: cooling by gas and supports, evaporation. Tested: lamp_diode_test, published_cables.
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

constexpr double kFilament_K = 2800.0, kFilamentFails_K = 3500.0;

struct LampPart {
    Key key = 0;
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

struct Lamps : GapModel<Lamp, LampPart> {
    static bool valid(const Lamp& spec);

    static bool replaced(const Lamp& was, const Lamp& now) { return was.broken && !now.broken; }

    Entry add(const Lamp& spec, Key key, Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    // Notes how the voltage moves, so that the next stage begins near its answer.
    void updateTemperatures(Stage& s, const Models& models);
    void findCrossings(Crossings& first) const;
    bool applyEvents(Instant& now);
    void carryOver(const Carry& c);
    void read(const View& view, std::uint32_t index, Reading& r) const;
    bool active(const Activity& now) const;
};

} // namespace loom::circuit

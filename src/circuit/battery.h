// SPDX-License-Identifier: MIT
// Sealed lead-acid battery: two wells of charge, open-circuit voltage, internal resistance, heat.
//
// Charge: an available well y1 and a bound well y2, in units of all the charge there is, Q [C]:
//   dy1/dt = i/Q + k (h2 - h1),  dy2/dt = -k (h2 - h1),  h1 = y1/c, h2 = y2/(1-c),
//   i the charging current. So a hard discharge empties y1 early and a rest recovers it.
//   Source: Manwell, McGowan, "Lead acid battery storage model for hybrid energy systems", Solar
//   Energy 50 (1993) (from memory). c = 0.46, k/(c(1-c)) = 0.891/h, Q = 1.066 x 20 h capacity fit
//   a sheet of 40 Ah (vinachem.com.vn, SLA 12 V: 100, 93, 85, 60 % at 20, 10, 5, 1 h) within 1.3 %.
//   Cold makes less of it available: h = 1 - (1 - h1)/(1 + 0.0074/K (T - 25 C)), fits that
//   sheet (103, 100, 90, 74 % at 30, 25, 10, -10 C) within 2 %.
// Voltage at rest, by h: straight from full_V (h = 1) to low_V (h = 0.1), then 0.4 V lower at
//   h = 0 (Ettus list, 11.6 V), collapsing to 0 at h = -0.03; above 1 it climbs 2 V within 0.05 (that
//   sheet: cyclic charge at 14.7-15 V)
//   and over the last 0.01 of that takes less and less charge, then none: the rest is gas.
//   Band: owner's manual of Polaris, chart of aussieeuropeantour.com, Ettus list, within 0.15 V.
// Resistance: R (1 + (1-h)^2) (1 + 0.012/K (25 C - T)), T below 25 C only. It rises when flat and cold
//   (LEC, batteries, no figure): common practice, no source for the two numbers.
// Heat: 340 J/(K Ah) (that sheet: 16 kg for 40 Ah, at 850 J/(kg K)), loss 0.02 W/(K Ah): no source.
// Left out: diffusion over minutes, ageing, failure inside during a short circuit.
// Tested: battery_test, published_batteries.
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

constexpr double kAvailable = 0.46;                              // c
constexpr double kExchange_per_s = 0.891 * 0.46 * 0.54 / 3600.0; // k
constexpr double kAllOverNominal = 1.066;                        // Q over the 20 h capacity
constexpr double kFlat = 0.10;                                   // state of charge reported as flat
// It gasses above so much of its volts at rest: 14.8 V of 12.85 V, 2.46 V a cell (the sheet charges cyclically
// at 14.7-15.0 V); it is said again once it has been below the second.
constexpr double kGassing = 1.15, kGassingEnds = 1.10;
constexpr double kAbuse_per_h =
    4.0; // A per Ah beyond which a battery is abused (the sheet: 160 A of 40 Ah)
constexpr double kCharging_per_h = 0.05; // A per Ah beyond which it is said to be charged; ours

struct BatteryPart {
    Key key = 0;
    std::uint32_t branch = 0;
    std::uint32_t available = 0, bound = 0, temperature = 0; // states
    double full_V = 0.0, low_V = 0.0, resistance_ohm = 0.0, capacity_C = 1.0;
    double perAll_per_C = 1.0, perHeat_K_per_J = 1.0, loss_W_per_K = 0.0; // of capacity_C
    double stamped_ohm = 1.0;
    bool flatReported = false, abuseReported = false, chargeReported = false;
    bool gassingReported = false;
};

struct Batteries : Model<Battery, BatteryPart> {
    static bool valid(const Battery& spec);

    static std::vector<Node> nodes(const Battery& spec) { return {spec.plus, spec.minus}; }

    static bool feeds(const Battery&) { return true; }

    Entry add(const Battery& spec, Key key, Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    void updateTemperatures(Stage& s, const Models& models);
    void findCrossings(Crossings& first) const;
    bool applyEvents(Instant& now);
    void carryOver(const Carry& c);
    void read(const View& view, std::uint32_t index, Reading& r) const;
};

} // namespace loom::circuit

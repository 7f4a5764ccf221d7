// SPDX-License-Identifier: MIT
// Sealed lead-acid battery: two wells of charge, open-circuit voltage, internal resistance, heat.
//
// Charge: an available well y1 and a bound well y2, in units of all the charge there is, Q [C]:
//   dy1/dt = i/Q + k (h2 - h1),  dy2/dt = -k (h2 - h1),  h1 = y1/c, h2 = y2/(1-c),
//   i the charging current. So a hard discharge empties y1 early and a rest recovers it.
//   Source: Manwell, McGowan, "Lead acid battery storage model for hybrid energy systems", Solar
//   Energy 50 (1993) (from memory). c = 0.46, k/(c(1-c)) = 0.891/h, Q = 1.066 x 20 h capacity fit
//   REFERENCE B08 (40 Ah sheet: 100, 93, 85, 60 % at 20, 10, 5, 1 h) within 1.3 %.
//   Cold makes less of it available: h = 1 - (1 - h1)/(1 + 0.0074/K (T - 25 C)), fits B11 (103, 100,
//   90, 74 % at 30, 25, 10, -10 C) within 2 %.
// Voltage at rest, by h: straight from full_V (h = 1) to low_V (h = 0.1), then 0.4 V lower at
//   h = 0 (B06), collapsing to 0 at h = -0.03; above 1 it climbs 2 V within 0.05 (B13: 14.7-15 V)
//   and over the last 0.01 of that takes less and less charge, then none: the rest is gas.
//   Band: B01-B06, +-0.15 V.
// Resistance: R (1 + (1-h)^2) (1 + 0.012/K (25 C - T)), T below 25 C only. It rises when flat and cold
//   (LEC, batteries, no figure): common practice, no source for the two numbers.
// Heat: 340 J/(K Ah) (B10: 16 kg for 40 Ah at 850 J/(kg K)), loss 0.02 W/(K Ah): no source.
// Left out: diffusion over minutes, ageing, failure inside during a short circuit.
// Tested: battery_test, B01-B15, B23.
#pragma once

#include "circuit/netlist.h"
#include "circuit/stage.h"

namespace loom::circuit {

constexpr double kAvailable = 0.46;                              // c
constexpr double kExchange_per_s = 0.891 * 0.46 * 0.54 / 3600.0; // k
constexpr double kAllOverNominal = 1.066;                        // Q over the 20 h capacity
constexpr double kFlat = 0.10;                                   // state of charge reported as flat
// It gasses above so much of its volts at rest: 14.8 V of 12.85 V, 2.46 V a cell (B13 charges cyclically
// at 14.7-15.0 V); it is said again once it has been below the second.
constexpr double kGassing = 1.15, kGassingEnds = 1.10;
constexpr double kAbuse_per_h = 4.0;     // A per Ah beyond which a battery is abused (B10)
constexpr double kCharging_per_h = 0.05; // A per Ah beyond which it is said to be charged; ours

struct BatteryPart {
    std::uint32_t branch = 0;
    std::uint32_t available = 0, bound = 0, temperature = 0; // states
    double full_V = 0.0, low_V = 0.0, resistance_ohm = 0.0, capacity_C = 1.0;
    double perAll_per_C = 1.0, perHeat_K_per_J = 1.0, loss_W_per_K = 0.0; // of capacity_C
    double stamped_ohm = 1.0;
    bool flatReported = false, abuseReported = false, chargeReported = false;
    bool gassingReported = false;
};

void setCapacity(BatteryPart& b, double capacity_C);
double emf_V(const BatteryPart& b, const double* y);
double resistance_ohm(const BatteryPart& b, const double* y);

// Volts at its terminals while a current charges it; 0 when none does.
double chargedTo_V(const BatteryPart& b, const double* y, double charging_A);

inline double charge(const BatteryPart& b, const double* y) {
    return y[b.available] + y[b.bound];
}

// Stamps from the states y exactly, whatever was stamped before.
void refresh(std::vector<BatteryPart>& batteries, const double* y);
void stamp(std::vector<BatteryPart>& batteries, Stage& s);
void settle(const std::vector<BatteryPart>& batteries, Stage& s);
void warm(const std::vector<BatteryPart>& batteries, Stage& s);

} // namespace loom::circuit

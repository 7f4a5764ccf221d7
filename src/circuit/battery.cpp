// SPDX-License-Identifier: MIT
#include "circuit/battery.h"

namespace loom::circuit {

namespace {

constexpr double kFullest = 1.05, kGassing_V = 2.0; // where charging ends, and the climb up to it
constexpr double kEmpty = -0.03;                    // where the voltage has collapsed
constexpr double kTaper = 0.01; // of h1, over which it ceases to take or to give charge: ours

// y1 + y2 moves by a drive; the exchange is one more equation in y1. Near full and near dead the drive
// falls straight to nothing at an edge of y1, solved with it: a switch there would chatter.
void exchange(const BatteryPart& b, double drive_per_s, Stage& s) {
    constexpr double p = kExchange_per_s / kAvailable, q = kExchange_per_s / (1.0 - kAvailable);
    constexpr double width = kTaper * kAvailable;
    const double a = s.a_s, base = s.base[b.available], whole = base + s.base[b.bound];
    const double edge = (drive_per_s > 0.0 ? kFullest : 2.0 * kEmpty) * kAvailable;
    const double moved = a * drive_per_s, still = base + a * q * whole, d = 1.0 + a * (p + q);
    double share = 1.0, y1 = (still + moved * (1.0 + a * q)) / d;
    if (drive_per_s > 0.0 ? y1 > edge - width : y1 < edge + width) {
        const double steep = (moved > 0.0 ? moved : -moved) * (1.0 + a * q) / width;
        y1 = (still + steep * edge) / (d + steep);
        share = (drive_per_s > 0.0 ? edge - y1 : y1 - edge) / width;
    }
    const double sum = whole + share * moved, rate = q * (sum - y1) - p * y1;
    s.y[b.available] = y1;
    s.y[b.bound] = sum - y1;
    s.f[b.available] = share * drive_per_s + rate;
    s.f[b.bound] = -rate;
}

// h of battery.h.
double head(const BatteryPart& b, const double* y) {
    const double h = y[b.available] * (1.0 / kAvailable);
    const double f = 1.0 + 0.0074 * (y[b.temperature] - 298.15);
    return h > 1.0 ? h : 1.0 - (1.0 - h) / (f < 0.2 ? 0.2 : f > 1.1 ? 1.1 : f);
}

double emfAt_V(const BatteryPart& b, double h) {
    const double slope = (b.full_V - b.low_V) / 0.9;
    if (h > 1.0) return b.full_V + kGassing_V * ((h < kFullest ? h : kFullest) - 1.0) / 0.05;
    if (h > 0.1) return b.full_V + slope * (h - 1.0);
    const double empty_V = b.low_V > 0.4 ? b.low_V - 0.4 : 0.0;
    if (h > 0.0) return empty_V + (b.low_V - empty_V) * h / 0.1;
    return h > kEmpty ? empty_V * (1.0 - h / kEmpty) : 0.0;
}

double resistanceAt_ohm(const BatteryPart& b, double h, double temp_K) {
    const double missing = h > 1.0 ? 0.0 : h < 0.0 ? 1.0 : 1.0 - h, cold = 298.15 - temp_K;
    return b.resistance_ohm * (1.0 + missing * missing) *
           (1.0 + 0.012 * (cold > 0.0 ? cold < 100.0 ? cold : 100.0 : 0.0));
}

} // namespace

void setCapacity(BatteryPart& b, double capacity_C) {
    b.capacity_C = capacity_C;
    b.perAll_per_C = 1.0 / (capacity_C * kAllOverNominal);
    b.perHeat_K_per_J = 1.0 / (340.0 * capacity_C / 3600.0);
    b.loss_W_per_K = 0.02 * capacity_C / 3600.0;
}

double emf_V(const BatteryPart& b, const double* y) {
    return emfAt_V(b, head(b, y));
}

double resistance_ohm(const BatteryPart& b, const double* y) {
    return resistanceAt_ohm(b, head(b, y), y[b.temperature]);
}

double chargedTo_V(const BatteryPart& b, const double* y, double charging_A) {
    return charging_A > 0.0 ? emf_V(b, y) + charging_A * resistance_ohm(b, y) : 0.0;
}

void refresh(std::vector<BatteryPart>& batteries, const double* y) {
    for (BatteryPart& b : batteries)
        b.stamped_ohm = resistance_ohm(b, y);
}

void stamp(std::vector<BatteryPart>& batteries, Stage& s) {
    if (!s.first) return;
    for (BatteryPart& b : batteries) {
        const double h = head(b, s.y), r = resistanceAt_ohm(b, h, s.y[b.temperature]);
        if (s.stale(b.stamped_ohm, r)) b.stamped_ohm = r;
        const double g = 1.0 / b.stamped_ohm;
        s.g[b.branch] = g;
        s.j[b.branch] = -g * emfAt_V(b, h);
    }
}

void settle(const std::vector<BatteryPart>& batteries, Stage& s) {
    for (const BatteryPart& b : batteries)
        s.i[b.branch] = s.g[b.branch] * s.v[b.branch] + s.j[b.branch];
}

void warm(const std::vector<BatteryPart>& batteries, Stage& s) {
    for (const BatteryPart& b : batteries) {
        const double i = s.i[b.branch], a = s.a_s;
        exchange(b, i * b.perAll_per_C, s);
        const double lost_W = i * i * b.stamped_ohm;
        const double perHeat = b.perHeat_K_per_J, loss = b.loss_W_per_K;
        const double rise = (s.base[b.temperature] - s.ambient_K + a * perHeat * lost_W) /
                            (1.0 + a * perHeat * loss);
        s.y[b.temperature] = s.ambient_K + rise;
        s.f[b.temperature] = perHeat * (lost_W - loss * rise);
        s.compare(resistance_ohm(b, s.y), b.stamped_ohm);
    }
}

} // namespace loom::circuit

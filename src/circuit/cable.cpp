// SPDX-License-Identifier: MIT
#include "circuit/cable.h"

#include "circuit/portable_math.h"

#include <cmath>

namespace loom::circuit {

namespace {

struct TableRow {
    double area_m2, ohm_per_m;
};

// REFERENCE C01-C10: IEC 60228 class 5, plain copper, 20 C, maxima.
constexpr TableRow kClass5[] = {{0.5e-6, 39.0e-3},
                                {0.75e-6, 26.0e-3},
                                {1.0e-6, 19.5e-3},
                                {1.5e-6, 13.3e-3},
                                {2.5e-6, 7.98e-3},
                                {4.0e-6, 4.95e-3},
                                {6.0e-6, 3.30e-3},
                                {10e-6, 1.91e-3},
                                {16e-6, 1.21e-3},
                                {25e-6, 0.780e-3}};
constexpr double kCopper_ohm_m = 1.7241e-8;   // C11
constexpr double kCopper_J_per_K_m3 = 3.45e6; // C14
constexpr double kPvc_J_per_K_m3 = 1.7e6;     // from memory

double ratioToPlainCopper(double area_m2) {
    const TableRow* below = nullptr;
    for (const TableRow& row : kClass5) {
        const double ratio = row.ohm_per_m * row.area_m2 / kCopper_ohm_m;
        if (std::fabs(area_m2 - row.area_m2) < 1e-6 * row.area_m2) return ratio;
        if (area_m2 < row.area_m2) {
            if (below == nullptr) return ratio;
            const double low = below->ohm_per_m * below->area_m2 / kCopper_ohm_m;
            const double share = (area_m2 - below->area_m2) / (row.area_m2 - below->area_m2);
            return low + share * (ratio - low);
        }
        below = &row;
    }
    return below->ohm_per_m * below->area_m2 / kCopper_ohm_m;
}

double groupingFactor(unsigned bundled) {
    constexpr double kFactors[] = {1.0, 0.80, 0.70, 0.65, 0.60, 0.57, 0.54, 0.52, 0.50};
    return kFactors[bundled < 8 ? bundled : 8];
}

// Section of the sleeve: wall 0.6 mm, 0.8 mm from 2.5 mm2 and 1 mm from 10 mm2 on (trade sizes, from
// memory), around the conductor.
double sleeveSection_m2(double area_m2) {
    const double wall = area_m2 < 2.4e-6 ? 0.6e-3 : area_m2 < 9.9e-6 ? 0.8e-3 : 1.0e-3;
    const double radius = std::sqrt(area_m2 / 3.14159265358979324);
    return 3.14159265358979324 * wall * (2.0 * radius + wall);
}

double settleEnd(const EndPart& e, double i, Stage& s) {
    constexpr double kHeat_J_per_K = 12.0, kLoss_W_per_K = 0.15, kWear_J = 400.0;
    const double r = endResistance_ohm(e, s.y), p = i * i * r, a = s.a_s / kHeat_J_per_K;
    const double rise = (s.base[e.temperature] - s.ambient_K + a * p) / (1.0 + a * kLoss_W_per_K);
    s.y[e.temperature] = s.ambient_K + rise;
    s.f[e.temperature] = (p - kLoss_W_per_K * rise) / kHeat_J_per_K;
    s.f[e.wear] = e.loose ? p / kWear_J : 0.0;
    s.y[e.wear] = s.base[e.wear] + s.a_s * s.f[e.wear];
    return endResistance_ohm(e, s.y) - r;
}

void settleHeat(const CablePart& c, double p, Stage& s) {
    const double a = s.a_s, gi = c.inner_W_per_K, go = c.outer_W_per_K;
    const double cc = c.heatConductor_J_per_K, cs = c.heatSleeve_J_per_K;
    const double t0 = s.base[c.conductor] - s.ambient_K, s0 = s.base[c.sleeve] - s.ambient_K;
    const double m11 = cc + a * gi, m22 = cs + a * (gi + go), m12 = a * gi;
    const double r1 = cc * t0 + a * p, r2 = cs * s0;
    const double perDet = 1.0 / (m11 * m22 - m12 * m12);
    const double t = (r1 * m22 + m12 * r2) * perDet, sl = (m11 * r2 + m12 * r1) * perDet;
    s.y[c.conductor] = s.ambient_K + t;
    s.y[c.sleeve] = s.ambient_K + sl;
    s.f[c.conductor] = (p - gi * (t - sl)) / cc;
    s.f[c.sleeve] = (gi * (t - sl) - go * sl) / cs;
}

} // namespace

double copperCable_ohm_per_m(double area_m2) {
    return ratioToPlainCopper(area_m2) * kCopper_ohm_m / area_m2;
}

CablePart makeCable(const Cable& spec) {
    CablePart c;
    const double ratio = ratioToPlainCopper(spec.area_m2), length = spec.length_m;
    c.copper_ohm = ratio * kCopper_ohm_m / spec.area_m2 * length;
    c.heatConductor_J_per_K = kCopper_J_per_K_m3 * spec.area_m2 * ratio * length;
    c.heatSleeve_J_per_K = kPvc_J_per_K_m3 * sleeveSection_m2(spec.area_m2) * length;
    const double grouping = groupingFactor(spec.bundled);
    const double loss =
        0.165 * portablePow(spec.area_m2 * 1e6, 0.23) * grouping * grouping * length;
    c.inner_W_per_K = 3.0 * loss;
    c.outer_W_per_K = 1.5 * loss;
    c.limit_K = spec.sleeveLimit_K;
    const Joint* joints[] = {&spec.endA, &spec.endB};
    for (int k = 0; k < 2; ++k) {
        c.ends[k].resistance_ohm = joints[k]->resistance_ohm;
        c.ends[k].loose = joints[k]->loose;
    }
    return c;
}

double endResistance_ohm(const EndPart& e, const double* y) {
    return e.resistance_ohm * (1.0 + y[e.wear]);
}

double resistance_ohm(const CablePart& c, const double* y) {
    return c.copper_ohm * copperFactor(y[c.conductor]) + endResistance_ohm(c.ends[0], y) +
           endResistance_ohm(c.ends[1], y);
}

double sleeveThreshold_K(const CablePart& c, Sleeve state) {
    switch (state) {
    case Sleeve::Softened:
        return c.limit_K + 10.0;
    case Sleeve::Smoking:
        return c.limit_K + 130.0;
    case Sleeve::Burning:
        return c.limit_K + 320.0;
    case Sleeve::Sound:
        break;
    }
    return 0.0;
}

void stamp(const std::vector<CablePart>& cables, Stage& s) {
    for (const CablePart& c : cables) {
        if (!c.parted.closed()) {
            stampGap(c.parted, c.branch, s);
            continue;
        }
        s.g[c.branch] = 1.0 / resistance_ohm(c, s.y);
        s.j[c.branch] = 0.0;
    }
}

void settle(std::vector<CablePart>& cables, Stage& s) {
    for (CablePart& c : cables) {
        double i = 0.0;
        if (c.parted.closed()) {
            i = s.g[c.branch] * s.v[c.branch];
            s.i[c.branch] = i;
        } else {
            settleGap(c.parted, c.branch, s);
        }
        const double before = copperFactor(s.y[c.conductor]);
        settleHeat(c, i * i * c.copper_ohm * before, s);
        double change = c.copper_ohm * (copperFactor(s.y[c.conductor]) - before);
        for (const EndPart& e : c.ends)
            change += settleEnd(e, i, s);
        if (c.parted.closed()) s.disagree(std::fabs(change) * s.g[c.branch] * 1e6);
    }
}

} // namespace loom::circuit

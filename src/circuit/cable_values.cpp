// SPDX-License-Identifier: MIT
#include "circuit/cable_values.h"

#include "circuit/portable_math.h"

#include <cmath>

namespace loom::circuit {

namespace {

struct TableRow {
    double area_m2, ohm_per_m;
};

// IEC 60228 class 5, plain copper, 20 C, maxima (sources: cable.h).
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
constexpr double kCopper_ohm_m = 1.7241e-8;   // IACS, IEC 60028
constexpr double kCopper_J_per_K_m3 = 3.45e6; // IEC 60949, from memory
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

} // namespace

double copperCable_ohm_per_m(double area_m2) {
    return ratioToPlainCopper(area_m2) * kCopper_ohm_m / area_m2;
}

CableValues cableValues(const Cable& spec) {
    CableValues c;
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
    for (const Joint* end : {&spec.endA, &spec.endB})
        if (!ownModel(*end)) c.soundEnds_ohm += end->resistance_ohm;
    return c;
}

} // namespace loom::circuit

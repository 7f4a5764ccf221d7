// SPDX-License-Identifier: MIT
#include "circuit/cable.h"

#include "circuit/portable_math.h"

#include <algorithm>
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

// For a stage of weight a, with rises t, s over ambient and base rises t0, s0:
//   (Cc + a Gi) t - a Gi s = Cc t0 + a P,   -a Gi t + (Cs + a (Gi + Go)) s = Cs s0.
// k11, k12, k22 is the inverse of that symmetric matrix.
void prepare(Cables& c, double a) {
    if (c.preparedFor_s == a) return;
    c.preparedFor_s = a;
    for (std::size_t k = 0; k < c.size(); ++k) {
        const double m12 = a * c.inner[k], m11 = c.heatConductor[k] + m12;
        const double m22 = c.heatSleeve[k] + m12 + a * c.outer[k];
        const double perDet = 1.0 / (m11 * m22 - m12 * m12);
        c.k11[k] = m22 * perDet;
        c.k12[k] = m12 * perDet;
        c.k22[k] = m11 * perDet;
    }
}

void expectEnds(Cables& c, const double* y) {
    for (const EndPart& e : c.ends)
        c.worn_ohm[e.cable] = 0.0;
    for (const EndPart& e : c.ends)
        c.worn_ohm[e.cable] += e.resistance(y);
}

// Resistance that the temperatures y call for, into expected_ohm.
void expectResistance(Cables& c, const double* y) {
    const double* const __restrict t = y + c.firstConductor;
    const double* const __restrict copper = c.copper_ohm.data();
    const double* const __restrict sound = c.soundEnds_ohm.data();
    const double* const __restrict wornEnds = c.worn_ohm.data();
    double* const __restrict r = c.expected_ohm.data();
    const std::size_t n = c.size();
    for (std::size_t k = 0; k < n; ++k) {
        const double f = 1.0 + kCopperPerK * (t[k] - kReference_K);
        r[k] = copper[k] * (f > 0.1 ? f : 0.1) + (sound[k] + wornEnds[k]);
    }
}

// How far the resistance expected is off the one stamped, relative, at the worst cable.
double greatestOff(const Cables& c) {
    const double* const expected = c.expected_ohm.data();
    const double* const stamped = c.stamped_ohm.data();
    const double* const perStamped = c.stamped_S.data();
    const std::size_t n = c.size();
    double worst[4] = {0.0, 0.0, 0.0, 0.0}; // four chains, which run side by side
    std::size_t k = 0;
    for (; k + 4 <= n; k += 4)
        for (std::size_t m = 0; m < 4; ++m) {
            const double off = std::fabs(expected[k + m] - stamped[k + m]) * perStamped[k + m];
            worst[m] = off > worst[m] ? off : worst[m];
        }
    for (; k < n; ++k)
        worst[0] = std::fmax(worst[0], std::fabs(expected[k] - stamped[k]) * perStamped[k]);
    return std::fmax(std::fmax(worst[0], worst[1]), std::fmax(worst[2], worst[3]));
}

void warmEnds(const Cables& c, Stage& s) {
    constexpr double kHeat_J_per_K = 12.0, kLoss_W_per_K = 0.15, kWear_J = 400.0;
    for (const EndPart& e : c.ends) {
        const double i = s.i[c.branch(e.cable)], p = i * i * e.resistance(s.y);
        const double a = s.a_s / kHeat_J_per_K;
        const double rise =
            (s.base[e.temperature] - s.ambient_K + a * p) / (1.0 + a * kLoss_W_per_K);
        s.y[e.temperature] = s.ambient_K + rise;
        s.f[e.temperature] = (p - kLoss_W_per_K * rise) / kHeat_J_per_K;
        s.f[e.wear] = e.loose ? p / kWear_J : 0.0;
        s.y[e.wear] = s.base[e.wear] + s.a_s * s.f[e.wear];
    }
}

// A parted cable only cools: what its arc gives out is left out.
void coolParted(const Cables& c, std::size_t k, Stage& s) {
    const double r1 = c.heatConductor[k] * (s.base[c.conductor(k)] - s.ambient_K);
    const double r2 = c.heatSleeve[k] * (s.base[c.sleeve(k)] - s.ambient_K);
    const double t = c.k11[k] * r1 + c.k12[k] * r2, sl = c.k12[k] * r1 + c.k22[k] * r2;
    const double inward = c.inner[k] * (t - sl);
    s.y[c.conductor(k)] = s.ambient_K + t;
    s.y[c.sleeve(k)] = s.ambient_K + sl;
    s.f[c.conductor(k)] = -inward / c.heatConductor[k];
    s.f[c.sleeve(k)] = (inward - c.outer[k] * sl) / c.heatSleeve[k];
}

// Both heat equations of every cable.
void warmAll(const Cables& c, Stage& s) {
    const std::size_t n = c.size();
    const double* const __restrict i = s.i + c.firstBranch;
    const double* const __restrict r = c.stamped_ohm.data();
    const double* const __restrict sound = c.soundEnds_ohm.data();
    const double* const __restrict wornEnds = c.worn_ohm.data();
    const double* const __restrict cc = c.heatConductor.data();
    const double* const __restrict cs = c.heatSleeve.data();
    const double* const __restrict perCc = c.perHeatConductor.data();
    const double* const __restrict perCs = c.perHeatSleeve.data();
    const double* const __restrict gi = c.inner.data();
    const double* const __restrict go = c.outer.data();
    const double* const __restrict k11 = c.k11.data();
    const double* const __restrict k12 = c.k12.data();
    const double* const __restrict k22 = c.k22.data();
    const double* const __restrict t0 = s.base + c.firstConductor;
    const double* const __restrict s0 = s.base + c.firstSleeve;
    double* const __restrict t1 = s.y + c.firstConductor;
    double* const __restrict s1 = s.y + c.firstSleeve;
    double* const __restrict tf = s.f + c.firstConductor;
    double* const __restrict sf = s.f + c.firstSleeve;
    const double a = s.a_s, ambient = s.ambient_K;
    for (std::size_t k = 0; k < n; ++k) {
        const double p = i[k] * i[k] * (r[k] - (sound[k] + wornEnds[k]));
        const double r1 = cc[k] * (t0[k] - ambient) + a * p, r2 = cs[k] * (s0[k] - ambient);
        const double t = k11[k] * r1 + k12[k] * r2, sl = k12[k] * r1 + k22[k] * r2;
        const double inward = gi[k] * (t - sl);
        t1[k] = ambient + t;
        s1[k] = ambient + sl;
        tf[k] = (p - inward) * perCc[k];
        sf[k] = (inward - go[k] * sl) * perCs[k];
    }
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

double sleeveThreshold_K(double limit_K, Sleeve state) {
    switch (state) {
    case Sleeve::Softened:
        return limit_K + 10.0;
    case Sleeve::Smoking:
        return limit_K + 130.0;
    case Sleeve::Burning:
        return limit_K + 320.0;
    case Sleeve::Sound:
        break;
    }
    return 0.0;
}

void Cables::add(const CableValues& v) {
    copper_ohm.push_back(v.copper_ohm);
    soundEnds_ohm.push_back(v.soundEnds_ohm);
    limit_K.push_back(v.limit_K);
    inner.push_back(v.inner_W_per_K);
    outer.push_back(v.outer_W_per_K);
    heatConductor.push_back(v.heatConductor_J_per_K);
    heatSleeve.push_back(v.heatSleeve_J_per_K);
    perHeatConductor.push_back(1.0 / v.heatConductor_J_per_K);
    perHeatSleeve.push_back(1.0 / v.heatSleeve_J_per_K);
    state.push_back(Sleeve::Sound);
    nextEvent_K.push_back(0.0);
    parted.emplace_back();
    for (std::vector<double>* values :
         {&stamped_ohm, &stamped_S, &expected_ohm, &worn_ohm, &k11, &k12, &k22})
        values->push_back(0.0);
    setState(size() - 1, Sleeve::Sound);
}

void Cables::restamp(std::size_t k) {
    stamped_ohm[k] = expected_ohm[k];
    stamped_S[k] = 1.0 / expected_ohm[k];
}

void Cables::part(std::size_t k) {
    apart.push_back(static_cast<std::uint32_t>(k));
    setState(k, state[k]);
}

void Cables::setState(std::size_t k, Sleeve now) {
    state[k] = now;
    const double never_K = 1e30;
    if (now == Sleeve::Burning)
        nextEvent_K[k] = parted[k].closed() ? kCopperMelts_K : never_K;
    else
        nextEvent_K[k] = sleeveThreshold_K(limit_K[k], static_cast<Sleeve>(int(now) + 1));
}

void refresh(Cables& c, const double* y) {
    expectEnds(c, y);
    expectResistance(c, y);
    for (std::size_t k = 0; k < c.size(); ++k)
        c.restamp(k);
}

void stamp(Cables& c, Stage& s) {
    if (s.first) {
        expectEnds(c, s.y);
        expectResistance(c, s.y);
        if (greatestOff(c) > s.staleRelative)
            for (std::size_t k = 0; k < c.size(); ++k)
                if (s.stale(c.stamped_ohm[k], c.expected_ohm[k])) c.restamp(k);
        std::copy(c.stamped_S.begin(), c.stamped_S.end(), s.g + c.firstBranch);
    }
    for (const std::uint32_t k : c.apart)
        stampGap(c.parted[k], c.branch(k), s);
}

void settle(Cables& c, Stage& s) {
    const double* const __restrict g = s.g + c.firstBranch;
    const double* const __restrict v = s.v + c.firstBranch;
    double* const __restrict i = s.i + c.firstBranch;
    const std::size_t n = c.size();
    for (std::size_t k = 0; k < n; ++k)
        i[k] = g[k] * v[k];
    for (const std::uint32_t k : c.apart)
        settleGap(c.parted[k], c.branch(k), s);
}

void warm(Cables& c, Stage& s) {
    prepare(c, s.a_s);
    warmAll(c, s);
    for (const std::uint32_t k : c.apart)
        coolParted(c, k, s);
    warmEnds(c, s);
    expectEnds(c, s.y);
    expectResistance(c, s.y);
    const double off = greatestOff(c) / s.driftRelative;
    if (!(off <= s.drift)) s.drift = off;
}

} // namespace loom::circuit

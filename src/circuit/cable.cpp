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
//   (Cc + a Gi) t - a Gi s = Cc t0 + a P,   -a Gi t + (Cs + a (Gi + Go)) s = Cs s0,
// solved for  t = fromConductor t0 + fromSleeve s0 + fromHeat i^2 (R over cold R),
//             s = sleeveStays s0 + sleeveFollows t.
void prepare(Cables& c, double a) {
    if (c.preparedFor_s == a) return;
    c.preparedFor_s = a;
    for (std::size_t k = 0; k < c.size(); ++k) {
        const CableValues& v = c.values[k];
        const double m12 = a * v.inner_W_per_K, m11 = v.heatConductor_J_per_K + m12;
        const double m22 = v.heatSleeve_J_per_K + m12 + a * v.outer_W_per_K;
        const double perDet = 1.0 / (m11 * m22 - m12 * m12), perM22 = 1.0 / m22;
        c.fromConductor[k] = m22 * perDet * v.heatConductor_J_per_K;
        c.fromSleeve[k] = m12 * perDet * v.heatSleeve_J_per_K;
        c.fromHeat_K_per_A2[k] = m22 * perDet * a * v.copper_ohm;
        c.sleeveStays[k] = v.heatSleeve_J_per_K * perM22;
        c.sleeveFollows[k] = m12 * perM22;
    }
}

double wornEnds_ohm(const Cables& c, std::size_t cable, const double* y) {
    double r = 0.0;
    for (const EndPart& e : c.ends)
        if (e.cable == cable) r += e.resistance(y);
    return r;
}

// Stamps cable k for the temperatures and ends of y.
void restamp(Cables& c, std::size_t k, const double* y, double worn_ohm) {
    const double copper = c.values[k].copper_ohm * copperFactor(y[c.conductor(k)]);
    c.stampedAt_K[k] = y[c.conductor(k)];
    c.stamped_ohm[k] = copper + c.values[k].soundEnds_ohm + worn_ohm;
    c.stamped_S[k] = 1.0 / c.stamped_ohm[k];
}

double greatest(const double* x, std::size_t n) {
    double worst[4] = {0.0, 0.0, 0.0, 0.0}; // four chains, which run side by side
    std::size_t k = 0;
    for (; k + 4 <= n; k += 4)
        for (std::size_t m = 0; m < 4; ++m)
            worst[m] = x[k + m] > worst[m] ? x[k + m] : worst[m];
    for (; k < n; ++k)
        worst[0] = x[k] > worst[0] ? x[k] : worst[0];
    for (std::size_t m = 1; m < 4; ++m)
        worst[0] = worst[m] > worst[0] ? worst[m] : worst[0];
    return worst[0];
}

// A cable whose ends wear is stamped anew at every stage; there are few.
void stampWorn(Cables& c, Stage& s) {
    for (const EndPart& e : c.ends) {
        restamp(c, e.cable, s.y, wornEnds_ohm(c, e.cable, s.y));
        s.g[c.branch(e.cable)] = c.stamped_S[e.cable];
    }
}

void stampMoved(Cables& c, Stage& s) {
    const std::size_t n = c.size();
    const double* const __restrict t = s.y + c.firstConductor;
    const double* const __restrict at = c.stampedAt_K.data();
    double* const __restrict off = c.off_K.data();
    for (std::size_t k = 0; k < n; ++k)
        off[k] = std::fabs(t[k] - at[k]);
    const double most_K = s.staleRelative / kCopperPerK;
    if (greatest(off, n) <= most_K) return;
    for (std::size_t k = 0; k < n; ++k) {
        if (!(off[k] > most_K)) continue;
        restamp(c, k, s.y, 0.0);
        s.g[c.branch(k)] = c.stamped_S[k];
    }
}

void warmEnds(const Cables& c, Stage& s) {
    constexpr double kHeat_J_per_K = 12.0, kLoss_W_per_K = 0.15, kWear_J = 400.0;
    for (const EndPart& e : c.ends) {
        const double before_ohm = e.resistance(s.y);
        const double i = s.i[c.branch(e.cable)], p = i * i * before_ohm;
        const double a = s.a_s / kHeat_J_per_K;
        const double rise =
            (s.base[e.temperature] - s.ambient_K + a * p) / (1.0 + a * kLoss_W_per_K);
        s.y[e.temperature] = s.ambient_K + rise;
        s.f[e.temperature] = (p - kLoss_W_per_K * rise) / kHeat_J_per_K;
        s.f[e.wear] = e.loose ? p / kWear_J : 0.0;
        s.y[e.wear] = s.base[e.wear] + s.a_s * s.f[e.wear];
        const double stamped_ohm = c.stamped_ohm[e.cable];
        s.compare(stamped_ohm + e.resistance(s.y) - before_ohm, stamped_ohm);
    }
}

// Arrays come in as parameters where only there the compiler takes it from us that they lie apart.
struct Surroundings {
    double perA_s, ambient_K, factor; // 1/s; the last: copperFactor of the ambient
};

// off_K: how far the temperatures found are from those expected, which y holds before.
void warmConductors(std::size_t n,
                    const Surroundings& at,
                    const double* __restrict current_A,
                    const double* __restrict fromConductor,
                    const double* __restrict fromSleeve,
                    const double* __restrict fromHeat_K_per_A2,
                    const double* __restrict base,
                    const double* __restrict sleeveBase,
                    double* __restrict y,
                    double* __restrict f,
                    double* __restrict off_K) {
    const double ambient = at.ambient_K, factor = at.factor, perA = at.perA_s;
    for (std::size_t k = 0; k < n; ++k) {
        const double t0 = base[k] - ambient, s0 = sleeveBase[k] - ambient;
        const double still = fromConductor[k] * t0 + fromSleeve[k] * s0;
        // Heats by the resistance at the temperature found, not the one stamped: two rounds.
        const double cold_K = fromHeat_K_per_A2[k] * (current_A[k] * current_A[k]);
        const double almost = still + cold_K * (factor + kCopperPerK * (y[k] - ambient));
        const double t = still + cold_K * (factor + kCopperPerK * almost);
        off_K[k] = std::fabs(ambient + t - y[k]);
        y[k] = ambient + t;
        f[k] = (t - t0) * perA;
    }
}

void warmSleeves(std::size_t n,
                 const Surroundings& at,
                 const double* __restrict stays,
                 const double* __restrict follows,
                 const double* __restrict base,
                 const double* __restrict conductor,
                 double* __restrict y,
                 double* __restrict f) {
    const double ambient = at.ambient_K, perA = at.perA_s;
    for (std::size_t k = 0; k < n; ++k) {
        const double s0 = base[k] - ambient;
        const double rise = stays[k] * s0 + follows[k] * (conductor[k] - ambient);
        y[k] = ambient + rise;
        f[k] = (rise - s0) * perA;
    }
}

// Both heat equations of every cable.
void warmAll(Cables& c, Stage& s) {
    const std::uint32_t t = c.firstConductor, sl = c.firstSleeve;
    const double factor = 1.0 + kCopperPerK * (s.ambient_K - kReference_K);
    const Surroundings at{1.0 / s.a_s, s.ambient_K, factor};
    warmConductors(c.size(),
                   at,
                   s.i + c.firstBranch,
                   c.fromConductor.data(),
                   c.fromSleeve.data(),
                   c.fromHeat_K_per_A2.data(),
                   s.base + t,
                   s.base + sl,
                   s.y + t,
                   s.f + t,
                   c.off_K.data());
    warmSleeves(c.size(),
                at,
                c.sleeveStays.data(),
                c.sleeveFollows.data(),
                s.base + sl,
                s.y + t,
                s.y + sl,
                s.f + sl);
}

// A parted cable only cools: what its arc gives out is left out.
void coolParted(Cables& c, std::size_t k, Stage& s) {
    const double t0 = s.base[c.conductor(k)] - s.ambient_K;
    const double s0 = s.base[c.sleeve(k)] - s.ambient_K;
    const double t = c.fromConductor[k] * t0 + c.fromSleeve[k] * s0;
    const double sl = c.sleeveStays[k] * s0 + c.sleeveFollows[k] * t;
    s.y[c.conductor(k)] = s.ambient_K + t;
    s.y[c.sleeve(k)] = s.ambient_K + sl;
    s.f[c.conductor(k)] = (t - t0) / s.a_s;
    s.f[c.sleeve(k)] = (sl - s0) / s.a_s;
    c.off_K[k] = 0.0;
}

// Takes back the error of a run of states that begins at first, as correctedShare() says.
void correct(const StepRates& rates,
             std::uint32_t first,
             const std::vector<double>& shares,
             double* states) {
    const double* const __restrict f0 = rates.begin + first;
    const double* const __restrict f1 = rates.middle + first;
    const double* const __restrict f2 = rates.end + first;
    const double* const __restrict share = shares.data();
    double* const __restrict y = states + first;
    const double w0 = rates.perBegin_s, w1 = rates.perMiddle_s, w2 = rates.perEnd_s;
    const std::size_t n = shares.size();
    for (std::size_t k = 0; k < n; ++k)
        y[k] += (w0 * f0[k] + w1 * f1[k] + w2 * f2[k]) * share[k];
}

void prepareShares(Cables& c, double h) {
    if (c.sharedFor_s == h) return;
    c.sharedFor_s = h;
    for (std::size_t k = 0; k < c.size(); ++k) {
        c.share1[k] = 1.0 / (1.0 + c.holds1_per_s2[k] * (h * h));
        c.share2[k] = 1.0 / (1.0 + c.holds2_per_s2[k] * (h * h));
    }
}

// kHolds times the square of the rate at which a temperature forgets.
double holds_per_s2(double loss_W_per_K, double heat_J_per_K) {
    const double rate_per_s = loss_W_per_K / heat_J_per_K;
    return kHolds * rate_per_s * rate_per_s;
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
    values.push_back(v);
    holds1_per_s2.push_back(holds_per_s2(v.inner_W_per_K, v.heatConductor_J_per_K));
    holds2_per_s2.push_back(holds_per_s2(v.inner_W_per_K + v.outer_W_per_K, v.heatSleeve_J_per_K));
    state.push_back(Sleeve::Sound);
    nextEvent_K.push_back(0.0);
    parted.emplace_back();
    neighbour.push_back(-1);
    for (std::vector<double>* each : {&stamped_ohm,
                                      &stamped_S,
                                      &stampedAt_K,
                                      &off_K,
                                      &fromConductor,
                                      &fromSleeve,
                                      &fromHeat_K_per_A2,
                                      &sleeveStays,
                                      &sleeveFollows,
                                      &share1,
                                      &share2})
        each->push_back(0.0);
    setState(size() - 1, Sleeve::Sound);
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
        nextEvent_K[k] = sleeveThreshold_K(values[k].limit_K, static_cast<Sleeve>(int(now) + 1));
}

void refresh(Cables& c, const double* y) {
    for (std::size_t k = 0; k < c.size(); ++k)
        restamp(c, k, y, 0.0);
    for (const EndPart& e : c.ends)
        restamp(c, e.cable, y, wornEnds_ohm(c, e.cable, y));
    c.fresh = true;
}

void stamp(Cables& c, Stage& s) {
    if (c.fresh)
        std::copy(c.stamped_S.begin(), c.stamped_S.end(), s.g + c.firstBranch);
    else if (s.first)
        stampMoved(c, s);
    if (s.first) stampWorn(c, s);
    c.fresh = false;
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
    const double drift = greatest(c.off_K.data(), c.size()) * kCopperPerK / s.driftRelative;
    if (!(drift <= s.drift)) s.drift = drift;
    warmEnds(c, s);
}

void sharpen(Cables& c, double h, const StepRates& rates, double* y) {
    prepareShares(c, h);
    correct(rates, c.firstConductor, c.share1, y);
    correct(rates, c.firstSleeve, c.share2, y);
}

} // namespace loom::circuit

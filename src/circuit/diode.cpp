// SPDX-License-Identifier: MIT
#include "circuit/diode.h"

#include "circuit/models.h"
#include "circuit/portable_math.h"

#include <cmath>

namespace loom::circuit {

namespace {

constexpr double kLeak_S = 1e-9;
constexpr double kBreakdown_S = 1.0;

// Where to linearise next, given the voltage and current v, i of the line that the network met.
// Where the curve is steep it is the voltage at which the law gives that current, which says more
// than the voltage does.
double nextPoint_V(const DiodePart& d, double v, double i) {
    // On the flat part of the curve: so much can only be forced backwards, and it must break down.
    if (d.at_V <= 0.0 && v < 0.0 && i < -2.0 * (d.saturation_A + kLeak_S * d.reverse_V))
        return -d.reverse_V + (i + d.saturation_A) / kBreakdown_S;
    if (v <= 0.0) return v;
    if (i <= 0.0) return d.at_V > 0.0 ? 0.0 : v < d.knee_V ? v : d.knee_V;
    if (i >= d.knee_A) return d.knee_V + (i - d.knee_A) / d.knee_S;
    const double byCurrent = kJunction_V * portableLog(1.0 + i / d.saturation_A);
    return v < byCurrent ? v : byCurrent;
}

double diodeCurrent_A(const DiodePart& d, double v, double& slope_S) {
    if (v > d.knee_V) {
        slope_S = d.knee_S;
        return d.knee_A + kLeak_S * d.knee_V + d.knee_S * (v - d.knee_V);
    }
    const double e = d.saturation_A * portableExp(v / kJunction_V);
    slope_S = e / kJunction_V + kLeak_S;
    if (v >= -d.reverse_V) return e - d.saturation_A + kLeak_S * v;
    slope_S = kBreakdown_S;
    return -d.saturation_A - kLeak_S * d.reverse_V + kBreakdown_S * (v + d.reverse_V);
}

} // namespace

bool Diodes::valid(const Diode& spec) {
    return within(spec.forward_V, 0.01, 10.0) && within(spec.rated_A, 1e-6, 1e6) &&
           within(spec.reverse_V, 1e-3, kGreatest_V);
}

Entry Diodes::add(const Diode& spec, Key, Builder& b) {
    DiodePart d;
    d.branch = b.branch(spec.anode, spec.cathode);
    d.saturation_A = spec.rated_A * portableExp(-spec.forward_V / kJunction_V);
    d.knee_A = 10.0 * spec.rated_A;
    d.knee_V = spec.forward_V + kJunction_V * portableLog(10.0);
    d.knee_S = d.knee_A / kJunction_V;
    d.reverse_V = spec.reverse_V;
    all.push_back(d);
    return {lastIndex(all), d.branch};
}

void Diodes::restart(const double*, const double* v) {
    for (DiodePart& d : all)
        d.at_V = v[d.branch] < d.knee_V ? v[d.branch] : d.knee_V;
}

void Diodes::stamp(Stage& s) {
    for (const DiodePart& d : all) {
        double g = 0.0;
        const double i = diodeCurrent_A(d, d.at_V, g);
        g = lazySlope_S(s.factored_S[d.branch], g);
        s.g[d.branch] = g;
        s.j[d.branch] = i - g * d.at_V;
    }
}

void Diodes::updateBranches(Stage& s) {
    for (DiodePart& d : all) {
        const double v = s.v[d.branch], line = s.g[d.branch] * v + s.j[d.branch];
        double slope = 0.0;
        const double law = diodeCurrent_A(d, v, slope);
        s.disagree(std::fabs(law - line) / (s.agreeRelative * std::fabs(law) + kAgree_A));
        s.i[d.branch] = line;
        const double next_V = nextPoint_V(d, v, line);
        d.at_V = s.cautious ? 0.5 * (d.at_V + next_V) : next_V;
    }
}

} // namespace loom::circuit

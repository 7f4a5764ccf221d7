// SPDX-License-Identifier: MIT
#include "circuit/diode.h"

#include "circuit/portable_math.h"

#include <cmath>

namespace loom::circuit {

namespace {

// The next voltage to linearise at, given that the network answered v.
double limited(const DiodePart& d, double v) {
    if (v >= d.knee_V || v <= 0.0) {
        if (v <= 0.0) return v;
        return d.at_V < d.knee_V - kJunction_V ? d.knee_V : v;
    }
    const double from = d.at_V > 0.0 ? d.at_V : 0.0;
    const double step = v - from;
    if (step <= 2.0 * kJunction_V) return v;
    const double start = from > 0.7 * d.knee_V ? from : 0.7 * d.knee_V;
    if (v <= start) return v;
    return start + kJunction_V * portableLog(1.0 + (v - start) / kJunction_V);
}

} // namespace

DiodePart makeDiode(double forward_V, double rated_A, double reverse_V) {
    DiodePart d;
    d.saturation_A = rated_A * portableExp(-forward_V / kJunction_V);
    d.knee_A = 10.0 * rated_A;
    d.knee_V = forward_V + kJunction_V * portableLog(10.0);
    d.knee_S = d.knee_A / kJunction_V;
    d.reverse_V = reverse_V;
    return d;
}

double diodeCurrent_A(const DiodePart& d, double v, double& slope_S) {
    if (v > d.knee_V) {
        slope_S = d.knee_S;
        return d.knee_A + d.knee_S * (v - d.knee_V);
    }
    const double e = d.saturation_A * portableExp(v / kJunction_V);
    slope_S = e / kJunction_V;
    if (v >= -d.reverse_V) return e - d.saturation_A;
    slope_S = 1.0;
    return -d.saturation_A + (v + d.reverse_V);
}

void stamp(const std::vector<DiodePart>& diodes, Stage& s) {
    for (const DiodePart& d : diodes) {
        double g = 0.0;
        const double i = diodeCurrent_A(d, d.at_V, g);
        s.g[d.branch] = g;
        s.j[d.branch] = i - g * d.at_V;
    }
}

void settle(std::vector<DiodePart>& diodes, Stage& s) {
    for (DiodePart& d : diodes) {
        const double v = s.v[d.branch], line = s.g[d.branch] * v + s.j[d.branch];
        double slope = 0.0;
        const double law = diodeCurrent_A(d, v, slope);
        s.disagree(std::fabs(law - line) / (kAgreeRelative * std::fabs(law) + kAgree_A));
        s.i[d.branch] = line;
        d.at_V = limited(d, v);
    }
}

} // namespace loom::circuit

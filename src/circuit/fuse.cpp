// SPDX-License-Identifier: MIT
#include "circuit/fuse.h"

#include "circuit/portable_math.h"

namespace loom::circuit {

namespace {

constexpr double kRise = 0.5; // resistance gained at melting, over cold
constexpr double kLn1p5 = 0.405465108108164382;

struct Style {
    double carried, i2t_s, bodyShare, body_s;
};

// Melting I2t over the square of the rating, of blades: between the sheet's sizes by a power of the
// rating, beyond them as at the last.
double bladeI2t_s(double rating_A) {
    constexpr double kRating_A[] = {5.0, 20.0, 40.0}, kI2t_A2s[] = {26.0, 520.0, 3300.0};
    const auto atSize = [&](int k) { return kI2t_A2s[k] / (kRating_A[k] * kRating_A[k]); };
    if (rating_A <= kRating_A[0]) return atSize(0);
    for (int k = 1; k < 3; ++k) {
        if (rating_A > kRating_A[k]) continue;
        const double power =
            portableLog(atSize(k) / atSize(k - 1)) / portableLog(kRating_A[k] / kRating_A[k - 1]);
        return atSize(k) * portablePow(rating_A / kRating_A[k], power);
    }
    return atSize(2);
}

Style styleOf(FuseStyle style, double rating_A) {
    switch (style) {
    case FuseStyle::Strip:
        return {1.2, 9.0, 0.6, 200.0};
    case FuseStyle::Cartridge:
        return {1.2, 0.15, 0.4, 10.0};
    case FuseStyle::Blade:
        break;
    }
    return {1.2, bladeI2t_s(rating_A), 0.4, 15.0};
}

void heat(const FusePart& f, double i, Stage& s) {
    const double a = s.a_s, n = i / f.rating_A;
    const double m11 = f.c1_s + a * f.g1, m22 = f.c2_s + a * (f.g1 + f.g2), m12 = a * f.g1;
    const double cold = f.gap.closed() ? n * n : 0.0; // heat at x1 = 0
    const double perDet = 1.0 / (m11 * m22 - m12 * m12);
    const double r2 = f.c2_s * s.base[f.body];
    // x1 = still + gain p,  p = cold (1 + rise x1): with the resistance found, not the one stamped,
    // whose last digits are many milliseconds of a slow fuse.
    const double still = (f.c1_s * s.base[f.element] * m22 + m12 * r2) * perDet;
    const double gain = a * m22 * perDet, feedback = gain * cold * kRise;
    const double expected = s.y[f.element] > 0.0 ? s.y[f.element] : 0.0;
    const double x1 = feedback < 0.5 ? (still + gain * cold) / (1.0 - feedback)
                                     : still + gain * cold * (1.0 + kRise * expected);
    const double p = cold * (1.0 + kRise * x1), x2 = (r2 + m12 * x1) / m22;
    s.y[f.element] = x1;
    s.y[f.body] = x2;
    s.f[f.element] = (p - f.g1 * (x1 - x2)) / f.c1_s;
    s.f[f.body] = (f.g1 * (x1 - x2) - f.g2 * x2) / f.c2_s;
}

} // namespace

FusePart makeFuse(const Fuse& spec) {
    const Style style = styleOf(spec.style, spec.rating_A);
    FusePart f;
    f.rating_A = spec.rating_A;
    f.cold_ohm = spec.cold_ohm;
    const double thermal = 1.0 / ((1.0 + kRise) * style.carried * style.carried);
    f.g1 = 1.0 / (thermal * (1.0 - style.bodyShare));
    f.g2 = 1.0 / (thermal * style.bodyShare);
    f.c1_s = kRise * style.i2t_s / kLn1p5;
    f.c2_s = style.body_s * f.g2;
    return f;
}

double resistance_ohm(const FusePart& f, const double* y) {
    const double x = y[f.element];
    return f.cold_ohm * (1.0 + kRise * (x > 0.0 ? x : 0.0));
}

void refresh(std::vector<FusePart>& fuses, const double* y) {
    for (FusePart& f : fuses)
        f.stamped_ohm = resistance_ohm(f, y);
}

void stamp(std::vector<FusePart>& fuses, Stage& s) {
    for (FusePart& f : fuses) {
        if (!f.gap.closed()) {
            stampGap(f.gap, f.branch, s);
            continue;
        }
        const double r = resistance_ohm(f, s.y);
        if (s.stale(f.stamped_ohm, r)) f.stamped_ohm = r;
        s.g[f.branch] = 1.0 / f.stamped_ohm;
        s.j[f.branch] = 0.0;
    }
}

void settle(std::vector<FusePart>& fuses, Stage& s) {
    for (FusePart& f : fuses) {
        if (f.gap.closed())
            s.i[f.branch] = s.g[f.branch] * s.v[f.branch];
        else
            settleGap(f.gap, f.branch, s);
    }
}

void warm(const std::vector<FusePart>& fuses, Stage& s) {
    for (const FusePart& f : fuses) {
        heat(f, s.i[f.branch], s);
        if (f.gap.closed()) s.compare(resistance_ohm(f, s.y), f.stamped_ohm);
    }
}

} // namespace loom::circuit

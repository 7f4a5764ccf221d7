// SPDX-License-Identifier: MIT
#include "circuit/fuse.h"

#include "circuit/models.h"
#include "circuit/portable_math.h"

namespace loom::circuit {

namespace {

constexpr double kRise = 0.5; // resistance gained at melting, over cold
// The element when it opens, above ambient; both from memory.
constexpr double kMeltsAbove_K = 400.0; // zinc
constexpr double kTripsAbove_K = 90.0;  // a bimetal
constexpr double kLn1p5 = 0.405465108108164382;
// Error of melting allowed in a step. The body is slow, so it costs few steps, and late: what it is
// off shows at the end.
constexpr double kElementAbsolute = 2e-6, kBodyAbsolute = 2e-8;

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
    case FuseStyle::Breaker:
        return {1.2, 30.0, 0.5, 20.0};
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

double resistance_ohm(const FusePart& f, const double* y) {
    const double x = y[f.element];
    return f.cold_ohm * (1.0 + kRise * (x > 0.0 ? x : 0.0));
}

bool isBreaker(const FusePart& f) {
    return f.style == FuseStyle::Breaker;
}

bool applyEvent(FusePart& f, Instant& now) {
    const double i = now.at.i[f.branch];
    if (std::fabs(i) <= f.rating_A) f.overloadedSince_s = now.time_s;
    if (!f.gap.closed()) return now.endArc(f.gap, f.branch);
    if (now.y[f.element] < 1.0) return false;
    const EventKind kind = isBreaker(f) ? EventKind::BreakerTripped : EventKind::FuseMelted;
    now.add(kind, f.key, i, now.time_s - f.overloadedSince_s);
    openGap(f.gap, i, now.time_s);
    return true;
}

} // namespace

bool Fuses::valid(const Fuse& spec) {
    return within(spec.rating_A, 1e-6, 1e6) && within(spec.cold_ohm, kLeast_ohm, kGreatest_ohm);
}

bool Fuses::replaced(const Fuse& was, const Fuse& now) {
    const bool fresh = was.blown && !now.blown && now.style != FuseStyle::Breaker;
    return fresh || was.rating_A != now.rating_A || was.style != now.style;
}

FusePart coldFuse(const Fuse& spec) {
    const Style style = styleOf(spec.style, spec.rating_A);
    FusePart f;
    f.style = spec.style;
    f.rating_A = spec.rating_A;
    f.cold_ohm = spec.cold_ohm;
    const double thermal = 1.0 / ((1.0 + kRise) * style.carried * style.carried);
    f.g1 = 1.0 / (thermal * (1.0 - style.bodyShare));
    f.g2 = 1.0 / (thermal * style.bodyShare);
    f.c1_s = kRise * style.i2t_s / kLn1p5;
    f.c2_s = style.body_s * f.g2;
    return f;
}

Entry Fuses::add(const Fuse& spec, Key key, Builder& b) {
    FusePart f = coldFuse(spec);
    f.key = key;
    f.branch = b.branch(spec.a, spec.b);
    f.element = b.states.add(0.0, kElementAbsolute, 0.0);
    f.body = b.states.add(0.0, kBodyAbsolute, 0.0);
    b.states.creeping.push_back({f.element, f.g1 / f.c1_s});
    b.states.creeping.push_back({f.body, (f.g1 + f.g2) / f.c2_s});
    if (spec.blown) f.gap.phase = GapPhase::Open;
    all.push_back(f);
    return {lastIndex(all), f.branch};
}

void Fuses::restart(const double* y, const double*) {
    for (FusePart& f : all) {
        f.gap.side = 0;
        f.stamped_ohm = resistance_ohm(f, y);
    }
}

void Fuses::stamp(Stage& s) {
    for (FusePart& f : all) {
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

void Fuses::updateBranches(Stage& s) {
    for (FusePart& f : all) {
        if (f.gap.closed())
            s.i[f.branch] = s.g[f.branch] * s.v[f.branch];
        else
            updateGap(f.gap, f.branch, s);
    }
}

void Fuses::updateTemperatures(Stage& s, const Models&) {
    for (const FusePart& f : all) {
        heat(f, s.i[f.branch], s);
        if (f.gap.closed()) s.compare(resistance_ohm(f, s.y), f.stamped_ohm);
    }
}

void Fuses::findCrossings(Crossings& first) const {
    for (const FusePart& f : all)
        if (f.gap.closed())
            first.rise(f.element, 1.0);
        else
            first.arc(f.gap, f.branch);
}

bool Fuses::applyEvents(Instant& now) {
    bool jumped = false;
    for (FusePart& f : all)
        jumped = applyEvent(f, now) || jumped;
    return jumped;
}

void Fuses::carryOver(const Carry& c) {
    const FusePart& was = c.from.of<Fuses>().all[c.was];
    FusePart& f = all[c.is];
    c.copy(was.element, f.element, 2);
    f.overloadedSince_s = was.overloadedSince_s;
    if (!isBreaker(f)) return f.gap.carryOver(was.gap);
    if (f.gap.closed()) return; // set again by hand
    f.gap = was.gap;
    openGap(f.gap, c.then.i[was.branch], c.now_s);
}

void Fuses::read(const View& view, std::uint32_t index, Reading& r) const {
    const FusePart& f = all[index];
    const double x = view.y[f.element];
    r.open = !f.gap.closed();
    r.melting = r.open || x > 1.0 ? 1.0 : x < 0.0 ? 0.0 : x;
    r.temp_K += (isBreaker(f) ? kTripsAbove_K : kMeltsAbove_K) * (x < 0.0 ? 0.0 : x);
}

bool Fuses::active(const Activity& now) const {
    constexpr double kNothingMelts = 1e-3;
    for (const FusePart& f : all)
        if (now.state(f.element) > kNothingMelts) return true;
    return false;
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
#include "circuit/battery.h"

#include "circuit/models.h"

namespace loom::circuit {

namespace {

constexpr double kFullest = 1.05, kGassing_V = 2.0; // where charging ends, and the climb up to it
constexpr double kEmpty = -0.03;                    // where the voltage has collapsed
constexpr double kTaper = 0.01; // of h1, over which it ceases to take or to give charge: ours

// y1 + y2 moves by a drive; the exchange is one more equation in y1. Near full and near dead the drive
// falls straight to nothing at an edge of y1, solved with it: a switch there would chatter.
void exchange(const BatteryPart& b, double drive_per_s, Stage& s) {
    constexpr double kP = kExchange_per_s / kAvailable, kQ = kExchange_per_s / (1.0 - kAvailable);
    constexpr double kWidth = kTaper * kAvailable;
    const double a = s.a_s, base = s.base[b.available], whole = base + s.base[b.bound];
    const double edge = (drive_per_s > 0.0 ? kFullest : 2.0 * kEmpty) * kAvailable;
    const double moved = a * drive_per_s, still = base + a * kQ * whole, d = 1.0 + a * (kP + kQ);
    double share = 1.0, y1 = (still + moved * (1.0 + a * kQ)) / d;
    if (drive_per_s > 0.0 ? y1 > edge - kWidth : y1 < edge + kWidth) {
        const double steep = (moved > 0.0 ? moved : -moved) * (1.0 + a * kQ) / kWidth;
        y1 = (still + steep * edge) / (d + steep);
        share = (drive_per_s > 0.0 ? edge - y1 : y1 - edge) / kWidth;
    }
    const double sum = whole + share * moved, rate = kQ * (sum - y1) - kP * y1;
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

double emf_V(const BatteryPart& b, const double* y) {
    return emfAt_V(b, head(b, y));
}

double resistance_ohm(const BatteryPart& b, const double* y) {
    return resistanceAt_ohm(b, head(b, y), y[b.temperature]);
}

double charge(const BatteryPart& b, const double* y) {
    return y[b.available] + y[b.bound];
}

// Volts at its terminals while a current charges it; 0 when none does.
double chargedTo_V(const BatteryPart& b, const double* y, double charging_A) {
    return charging_A > 0.0 ? emf_V(b, y) + charging_A * resistance_ohm(b, y) : 0.0;
}

// Reports once when above, again after it has been below the second limit.
bool risesAbove(bool& reported, double value, double limit, double rearm) {
    if (!reported && value > limit) return reported = true;
    if (reported && value < rearm) reported = false;
    return false;
}

void applyEvent(BatteryPart& b, Instant& now) {
    const double delivered = -now.at.i[b.branch], hourly = b.capacity_C / 3600.0;
    const double q = charge(b, now.y.data());
    if (risesAbove(b.abuseReported, delivered, kAbuse_per_h * hourly, 0.5 * kAbuse_per_h * hourly))
        now.add(EventKind::BatteryAbused, b.key, delivered);
    if (risesAbove(b.chargeReported, -delivered, kCharging_per_h * hourly, 0.01 * hourly))
        now.add(EventKind::BatteryCharged, b.key, -delivered);
    const double driven_V = chargedTo_V(b, now.y.data(), -delivered);
    if (risesAbove(b.gassingReported, driven_V, kGassing * b.full_V, kGassingEnds * b.full_V))
        now.add(EventKind::BatteryGassing, b.key, -delivered, driven_V);
    if (risesAbove(b.flatReported, kFlat - q, -1e-12, -0.05))
        now.add(EventKind::BatteryFlat, b.key, q);
}

// Volts to which a charging current drives it within the step.
double chargedTo_V(const BatteryPart& b, const Step& s, double theta) {
    BatteryPart then = b;
    then.available = 0;
    then.temperature = 1;
    const double y[] = {s.state(b.available, theta), s.state(b.temperature, theta)};
    return chargedTo_V(then, y, s.current(b.branch, theta));
}

void findCrossing(const BatteryPart& b, Crossings& first) {
    const Step& s = first.step;
    const double charging_A = s.end.i[b.branch], hourly = b.capacity_C / 3600.0;
    const auto beyond = [&](double limit_A, double sign) {
        if (sign * charging_A > limit_A)
            first.look([&](double th) { return sign * s.current(b.branch, th) - limit_A; });
    };
    if (!b.flatReported && charge(b, s.end.y.data()) <= kFlat)
        first.look(
            [&](double th) { return kFlat - s.state(b.available, th) - s.state(b.bound, th); });
    if (!b.abuseReported) beyond(kAbuse_per_h * hourly, -1.0);
    if (!b.chargeReported) beyond(kCharging_per_h * hourly, 1.0);
    if (!b.gassingReported && charging_A > 0.0 && chargedTo_V(b, s, 1.0) > kGassing * b.full_V)
        first.look([&](double th) { return chargedTo_V(b, s, th) - kGassing * b.full_V; });
}

} // namespace

bool Batteries::valid(const Battery& spec) {
    return within(spec.full_V, 0.0, kGreatest_V) && within(spec.low_V, 0.0, spec.full_V) &&
           within(spec.resistance_ohm, kLeast_ohm, kGreatest_ohm) &&
           within(spec.capacity_C, 1e-3, 1e12) && within(spec.charge, 0.0, 1.0) &&
           within(spec.temp_K, 100.0, 1000.0);
}

Entry Batteries::add(const Battery& spec, Key key, Builder& b) {
    BatteryPart p;
    p.key = key;
    p.branch = b.branch(spec.plus, spec.minus);
    p.available = b.states.add(spec.charge * kAvailable, 1e-8, 0.0);
    p.bound = b.states.add(spec.charge * (1.0 - kAvailable), 1e-8, 0.0);
    p.temperature = b.states.addTemperature(spec.temp_K);
    p.full_V = spec.full_V;
    p.low_V = spec.low_V;
    p.resistance_ohm = spec.resistance_ohm;
    p.capacity_C = spec.capacity_C;
    p.perAll_per_C = 1.0 / (spec.capacity_C * kAllOverNominal);
    p.perHeat_K_per_J = 1.0 / (340.0 * spec.capacity_C / 3600.0);
    p.loss_W_per_K = 0.02 * spec.capacity_C / 3600.0;
    p.flatReported = spec.charge <= kFlat;
    all.push_back(p);
    return {lastIndex(all), p.branch};
}

void Batteries::restart(const double* y, const double*) {
    for (BatteryPart& b : all)
        b.stamped_ohm = resistance_ohm(b, y);
}

void Batteries::stamp(Stage& s) {
    if (!s.first) return;
    for (BatteryPart& b : all) {
        const double h = head(b, s.y), r = resistanceAt_ohm(b, h, s.y[b.temperature]);
        if (s.stale(b.stamped_ohm, r)) b.stamped_ohm = r;
        const double g = 1.0 / b.stamped_ohm;
        s.g[b.branch] = g;
        s.j[b.branch] = -g * emfAt_V(b, h);
    }
}

void Batteries::updateBranches(Stage& s) {
    for (const BatteryPart& b : all)
        s.i[b.branch] = s.g[b.branch] * s.v[b.branch] + s.j[b.branch];
}

void Batteries::updateTemperatures(Stage& s, const Models&) {
    for (const BatteryPart& b : all) {
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

void Batteries::findCrossings(Crossings& first) const {
    for (const BatteryPart& b : all)
        findCrossing(b, first);
}

bool Batteries::applyEvents(Instant& now) {
    for (BatteryPart& b : all)
        applyEvent(b, now);
    return false;
}

void Batteries::carryOver(const Carry& c) {
    const BatteryPart& was = c.from.of<Batteries>().all[c.was];
    BatteryPart& b = all[c.is];
    c.copy(was.available, b.available, 3);
    b.flatReported = was.flatReported;
    b.abuseReported = was.abuseReported;
    b.chargeReported = was.chargeReported;
    b.gassingReported = was.gassingReported;
}

void Batteries::read(const View& view, std::uint32_t index, Reading& r) const {
    const BatteryPart& b = all[index];
    r.current_A = -r.current_A;
    r.power_W = -r.power_W;
    r.temp_K = view.y[b.temperature];
    const double q = charge(b, view.y);
    r.charge = q < 0.0 ? 0.0 : q > 1.0 ? 1.0 : q;
    r.gassing = chargedTo_V(b, view.y, -r.current_A) > kGassing * b.full_V;
}

} // namespace loom::circuit

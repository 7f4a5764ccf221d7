// SPDX-License-Identifier: MIT
#include "circuit/lamp.h"

#include "circuit/models.h"

namespace loom::circuit {

namespace {

double fourth(double t) {
    return (t * t) * (t * t);
}

// Filament temperature at the end of a stage with voltage v across it, and dT/dv.
double stageTemperature(const LampPart& l, double v, const Stage& s, double& perVolt) {
    const double a = s.a_s / l.heat_J_per_K, k = l.radiates_W_per_K4;
    const double base = s.base[l.temperature] + a * k * fourth(s.ambient_K), av2 = a * v * v;
    double t = s.y[l.temperature], df = 1.0, perR = 1.0;
    for (int round = 0; round < 50; ++round) {
        perR = 1.0 / resistance_ohm(l, t);
        const double fill = av2 * perR, shed = a * k * t * t * t;
        const double f = t - base - fill + shed * t;
        df = 1.0 + fill * perR * l.slope_ohm_per_K + 4.0 * shed;
        double next = t - f / df;
        if (!(next > 0.5 * t)) next = 0.5 * t;
        if (next > 2.0 * t) next = 2.0 * t;
        const double moved = std::fabs(next - t);
        t = next;
        if (moved <= 1e-6 * t) break; // the next would move its square
    }
    perVolt = a * 2.0 * v * perR / df;
    return t;
}

// Where to linearise next, when the last line met the network at v, i. The curve i(v) bends down: a
// tangent far out throws the next point across zero, while tangents from the origin's side close in
// on the answer. So a point that makes no sense gives way to the one of the filament as it was.
double nextPoint_V(const LampPart& l, double v, double i, const Stage& s) {
    const double asItWas_V = i * resistance_ohm(l, s.base[l.temperature]);
    const bool senseless = v * i < 0.0 || std::fabs(v) < 0.05 * std::fabs(asItWas_V);
    return senseless && std::fabs(i) > kAgree_A ? asItWas_V : v;
}

} // namespace

LampPart makeLamp(double rated_V, double rated_W, double coldRatio) {
    LampPart l;
    l.hot_ohm = rated_V * rated_V / rated_W;
    l.coldRatio = coldRatio;
    l.rated_W = rated_W;
    l.heat_J_per_K = 6.0e-5 * rated_W;
    l.slope_ohm_per_K = l.hot_ohm * (1.0 - coldRatio) / (kFilament_K - kReference_K);
    l.radiates_W_per_K4 = rated_W / (fourth(kFilament_K) - fourth(kReference_K));
    return l;
}

double resistance_ohm(const LampPart& l, double t) {
    const double cold_ohm = l.hot_ohm * l.coldRatio, least_ohm = 0.1 * cold_ohm;
    const double r = cold_ohm + l.slope_ohm_per_K * (t - kReference_K);
    return r > least_ohm ? r : least_ohm;
}

double brightness(double temp_K) {
    const double t = temp_K / kFilament_K, t3 = t * t * t;
    return t3 * t3 * t3;
}

bool Lamps::valid(const Lamp& spec) {
    return within(spec.rated_V, 1e-3, kGreatest_V) && within(spec.rated_W, 1e-6, 1e6) &&
           within(spec.coldRatio, 1e-3, 1.0);
}

Entry Lamps::add(const Lamp& spec, Key key, Builder& b) {
    LampPart l = makeLamp(spec.rated_V, spec.rated_W, spec.coldRatio);
    l.key = key;
    l.branch = b.branch(spec.a, spec.b);
    l.temperature = b.states.add(b.netlist.ambient_K, 0.03, 3e-5);
    if (spec.broken) l.gap.phase = GapPhase::Open;
    all.push_back(l);
    return {lastIndex(all), l.branch};
}

void Lamps::restart(const double*, const double* v) {
    for (LampPart& l : all) {
        l.at_V = l.last_V = v[l.branch];
        l.perSecond_V = l.last_s = 0.0;
        l.gap.side = 0;
    }
}

void Lamps::stamp(Stage& s) {
    for (LampPart& l : all) {
        if (!l.gap.closed()) {
            stampGap(l.gap, l.branch, s);
            continue;
        }
        if (s.first) l.at_V = l.last_V + l.perSecond_V * (s.time_s - l.last_s);
        const double v = l.at_V;
        double perVolt = 0.0;
        const double perR = 1.0 / resistance_ohm(l, stageTemperature(l, v, s, perVolt));
        const double g = perR - v * perR * perR * l.slope_ohm_per_K * perVolt;
        s.g[l.branch] = lazySlope_S(s.factored_S[l.branch], g > 1e-3 * perR ? g : 1e-3 * perR);
        s.j[l.branch] = v * perR - s.g[l.branch] * v;
    }
}

void Lamps::updateBranches(Stage& s) {
    for (LampPart& l : all) {
        double v = s.v[l.branch];
        if (l.gap.closed()) {
            s.i[l.branch] = s.g[l.branch] * v + s.j[l.branch];
        } else {
            updateGap(l.gap, l.branch, s);
            v = 0.0;
        }
        double perVolt = 0.0;
        const double t = stageTemperature(l, v, s, perVolt), law_A = v / resistance_ohm(l, t);
        s.y[l.temperature] = t;
        s.f[l.temperature] =
            (v * law_A - l.radiates_W_per_K4 * (fourth(t) - fourth(s.ambient_K))) / l.heat_J_per_K;
        if (!l.gap.closed()) continue;
        s.disagree(std::fabs(law_A - s.i[l.branch]) /
                   (s.agreeRelative * std::fabs(law_A) + kAgree_A));
        l.at_V = nextPoint_V(l, v, s.i[l.branch], s);
    }
}

void Lamps::updateTemperatures(Stage& s, const Models&) {
    for (LampPart& l : all) {
        const double v = s.v[l.branch], passed_s = s.time_s - l.last_s;
        if (passed_s > 0.0) l.perSecond_V = (v - l.last_V) / passed_s;
        l.last_V = v;
        l.last_s = s.time_s;
    }
}

void Lamps::findCrossings(Crossings& first) const {
    for (const LampPart& l : all)
        if (l.gap.closed())
            first.rise(l.temperature, kFilamentFails_K);
        else
            first.arc(l.gap, l.branch);
}

bool Lamps::applyEvents(Instant& now) {
    bool jumped = false;
    for (LampPart& l : all) {
        if (!l.gap.closed()) {
            jumped = now.endArc(l.gap, l.branch) || jumped;
        } else if (now.y[l.temperature] >= kFilamentFails_K) {
            now.add(EventKind::LampFailed, l.key, now.at.v[l.branch]);
            openGap(l.gap, now.at.i[l.branch], now.time_s);
            jumped = true;
        }
    }
    return jumped;
}

void Lamps::carryOver(const Carry& c) {
    const LampPart& was = c.from.of<Lamps>().all[c.was];
    LampPart& l = all[c.is];
    c.copy(was.temperature, l.temperature);
    l.gap.carryOver(was.gap);
}

void Lamps::read(const View& view, std::uint32_t index, Reading& r) const {
    const LampPart& l = all[index];
    r.temp_K = view.y[l.temperature];
    r.open = !l.gap.closed();
    r.brightness = brightness(r.temp_K);
}

bool Lamps::active(const Activity& now) const {
    for (const LampPart& l : all)
        if (now.warm(l.temperature)) return true;
    return false;
}

} // namespace loom::circuit

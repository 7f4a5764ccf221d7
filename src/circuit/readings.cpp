// SPDX-License-Identifier: MIT
#include "circuit/readings.h"

#include <cmath>

namespace loom::circuit {

namespace {

constexpr double kFewDigits = 1e-6;
constexpr double kTurn_rad = 6.28318530717958648;

void mix(const std::vector<double>& begin,
         const std::vector<double>& middle,
         const std::vector<double>& end,
         const Parabola& p,
         std::vector<double>& out) {
    out.resize(begin.size());
    for (std::size_t k = 0; k < out.size(); ++k)
        out[k] = p.begin * begin[k] + p.middle * middle[k] + p.end * end[k];
}

// A current or a voltage about to build up, though next to nothing yet, as right after a contact
// closed on a coil.
bool somethingBuilds(const Network& net, const Step& s, double theta) {
    constexpr double kNothing_per_s = 0.1; // A/s, V/s
    const auto builds = [&](std::uint32_t k) {
        if (!(std::fabs(s.begin.f[k]) < kNothing_per_s)) return true;
        return theta > 0.0 && !(std::fabs(s.end.f[k]) < kNothing_per_s);
    };
    for (const CoilPart& c : net.coils)
        if (builds(c.current)) return true;
    for (const MotorPart& m : net.motors)
        if (builds(m.current)) return true;
    for (const CapacitorPart& c : net.capacitors)
        if (builds(c.voltage)) return true;
    return false;
}

} // namespace

void Shown::fill(Network& net, const Step& s, double theta) {
    if (theta <= 0.0) {
        v = s.begin.v;
        i = s.begin.i;
        volts = s.begin.volts_V;
        y = s.begin.y;
    } else {
        const Parabola p(theta);
        mix(s.begin.v, s.middle.v, s.end.v, p, v);
        mix(s.begin.i, s.middle.i, s.end.i, p, i);
        mix(s.begin.volts_V, s.middle.volts_V, s.end.volts_V, p, volts);
        y.resize(s.begin.y.size());
        for (std::uint32_t k = 0; k < y.size(); ++k)
            y[k] = s.state(k, theta);
    }
    net.balance(i);
    // What only resists gets its voltage from its current: across little resistance the difference of
    // two node voltages has lost its digits.
    const Branches& br = net.branches;
    for (std::uint32_t k = 0; k < v.size(); ++k) {
        const double between_V = std::fabs(volts[br.a[k]]) + std::fabs(volts[br.b[k]]);
        if (std::fabs(v[k]) < kFewDigits * between_V && net.onlyResists(k)) v[k] = i[k] / br.g[k];
    }
    net.recoverIdealCurrents(i, idealCurrent_A);
    island = net.islands();
}

Reading Shown::relay(const Network& net, const RelayPart& r) const {
    Reading out;
    const CoilPart& coil = net.coils[r.coil];
    out.temp_K = y[coil.temperature];
    out.contactNO_A = i[net.contacts[r.normallyOpen].branch];
    out.contactNC_A = i[net.contacts[r.normallyClosed].branch];
    out.pulledIn = r.in();
    return out;
}

void Shown::describe(const Network& net, const Where& w, Reading& r) const {
    switch (w.kind) {
    case Kind::Cable:
        r.temp_K = y[net.cables.conductor(w.part)];
        r.open = !net.cables.parted[w.part].closed();
        break;
    case Kind::Battery: {
        const BatteryPart& b = net.batteries[w.part];
        r.current_A = -r.current_A;
        r.power_W = -r.power_W;
        r.temp_K = y[b.temperature];
        const double q = charge(b, y.data());
        r.charge = q < 0.0 ? 0.0 : q > 1.0 ? 1.0 : q;
        r.gassing = chargedTo_V(b, y.data(), -r.current_A) > kGassing * b.full_V;
        break;
    }
    case Kind::Contact:
        r.pulledIn = net.contacts[w.part].gap.closed();
        break;
    case Kind::Fuse: {
        const FusePart& f0 = net.fuses[w.part];
        const double x = y[f0.element];
        r.open = !f0.gap.closed();
        r.melting = r.open || x > 1.0 ? 1.0 : x < 0.0 ? 0.0 : x;
        // The element of a fuse melts some 400 K above ambient (zinc, from memory).
        r.temp_K += 400.0 * (x < 0.0 ? 0.0 : x);
        break;
    }
    case Kind::Lamp: {
        const LampPart& l = net.lamps[w.part];
        r.temp_K = y[l.temperature];
        r.open = !l.gap.closed();
        r.brightness = brightness(r.temp_K);
        break;
    }
    case Kind::Motor: {
        const MotorPart& m = net.motors[w.part];
        r.temp_K = y[m.temperature];
        r.speed_rad_s = y[m.speed];
        r.angle_rad = y[m.angle] - kTurn_rad * std::floor(y[m.angle] / kTurn_rad);
        break;
    }
    default:
        break;
    }
}

Reading Shown::reading(const Network& net, const Where& w, std::uint32_t element) const {
    Reading r;
    if (w.kind == Kind::Relay) r = relay(net, net.relays[w.part]);
    if (w.kind != Kind::Relay) r.temp_K = net.netlist.ambient_K;
    if (w.kind == Kind::Ideal) {
        const auto* source = std::get_if<VoltageSource>(&net.netlist.elements[element].part);
        r.voltage_V = source == nullptr ? 0.0 : source->emf_V;
        r.current_A = idealCurrent_A[w.part];
    } else {
        r.voltage_V = v[w.branch];
        r.current_A = i[w.branch];
    }
    r.power_W = r.voltage_V * r.current_A;
    describe(net, w, r);
    return r;
}

std::optional<double> Shown::voltage_V(const Network& net, Node a, Node b) const {
    if (island[a] != island[b]) return {};
    const Joins& j = net.joins;
    return (volts[j.unknown[a]] - volts[j.unknown[b]]) + (j.offset_V[a] - j.offset_V[b]);
}

bool nothingToSee(const Network& net, const Step& s, double theta) {
    constexpr double kNothing_A = 1e-3, kNothing_K = 0.5, kNothingMelts = 1e-3;
    const bool atBegin = theta <= 0.0;
    for (const MotorPart& m : net.motors)
        if (m.turning != 0) return false;
    for (std::uint32_t k = 0; k < net.branches.size(); ++k)
        if (!(std::fabs(atBegin ? s.begin.i[k] : s.current(k, theta)) < kNothing_A)) return false;
    const auto at = [&](std::uint32_t k) { return atBegin ? s.begin.y[k] : s.state(k, theta); };
    const auto warm = [&](std::uint32_t k) {
        return !(std::fabs(at(k) - net.netlist.ambient_K) < kNothing_K);
    };
    if (somethingBuilds(net, s, theta)) return false;
    for (const MotorPart& m : net.motors)
        if (warm(m.temperature)) return false;
    for (std::size_t k = 0; k < net.cables.size(); ++k)
        if (warm(net.cables.conductor(k)) || warm(net.cables.sleeve(k))) return false;
    for (const EndPart& e : net.cables.ends)
        if (warm(e.temperature)) return false;
    for (const CoilPart& c : net.coils)
        if (c.warms && warm(c.temperature)) return false;
    for (const LampPart& l : net.lamps)
        if (warm(l.temperature)) return false;
    for (const FusePart& f : net.fuses)
        if (at(f.element) > kNothingMelts) return false;
    return true;
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
#include "circuit/watch.h"

#include <cmath>

namespace loom::circuit {

namespace {

// Keeps the earliest crossing of several quantities. A quantity has not crossed while negative.
class Earliest {
public:
    template <class Quantity> void look(const Quantity& q) {
        if (!(q(1.0) >= 0.0)) return;
        double low = 0.0, high = theta < 1.0 ? theta : 1.0;
        if (q(low) >= 0.0) {
            theta = 0.0;
            return;
        }
        if (high < 1.0 && q(high) < 0.0) return; // later than what is known
        for (int k = 0; k < 60 && high - low > 1e-12; ++k) {
            const double mid = 0.5 * (low + high);
            (q(mid) >= 0.0 ? high : low) = mid;
        }
        theta = high;
    }

    double theta = 2.0;
};

void lookAtGap(const Gap& g, std::uint32_t branch, const Step& s, Earliest& first) {
    if (g.phase != GapPhase::Arcing) return;
    first.look([&](double th) { return kArcLeast_A - std::fabs(s.current(branch, th)); });
}

void lookAtMotor(const MotorPart& m, const Step& s, Earliest& first) {
    if (m.turning != 0)
        first.look([&](double th) { return -m.turning * s.state(m.speed, th); });
    else if (!m.jammed)
        first.look([&](double th) {
            return std::fabs(m.constant_Vs * s.state(m.current, th)) - m.drag_Nm - 1e-15;
        });
}

void lookAtRelay(const Network& net, const RelayPart& r, const Step& s, Earliest& first) {
    const std::uint32_t coil = net.coils[r.coil].current;
    if (!r.welded) {
        if (!r.pulled())
            first.look([&](double th) { return std::fabs(s.state(coil, th)) - r.pullIn_A; });
        else
            first.look([&](double th) { return r.dropOut_A - std::fabs(s.state(coil, th)); });
        if (net.contacts[r.normallyOpen].gap.closed())
            first.look(
                [&](double th) { return s.state(r.weldEnergy, th) - kWeld_J_per_A * r.rating_A; });
    }
}

void lookAtCables(const Cables& c, const Step& s, Earliest& first) {
    const double* const t = s.end.y.data() + c.firstConductor;
    for (std::size_t k = 0; k < c.size(); ++k)
        if (t[k] >= c.nextEvent_K[k])
            first.look([&](double th) { return s.state(c.conductor(k), th) - c.nextEvent_K[k]; });
    for (const EndPart& e : c.ends)
        if (!e.hotReported && s.end.y[e.temperature] >= kEndHot_K)
            first.look([&](double th) { return s.state(e.temperature, th) - kEndHot_K; });
    for (const std::uint32_t k : c.apart)
        lookAtGap(c.parted[k], c.branch(k), s, first);
}

// Volts to which a charging current drives it within the step.
double chargedTo_V(const BatteryPart& b, const Step& s, double theta) {
    BatteryPart then = b;
    then.available = 0;
    then.temperature = 1;
    const double y[] = {s.state(b.available, theta), s.state(b.temperature, theta)};
    return chargedTo_V(then, y, s.current(b.branch, theta));
}

void lookAtBattery(const BatteryPart& b, const Step& s, Earliest& first) {
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

double firstCrossing(const Network& net, const Step& s) {
    Earliest first;
    for (const FusePart& f : net.fuses) {
        if (!f.gap.closed())
            lookAtGap(f.gap, f.branch, s, first);
        else if (s.end.y[f.element] >= 1.0)
            first.look([&](double th) { return s.state(f.element, th) - 1.0; });
    }
    lookAtCables(net.cables, s, first);
    for (const ContactPart& c : net.contacts)
        lookAtGap(c.gap, c.branch, s, first);
    for (const RelayPart& r : net.relays)
        lookAtRelay(net, r, s, first);
    for (const MotorPart& m : net.motors)
        lookAtMotor(m, s, first);
    for (const BatteryPart& b : net.batteries)
        lookAtBattery(b, s, first);
    for (const LampPart& l : net.lamps) {
        if (!l.gap.closed())
            lookAtGap(l.gap, l.branch, s, first);
        else if (s.end.y[l.temperature] >= kFilamentFails_K)
            first.look([&](double th) { return s.state(l.temperature, th) - kFilamentFails_K; });
    }
    return first.theta;
}

double extinction(const Network& net, const Step& s) {
    double least = 1.0;
    const auto look = [&](double begin, double middle, double end) {
        if (begin == 0.0 || end != 0.0) return;
        constexpr double kMiddle = 0.58578643762690495120; // 2 - sqrt 2, see stepper.h
        const double theta = middle == 0.0 ? 0.25 : kMiddle * begin / (begin - middle);
        if (theta > 0.0 && 0.999 * theta < least) least = 0.999 * theta;
    };
    const auto gap = [&](const Gap& g, std::uint32_t b) {
        if (!g.closed()) look(s.begin.i[b], s.middle.i[b], s.end.i[b]);
    };
    for (const ContactPart& c : net.contacts)
        gap(c.gap, c.branch);
    for (const FusePart& f : net.fuses)
        gap(f.gap, f.branch);
    for (const LampPart& l : net.lamps)
        gap(l.gap, l.branch);
    for (const std::uint32_t k : net.cables.apart)
        gap(net.cables.parted[k], net.cables.branch(k));
    const auto winding = [&](std::uint32_t b, std::uint32_t current) {
        const auto spark = [&](const Point& p) { return p.i[b] - p.y[current]; };
        look(spark(s.begin), spark(s.middle), spark(s.end));
    };
    for (const CoilPart& c : net.coils)
        winding(c.branch, c.current);
    for (const MotorPart& m : net.motors)
        winding(m.branch, m.current);
    return least;
}

double nextAppointment_s(const Network& net) {
    double next = 1e300;
    for (const RelayPart& r : net.relays) {
        const double t = phaseEnds_s(r);
        if (t < next) next = t;
    }
    return next;
}

} // namespace loom::circuit

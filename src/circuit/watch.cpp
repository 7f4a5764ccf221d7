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

double next_K(const CablePart& c) {
    switch (c.state) {
    case Sleeve::Sound:
        return sleeveThreshold_K(c, Sleeve::Softened);
    case Sleeve::Softened:
        return sleeveThreshold_K(c, Sleeve::Smoking);
    case Sleeve::Smoking:
        return sleeveThreshold_K(c, Sleeve::Burning);
    case Sleeve::Burning:
        break;
    }
    return kCopperMelts_K;
}

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

} // namespace

double firstCrossing(const Network& net, const Step& s) {
    Earliest first;
    for (const FusePart& f : net.fuses) {
        if (f.gap.closed())
            first.look([&](double th) { return s.state(f.element, th) - 1.0; });
        else
            lookAtGap(f.gap, f.branch, s, first);
    }
    for (const CablePart& c : net.cables) {
        if (!c.parted.closed()) {
            lookAtGap(c.parted, c.branch, s, first);
            continue;
        }
        const double limit = next_K(c);
        first.look([&](double th) { return s.state(c.conductor, th) - limit; });
    }
    for (const ContactPart& c : net.contacts)
        lookAtGap(c.gap, c.branch, s, first);
    for (const RelayPart& r : net.relays)
        lookAtRelay(net, r, s, first);
    for (const MotorPart& m : net.motors)
        lookAtMotor(m, s, first);
    for (const LampPart& l : net.lamps) {
        if (l.gap.closed())
            first.look([&](double th) { return s.state(l.temperature, th) - kFilamentFails_K; });
        else
            lookAtGap(l.gap, l.branch, s, first);
    }
    return first.theta;
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

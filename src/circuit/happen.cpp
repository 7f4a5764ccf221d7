// SPDX-License-Identifier: MIT
// The changes an instant brings, one function a model. Each appends its events and says whether the
// network jumped.
#include "circuit/watch.h"

#include <cmath>

namespace loom::circuit {

namespace {

struct Instant {
    Network& net;
    double time_s;
    std::vector<double>& y;
    const Point& at;
    std::vector<Event>& events;

    void say(EventKind kind, std::uint32_t element, double value, double second = 0.0) {
        events.push_back({time_s, kind, net.netlist.elements[element].key, value, second});
    }
};

bool endArc(Gap& g, std::uint32_t branch, const Instant& now) {
    if (g.phase != GapPhase::Arcing || std::fabs(now.at.i[branch]) >= kArcLeast_A) return false;
    g.phase = GapPhase::Open;
    g.side = 0;
    return true;
}

bool fuseHappens(FusePart& f, std::uint32_t element, Instant& now) {
    const double i = now.at.i[f.branch];
    if (std::fabs(i) <= f.rating_A) f.overloadedSince_s = now.time_s;
    if (!f.gap.closed()) return endArc(f.gap, f.branch, now);
    if (now.y[f.element] < 1.0) return false;
    now.say(EventKind::FuseMelted, element, i, now.time_s - f.overloadedSince_s);
    openGap(f.gap, i, now.time_s);
    return true;
}

EventKind sleeveEvent(Sleeve s) {
    return s == Sleeve::Softened  ? EventKind::SleeveSoftened
           : s == Sleeve::Smoking ? EventKind::SleeveSmoking
                                  : EventKind::SleeveBurning;
}

void endHappens(EndPart& e, std::uint32_t element, double i, Instant& now) {
    const double t = now.y[e.temperature];
    if (!e.hotReported && t >= kEndHot_K) {
        e.hotReported = true;
        now.say(EventKind::JointHot, element, i, t);
    }
    if (e.hotReported && t < kEndHot_K - 20.0) e.hotReported = false;
}

// Cable k burns: its copper comes to lie on its neighbour's.
bool touchNeighbour(std::size_t k, double current_A, Instant& now) {
    const Cables& c = now.net.cables;
    if (c.neighbour[k] < 0) return false;
    const auto other = static_cast<std::size_t>(c.neighbour[k]);
    const auto keyOf = [&](std::size_t cable) {
        return now.net.netlist.elements[now.net.cableOf[cable]].key;
    };
    now.net.touches.push_back(
        {keyOf(k), keyOf(other), current_A >= 0.0, now.at.i[c.branch(other)] >= 0.0});
    now.net.outgrown = true;
    now.say(EventKind::CableTouched, now.net.cableOf[k], current_A);
    return true;
}

// Cable k has reached the temperature of its next event.
bool cableHappens(std::size_t k, Instant& now) {
    Cables& c = now.net.cables;
    const double i = now.at.i[c.branch(k)], t = now.y[c.conductor(k)];
    const std::uint32_t element = now.net.cableOf[k];
    bool touched = false;
    while (c.state[k] != Sleeve::Burning && t >= c.nextEvent_K[k]) {
        c.setState(k, static_cast<Sleeve>(static_cast<int>(c.state[k]) + 1));
        now.say(sleeveEvent(c.state[k]), element, i, t);
        if (c.state[k] == Sleeve::Burning) touched = touchNeighbour(k, i, now);
    }
    if (t < kCopperMelts_K || !c.parted[k].closed()) return touched;
    now.say(EventKind::CableParted, element, i, t);
    openGap(c.parted[k], i, now.time_s);
    c.part(k);
    return true;
}

bool cablesHappen(Instant& now) {
    Cables& c = now.net.cables;
    bool jumped = false;
    const double* const t = now.y.data() + c.firstConductor;
    for (std::size_t k = 0; k < c.size(); ++k)
        if (t[k] >= c.nextEvent_K[k]) jumped = cableHappens(k, now) || jumped;
    for (const std::uint32_t k : c.apart)
        jumped = endArc(c.parted[k], c.branch(k), now) || jumped;
    for (EndPart& e : c.ends)
        endHappens(e, now.net.cableOf[e.cable], now.at.i[c.branch(e.cable)], now);
    return jumped;
}

bool lampHappens(LampPart& l, std::uint32_t element, Instant& now) {
    if (!l.gap.closed()) return endArc(l.gap, l.branch, now);
    if (now.y[l.temperature] < kFilamentFails_K) return false;
    now.say(EventKind::LampFailed, element, now.at.v[l.branch]);
    openGap(l.gap, now.at.i[l.branch], now.time_s);
    return true;
}

// Reports once when above, again after it has been below the second limit.
bool risesAbove(bool& reported, double value, double limit, double rearm) {
    if (!reported && value > limit) return reported = true;
    if (reported && value < rearm) reported = false;
    return false;
}

void batteryHappens(BatteryPart& b, std::uint32_t element, Instant& now) {
    const double delivered = -now.at.i[b.branch], hourly = b.capacity_C / 3600.0;
    const double q = charge(b, now.y.data());
    if (risesAbove(b.abuseReported, delivered, kAbuse_per_h * hourly, 0.5 * kAbuse_per_h * hourly))
        now.say(EventKind::BatteryAbused, element, delivered);
    if (risesAbove(b.chargeReported, -delivered, kCharging_per_h * hourly, 0.01 * hourly))
        now.say(EventKind::BatteryCharged, element, -delivered);
    const double driven_V = chargedTo_V(b, now.y.data(), -delivered);
    if (risesAbove(b.gassingReported, driven_V, kGassing * b.full_V, kGassingEnds * b.full_V))
        now.say(EventKind::BatteryGassing, element, -delivered, driven_V);
    if (risesAbove(b.flatReported, kFlat - q, -1e-12, -0.05))
        now.say(EventKind::BatteryFlat, element, q);
}

bool turn(MotorPart& m, int way) {
    if (m.turning == way) return false;
    m.turning = way;
    return true;
}

bool motorHappens(MotorPart& m, std::uint32_t element, Instant& now) {
    const double i = now.at.i[m.branch], torque = m.constant_Vs * now.y[m.current];
    const int pull = torque > m.drag_Nm ? 1 : torque < -m.drag_Nm ? -1 : 0;
    if (m.turning != 0) {
        m.stalled = false;
        if (m.turning * now.y[m.speed] > 0.0) return false;
        now.y[m.speed] = 0.0;
        if (pull == 0) now.say(EventKind::MotorStopped, element, i);
        return turn(m, pull);
    }
    if (!m.jammed && pull != 0) {
        m.stalled = false;
        now.say(EventKind::MotorStarted, element, i);
        return turn(m, pull);
    }
    const bool driven = std::fabs(torque) > 0.5 * m.drag_Nm && std::fabs(i) > 0.05 &&
                        std::fabs(now.at.f[m.current]) * 2e-3 < 0.05 * std::fabs(i);
    if (driven && !m.stalled) {
        m.stalled = true;
        now.say(EventKind::MotorStalled, element, i);
    }
    if (std::fabs(i) < 0.02) m.stalled = false;
    return false;
}

void kickHappens(RelayPart& r, std::uint32_t element, Instant& now) {
    const CoilPart& coil = now.net.coils[r.coil];
    const double v = now.at.v[coil.branch], height = std::fabs(v);
    const bool against = v * now.y[coil.current] < 0.0 && height > r.kickThreshold_V;
    if (against) {
        if (!r.kicking) r.kick_V = 0.0;
        r.kicking = true;
        if (height > r.kick_V) r.kick_V = height;
    } else if (r.kicking) {
        r.kicking = false;
        now.say(EventKind::CoilKicked, element, r.kick_V);
    }
}

class ArmatureMoves {
public:
    ArmatureMoves(RelayPart& relay, std::uint32_t relayElement, Instant& instant)
        : r(relay), element(relayElement), now(instant),
          no(instant.net.contacts[relay.normallyOpen]),
          nc(instant.net.contacts[relay.normallyClosed]) {}

    bool all() {
        const CoilPart& coil = now.net.coils[r.coil];
        const double i = std::fabs(now.y[coil.current]);
        coil_V = now.at.v[coil.branch];
        if (weld() || r.welded) return changed;
        if (!r.pulled() && i >= r.pullIn_A) pull();
        if (r.pulled() && i <= r.dropOut_A) letGo();
        while (now.time_s >= phaseEnds_s(r))
            arrive();
        return changed;
    }

private:
    bool weld() {
        if (r.welded || !no.gap.closed()) return false;
        if (now.y[r.weldEnergy] < kWeld_J_per_A * r.rating_A) return false;
        r.welded = true;
        r.armature = Armature::In;
        set(nc, false);
        now.say(EventKind::ContactWelded, element, now.at.i[no.branch]);
        return true;
    }

    void begin(Armature phase, double since_s) {
        r.armature = phase;
        r.began_s = since_s;
    }

    void pull() {
        if (r.armature == Armature::Letting)
            begin(Armature::In, now.time_s);
        else if (r.armature == Armature::Returning)
            begin(Armature::Crossing, now.time_s - kBreakAfter_s);
        else
            begin(Armature::Leaving, now.time_s);
    }

    void letGo() {
        if (r.armature == Armature::Leaving)
            begin(Armature::Rest, now.time_s);
        else if (r.armature == Armature::Crossing || r.armature == Armature::Bouncing)
            begin(Armature::Returning, now.time_s - kReleaseAfter_s);
        else
            begin(Armature::Letting, now.time_s);
    }

    void arrive() {
        switch (r.armature) {
        case Armature::Leaving:
            r.armature = Armature::Crossing;
            set(nc, false);
            break;
        case Armature::Crossing:
            r.armature = Armature::Touching;
            set(no, true);
            now.say(EventKind::PulledIn, element, coil_V);
            break;
        case Armature::Touching:
            r.armature = Armature::Bouncing;
            set(no, false);
            break;
        case Armature::Bouncing:
            r.armature = Armature::In;
            set(no, true);
            break;
        case Armature::Letting:
            r.armature = Armature::Returning;
            set(no, false);
            break;
        case Armature::Returning:
            r.armature = Armature::Rest;
            set(nc, true);
            now.say(EventKind::DroppedOut, element, coil_V);
            break;
        default:
            break;
        }
    }

    void set(ContactPart& c, bool closed) {
        changed = moveContact(c, closed, now.at.i[c.branch], now.time_s) || changed;
    }

    RelayPart& r;
    std::uint32_t element;
    Instant& now;
    ContactPart &no, &nc;
    double coil_V = 0.0;
    bool changed = false;
};

} // namespace

bool moveContact(ContactPart& contact, bool closed, double current_A, double time_s) {
    if (contact.gap.closed() == closed) return false;
    if (closed) {
        contact.gap.phase = GapPhase::Closed;
        contact.gap.side = 0;
    } else {
        openGap(contact.gap, current_A, time_s);
    }
    return true;
}

bool happen(Network& net,
            double time_s,
            std::vector<double>& y,
            const Point& at,
            std::vector<Event>& events) {
    Instant now{net, time_s, y, at, events};
    bool jumped = false;
    for (std::size_t k = 0; k < net.fuses.size(); ++k)
        jumped = fuseHappens(net.fuses[k], net.fuseOf[k], now) || jumped;
    jumped = cablesHappen(now) || jumped;
    for (std::size_t k = 0; k < net.lamps.size(); ++k)
        jumped = lampHappens(net.lamps[k], net.lampOf[k], now) || jumped;
    for (std::size_t k = 0; k < net.batteries.size(); ++k)
        batteryHappens(net.batteries[k], net.batteryOf[k], now);
    for (std::size_t k = 0; k < net.motors.size(); ++k)
        jumped = motorHappens(net.motors[k], net.motorOf[k], now) || jumped;
    for (ContactPart& c : net.contacts)
        jumped = endArc(c.gap, c.branch, now) || jumped;
    for (std::size_t k = 0; k < net.relays.size(); ++k) {
        kickHappens(net.relays[k], net.relayOf[k], now);
        jumped = ArmatureMoves(net.relays[k], net.relayOf[k], now).all() || jumped;
    }
    return jumped;
}

} // namespace loom::circuit

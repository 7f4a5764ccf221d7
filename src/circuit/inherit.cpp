// SPDX-License-Identifier: MIT
// What an element carries over when the network around it is changed.
#include "circuit/network.h"

#include <algorithm>

namespace loom::circuit {

namespace {

// Whether the caller put a fresh one in the place of a spent one of the same key.
bool replaced(const Part& old, const Part& now) {
    if (const auto* f = std::get_if<Fuse>(&now)) {
        const Fuse& was = std::get<Fuse>(old);
        return (was.blown && !f->blown) || was.rating_A != f->rating_A || was.style != f->style;
    }
    if (const auto* c = std::get_if<Cable>(&now)) return std::get<Cable>(old).parted && !c->parted;
    if (const auto* l = std::get_if<Lamp>(&now)) return std::get<Lamp>(old).broken && !l->broken;
    if (const auto* r = std::get_if<Relay>(&now)) return std::get<Relay>(old).welded && !r->welded;
    return false;
}

// What opened by itself stays open, and an arc goes on.
void keepGap(const Gap& old, Gap& now) {
    if (!old.closed()) now = old;
}

} // namespace

class Inheritance {
public:
    Inheritance(const Network& from, const Point& at, Network& to, double time_s)
        : old(from), then(at), net(to), now_s(time_s) {}

    void pass(const Where& was, const Where& now) {
        switch (now.kind) {
        case Kind::Capacitor:
            return copy(old.capacitors[was.part].voltage, net.capacitors[now.part].voltage, 1);
        case Kind::Inductor:
            return copy(old.coils[was.part].current, net.coils[now.part].current, 1);
        case Kind::Cable:
            return cable(was.part, now.part);
        case Kind::Battery:
            return battery(old.batteries[was.part], net.batteries[now.part]);
        case Kind::Contact:
            return contact(old.contacts[was.part], net.contacts[now.part]);
        case Kind::Fuse:
            return fuse(old.fuses[was.part], net.fuses[now.part]);
        case Kind::Relay:
            return relay(old.relays[was.part], net.relays[now.part]);
        case Kind::Lamp:
            copy(old.lamps[was.part].temperature, net.lamps[now.part].temperature, 1);
            return keepGap(old.lamps[was.part].gap, net.lamps[now.part].gap);
        case Kind::Motor:
            return motor(old.motors[was.part], net.motors[now.part]);
        default:
            return;
        }
    }

private:
    void copy(std::uint32_t from, std::uint32_t to, std::uint32_t count) {
        for (std::uint32_t k = 0; k < count; ++k)
            net.states.value[to + k] = then.y[from + k];
    }

    void cable(std::uint32_t was, std::uint32_t now) {
        Cables& c = net.cables;
        copy(old.cables.conductor(was), c.conductor(now), 1);
        copy(old.cables.sleeve(was), c.sleeve(now), 1);
        c.setState(now, old.cables.state[was]);
        if (!old.cables.parted[was].closed()) {
            if (c.parted[now].closed()) c.part(now);
            c.parted[now] = old.cables.parted[was];
        }
        ends(was, now);
    }

    // The ends with models of their own, matched in order.
    void ends(std::uint32_t was, std::uint32_t now) {
        std::size_t from = 0;
        for (EndPart& e : net.cables.ends) {
            if (e.cable != now) continue;
            while (from < old.cables.ends.size() && old.cables.ends[from].cable != was)
                ++from;
            if (from == old.cables.ends.size()) return;
            copy(old.cables.ends[from].temperature, e.temperature, 2);
            e.hotReported = old.cables.ends[from++].hotReported;
        }
    }

    void battery(const BatteryPart& o, BatteryPart& b) {
        copy(o.available, b.available, 3);
        b.flatReported = o.flatReported;
        b.abuseReported = o.abuseReported;
        b.chargeReported = o.chargeReported;
        b.gassingReported = o.gassingReported;
    }

    void contact(const ContactPart& o, ContactPart& c) {
        if (c.gap.closed()) return;
        c.gap = o.gap;
        openGap(c.gap, then.i[o.branch], now_s);
    }

    void fuse(const FusePart& o, FusePart& f) {
        copy(o.element, f.element, 2);
        f.overloadedSince_s = o.overloadedSince_s;
        keepGap(o.gap, f.gap);
    }

    void relay(const RelayPart& o, RelayPart& r) {
        copy(old.coils[o.coil].current, net.coils[r.coil].current, 2);
        copy(o.weldEnergy, r.weldEnergy, 1);
        r.kicking = o.kicking;
        r.kick_V = o.kick_V;
        if (r.welded && !o.welded) return; // put on welded: its contacts are set as made
        r.armature = o.armature;
        r.began_s = o.began_s;
        r.welded = o.welded;
        net.contacts[r.normallyOpen].gap = old.contacts[o.normallyOpen].gap;
        net.contacts[r.normallyClosed].gap = old.contacts[o.normallyClosed].gap;
    }

    void motor(const MotorPart& o, MotorPart& m) {
        copy(o.current, m.current, 4);
        m.turning = m.jammed ? 0 : o.turning;
        if (m.jammed) net.states.value[m.speed] = 0.0;
        m.stalled = o.stalled;
    }

    const Network& old;
    const Point& then;
    Network& net;
    double now_s;
};

std::vector<Touch> Network::touchesIn(const Netlist& next) const {
    const auto partOf = [](const Netlist& in, Key key) -> const Cable* {
        for (const Element& e : in.elements)
            if (e.key == key) return std::get_if<Cable>(&e.part);
        return nullptr;
    };
    std::vector<Touch> kept;
    for (const Touch& t : touches) {
        bool lasts = true;
        for (const Key key : {t.cable, t.neighbour}) {
            const Cable *was = partOf(netlist, key), *now = partOf(next, key);
            lasts = lasts && was != nullptr && now != nullptr && !(was->parted && !now->parted);
        }
        if (lasts) kept.push_back(t);
    }
    return kept;
}

void Network::inherit(const Network& old, const Point& at, double now_s) {
    std::vector<std::pair<Key, std::uint32_t>> byKey;
    for (std::uint32_t e = 0; e < old.where.size(); ++e)
        if (old.where[e].kind != Kind::Unusable) byKey.emplace_back(old.netlist.elements[e].key, e);
    std::sort(byKey.begin(), byKey.end());
    Inheritance inheritance(old, at, *this, now_s);
    for (std::uint32_t e = 0; e < where.size(); ++e) {
        if (where[e].kind == Kind::Unusable) continue;
        const Key key = netlist.elements[e].key;
        const auto found = std::lower_bound(byKey.begin(), byKey.end(), std::make_pair(key, 0u));
        if (found == byKey.end() || found->first != key) continue;
        const Where& was = old.where[found->second];
        if (was.kind != where[e].kind) continue;
        if (replaced(old.netlist.elements[found->second].part, netlist.elements[e].part)) continue;
        inheritance.pass(was, where[e]);
    }
    modelsChanged();
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
// How a Network is built from a Netlist, and how it inherits what an older one carried.
#include "circuit/check.h"
#include "circuit/network.h"

#include <algorithm>

namespace loom::circuit {

struct NetworkBuilder {
    Network& net;
    std::vector<StarMesh::Edge> edges;

    std::uint32_t branch(Node a, Node b, double g = 0.0, double j = 0.0) {
        Branches& br = net.branches;
        br.nodeA.push_back(a);
        br.nodeB.push_back(b);
        br.a.push_back(net.joins.unknown[a]);
        br.b.push_back(net.joins.unknown[b]);
        br.offset_V.push_back(net.joins.offset_V[a] - net.joins.offset_V[b]);
        br.g.push_back(g);
        br.j.push_back(j);
        br.v.push_back(0.0);
        br.i.push_back(0.0);
        edges.push_back({br.a.back(), br.b.back()});
        return static_cast<std::uint32_t>(br.size() - 1);
    }

    // Elements whose branch never changes come first; visit() below places the others.
    bool placeFixed(const Part& part, Where& w) {
        if (const auto* p = std::get_if<Resistor>(&part)) {
            w.kind = Kind::Fixed;
            w.branch = branch(p->a, p->b, 1.0 / p->resistance_ohm);
            return true;
        }
        if (const auto* p = std::get_if<CurrentSource>(&part)) {
            w.kind = Kind::Source;
            w.branch = branch(p->from, p->to, 0.0, p->current_A);
            return true;
        }
        return false;
    }

    Where operator()(const Resistor&) { return {}; }

    Where operator()(const VoltageSource&) { return {}; }

    Where operator()(const CurrentSource&) { return {}; }

    Where operator()(const Capacitor& p) {
        CapacitorPart c;
        c.branch = branch(p.a, p.b);
        c.voltage = net.states.add(p.initial_V, 1e-6, 1e-6);
        c.capacitance_F = p.capacitance_F;
        net.capacitors.push_back(c);
        return {Kind::Capacitor, std::uint32_t(net.capacitors.size() - 1), c.branch};
    }

    std::uint32_t coil(Node a, Node b, double ohm, double henry, double initial_A, bool warms) {
        CoilPart c;
        c.branch = branch(a, b);
        c.current = net.states.addCurrent(initial_A);
        c.resistance_ohm = ohm;
        c.inductance_H = henry;
        c.warms = warms;
        if (warms) c.temperature = net.states.addTemperature(net.netlist.ambient_K);
        c.heat_J_per_K = 12.0;  // coil of a 2 W relay, some 25 g of copper: no source
        c.loss_W_per_K = 0.033; // 55 K at 1.8 W: no source
        net.coils.push_back(c);
        net.coilOf.push_back(current);
        return static_cast<std::uint32_t>(net.coils.size() - 1);
    }

    Where operator()(const Inductor& p) {
        const std::uint32_t k =
            coil(p.a, p.b, p.resistance_ohm, p.inductance_H, p.initial_A, false);
        return {Kind::Inductor, k, net.coils[k].branch};
    }

    Where operator()(const Cable& p) {
        CablePart c = makeCable(p);
        c.branch = branch(p.a, p.b);
        c.conductor = net.states.addTemperature(net.netlist.ambient_K);
        c.sleeve = net.states.addTemperature(net.netlist.ambient_K);
        for (EndPart& e : c.ends) {
            e.temperature = net.states.addTemperature(net.netlist.ambient_K);
            e.wear = net.states.add(0.0, 1e-5, 1e-5);
        }
        if (p.parted) c.parted.phase = GapPhase::Open;
        net.cables.push_back(c);
        net.cableOf.push_back(current);
        return {Kind::Cable, std::uint32_t(net.cables.size() - 1), c.branch};
    }

    Where operator()(const Battery& p) {
        BatteryPart b;
        b.branch = branch(p.plus, p.minus);
        b.available = net.states.add(p.charge * kAvailable, 1e-8, 0.0);
        b.bound = net.states.add(p.charge * (1.0 - kAvailable), 1e-8, 0.0);
        b.temperature = net.states.addTemperature(p.temp_K);
        b.full_V = p.full_V;
        b.low_V = p.low_V;
        b.resistance_ohm = p.resistance_ohm;
        b.capacity_C = p.capacity_C;
        b.flatReported = p.charge <= kFlat;
        net.batteries.push_back(b);
        net.batteryOf.push_back(current);
        return {Kind::Battery, std::uint32_t(net.batteries.size() - 1), b.branch};
    }

    std::uint32_t contact(Node a, Node b, double ohm, bool closed) {
        ContactPart c;
        c.branch = branch(a, b);
        c.resistance_ohm = ohm < kConflict_ohm ? kConflict_ohm : ohm;
        c.gap.phase = closed ? GapPhase::Closed : GapPhase::Open;
        net.contacts.push_back(c);
        net.contactOf.push_back(current);
        return static_cast<std::uint32_t>(net.contacts.size() - 1);
    }

    Where operator()(const Contact& p) {
        const std::uint32_t k = contact(p.a, p.b, p.resistance_ohm, p.closed);
        return {Kind::Contact, k, net.contacts[k].branch};
    }

    Where operator()(const Fuse& p) {
        FusePart f = makeFuse(p);
        f.branch = branch(p.a, p.b);
        f.element = net.states.add(0.0, 1e-6, 1e-6);
        f.body = net.states.add(0.0, 1e-6, 1e-6);
        if (p.blown) f.gap.phase = GapPhase::Open;
        net.fuses.push_back(f);
        net.fuseOf.push_back(current);
        return {Kind::Fuse, std::uint32_t(net.fuses.size() - 1), f.branch};
    }

    Where operator()(const Relay& p) {
        RelayPart r;
        r.coil = coil(p.coilA, p.coilB, p.coil_ohm, p.coil_H, 0.0, true);
        r.normallyOpen = contact(p.common, p.normallyOpen, p.contact_ohm, p.welded);
        // A welded armature stays over at the normally-open side: the other contact cannot make.
        r.normallyClosed = contact(p.common, p.normallyClosed, p.contact_ohm, !p.welded);
        r.weldEnergy = net.states.add(0.0, 1e-4, 1e-4);
        r.pullIn_A = p.pullIn_V / p.coil_ohm;
        r.dropOut_A = p.dropOut_V / p.coil_ohm;
        r.rating_A = p.contactRating_A;
        r.kickThreshold_V = 2.0 * p.pullIn_V;
        r.welded = p.welded;
        if (p.welded) r.armature = Armature::In;
        net.relays.push_back(r);
        net.relayOf.push_back(current);
        return {Kind::Relay, std::uint32_t(net.relays.size() - 1), net.coils[r.coil].branch};
    }

    Where operator()(const Diode& p) {
        DiodePart d = makeDiode(p.forward_V, p.rated_A, p.reverse_V);
        d.branch = branch(p.anode, p.cathode);
        net.diodes.push_back(d);
        return {Kind::Diode, std::uint32_t(net.diodes.size() - 1), d.branch};
    }

    Where operator()(const Lamp& p) {
        LampPart l = makeLamp(p.rated_V, p.rated_W, p.coldRatio);
        l.branch = branch(p.a, p.b);
        l.temperature = net.states.add(net.netlist.ambient_K, 1e-2, 1e-5);
        if (p.broken) l.gap.phase = GapPhase::Open;
        net.lamps.push_back(l);
        net.lampOf.push_back(current);
        return {Kind::Lamp, std::uint32_t(net.lamps.size() - 1), l.branch};
    }

    Where operator()(const Motor& p) {
        MotorPart m;
        m.branch = branch(p.a, p.b);
        m.current = net.states.addCurrent(0.0);
        m.speed = net.states.add(0.0, 1e-5, 1e-6);
        m.angle = net.states.add(0.0, 0.0, 0.0);
        m.temperature = net.states.addTemperature(net.netlist.ambient_K);
        m.resistance_ohm = p.resistance_ohm;
        m.inductance_H = p.inductance_H;
        m.constant_Vs = p.constant_Vs;
        m.inertia_kg_m2 = p.inertia_kg_m2;
        m.viscous_Nms = p.viscous_Nms;
        m.drag_Nm = p.friction_Nm + p.load_Nm;
        const double size = p.constant_Vs * p.constant_Vs / p.resistance_ohm;
        m.heat_J_per_K = std::max(1.0, kMotorHeat * size);
        m.loss_W_per_K = std::max(0.01, kMotorLoss * size);
        m.jammed = p.jammed;
        net.motors.push_back(m);
        net.motorOf.push_back(current);
        return {Kind::Motor, std::uint32_t(net.motors.size() - 1), m.branch};
    }

    std::uint32_t current = 0; // element being placed

    std::vector<IdealEdge> idealEdges(const std::vector<char>& fine) const {
        std::vector<IdealEdge> ideal;
        const std::vector<Element>& elements = net.netlist.elements;
        for (std::uint32_t e = 0; e < elements.size(); ++e) {
            if (!fine[e]) continue;
            if (const auto* p = std::get_if<VoltageSource>(&elements[e].part))
                ideal.push_back({e, p->plus, p->minus, p->emf_V});
            if (const auto* p = std::get_if<Resistor>(&elements[e].part))
                if (p->resistance_ohm < kLeast_ohm) ideal.push_back({e, p->a, p->b, 0.0});
        }
        return ideal;
    }

    void placeIdeal() {
        for (std::uint32_t k = 0; k < net.joins.tree.size(); ++k)
            net.where[net.joins.tree[k].element] = {Kind::Ideal, k, 0};
        for (const IdealEdge& e : net.joins.resistive) {
            const double g = 1.0 / kConflict_ohm;
            net.where[e.element] = {Kind::Fixed, 0, branch(e.a, e.b, g, -g * e.emf_V)};
        }
    }

    void placeAll(const std::vector<char>& fine) {
        const std::vector<Element>& elements = net.netlist.elements;
        placeIdeal();
        for (std::uint32_t e = 0; e < elements.size(); ++e)
            if (fine[e] && net.where[e].kind == Kind::Unusable)
                placeFixed(elements[e].part, net.where[e]);
        net.firstMoving = static_cast<std::uint32_t>(net.branches.size());
        for (current = 0; current < elements.size(); ++current)
            if (fine[current] && net.where[current].kind == Kind::Unusable)
                net.where[current] = std::visit(*this, elements[current].part);
    }

    void layMesh() {
        Branches& br = net.branches;
        br.slot = net.mesh.analyse(net.joins.unknowns, edges);
        net.fixedConductance.assign(net.mesh.conductances().size(), 0.0);
        net.fixedInject_A.assign(net.joins.unknowns, 0.0);
        net.inject_A.assign(net.joins.unknowns, 0.0);
        net.volts_V.assign(net.joins.unknowns, 0.0);
        for (std::uint32_t k = 0; k < net.firstMoving; ++k) {
            if (br.slot[k] >= 0) net.fixedConductance[br.slot[k]] += br.g[k];
            const double through = br.j[k] + br.g[k] * br.offset_V[k];
            net.fixedInject_A[br.a[k]] -= through;
            net.fixedInject_A[br.b[k]] += through;
        }
        net.factored_S.assign(br.size(), -1.0); // no conductance is negative: factor at first
        net.mesh.conductances() = net.fixedConductance;
        net.mesh.factor();
    }
};

Network::Network(const Netlist& from) : netlist(from) {
    const std::vector<char> fine = usable(netlist);
    where.resize(netlist.elements.size());
    NetworkBuilder builder{*this, {}};
    joins = joinIdeal(netlist.nodeCount, builder.idealEdges(fine));
    builder.placeAll(fine);
    builder.layMesh();
}

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

void copyStates(
    const States& from, std::uint32_t first, States& to, std::uint32_t at, std::uint32_t count) {
    for (std::uint32_t k = 0; k < count; ++k)
        to.value[at + k] = from.value[first + k];
}

void inheritGap(const Gap& old, Gap& now) {
    if (now.closed() && !old.closed()) now = old;  // what opened by itself stays open
    if (!now.closed() && !old.closed()) now = old; // an arc goes on
}

} // namespace

void Network::inherit(const Network& old, const States& from, double now_s) {
    inheritedAt_s = now_s;
    std::vector<std::pair<Key, std::uint32_t>> byKey;
    for (std::uint32_t e = 0; e < old.where.size(); ++e)
        if (old.where[e].kind != Kind::Unusable) byKey.emplace_back(old.netlist.elements[e].key, e);
    std::sort(byKey.begin(), byKey.end());
    for (std::uint32_t e = 0; e < where.size(); ++e) {
        const Where& now = where[e];
        if (now.kind == Kind::Unusable) continue;
        const Key key = netlist.elements[e].key;
        const auto at = std::lower_bound(byKey.begin(), byKey.end(), std::make_pair(key, 0u));
        if (at == byKey.end() || at->first != key) continue;
        const Where& was = old.where[at->second];
        if (was.kind != now.kind) continue;
        if (replaced(old.netlist.elements[at->second].part, netlist.elements[e].part)) continue;
        inheritElement(old, was, from, now);
    }
}

void Network::inheritElement(const Network& old,
                             const Where& was,
                             const States& from,
                             const Where& now) {
    const double through_A = old.branches.i.empty() ? 0.0 : old.branches.i[was.branch];
    switch (now.kind) {
    case Kind::Capacitor:
        copyStates(from, old.capacitors[was.part].voltage, states, capacitors[now.part].voltage, 1);
        break;
    case Kind::Inductor:
        copyStates(from, old.coils[was.part].current, states, coils[now.part].current, 1);
        break;
    case Kind::Cable: {
        const CablePart& o = old.cables[was.part];
        CablePart& c = cables[now.part];
        copyStates(from, o.conductor, states, c.conductor, 6);
        c.state = o.state;
        for (int k = 0; k < 2; ++k)
            c.ends[k].hotReported = o.ends[k].hotReported;
        inheritGap(o.parted, c.parted);
        break;
    }
    case Kind::Battery: {
        const BatteryPart& o = old.batteries[was.part];
        BatteryPart& b = batteries[now.part];
        copyStates(from, o.available, states, b.available, 3);
        b.flatReported = o.flatReported;
        b.abuseReported = o.abuseReported;
        b.chargeReported = o.chargeReported;
        break;
    }
    case Kind::Contact: {
        const Gap& o = old.contacts[was.part].gap;
        Gap& g = contacts[now.part].gap;
        if (!g.closed() && !o.closed()) g = o;
        if (!g.closed() && o.closed()) {
            g.phase = GapPhase::Closed;
            openGap(g, through_A, inheritedAt_s);
        }
        break;
    }
    case Kind::Fuse: {
        const FusePart& o = old.fuses[was.part];
        FusePart& f = fuses[now.part];
        copyStates(from, o.element, states, f.element, 2);
        f.overloadedSince_s = o.overloadedSince_s;
        inheritGap(o.gap, f.gap);
        break;
    }
    case Kind::Relay:
        inheritRelay(old, old.relays[was.part], from, relays[now.part]);
        break;
    case Kind::Lamp: {
        const LampPart& o = old.lamps[was.part];
        LampPart& l = lamps[now.part];
        copyStates(from, o.temperature, states, l.temperature, 1);
        l.at_V = o.at_V;
        inheritGap(o.gap, l.gap);
        break;
    }
    case Kind::Diode:
        diodes[now.part].at_V = old.diodes[was.part].at_V;
        break;
    case Kind::Motor: {
        const MotorPart& o = old.motors[was.part];
        MotorPart& m = motors[now.part];
        copyStates(from, o.current, states, m.current, 4);
        m.turning = m.jammed ? 0 : o.turning;
        if (m.jammed) states.value[m.speed] = 0.0;
        m.stalled = o.stalled;
        break;
    }
    default:
        break;
    }
}

void Network::inheritRelay(const Network& old,
                           const RelayPart& o,
                           const States& from,
                           RelayPart& r) {
    copyStates(from, old.coils[o.coil].current, states, coils[r.coil].current, 2);
    copyStates(from, o.weldEnergy, states, r.weldEnergy, 1);
    r.kicking = o.kicking;
    r.kick_V = o.kick_V;
    r.armature = o.armature;
    r.began_s = o.began_s;
    if (r.welded && !o.welded) return; // put on welded: its contacts are set as made
    r.welded = o.welded;
    contacts[r.normallyOpen].gap = old.contacts[o.normallyOpen].gap;
    contacts[r.normallyClosed].gap = old.contacts[o.normallyClosed].gap;
}

} // namespace loom::circuit

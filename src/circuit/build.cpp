// SPDX-License-Identifier: MIT
// How a Network is built from a Netlist.
#include "circuit/check.h"
#include "circuit/network.h"

#include <algorithm>

namespace loom::circuit {

// Error tolerances of a step: relative for currents and speeds; absolute as a share of a relay's
// pull-in current, and for a motor the current this voltage drives into it at rest.
constexpr double kPlainRelative = 1e-6; // of coils, inductors and capacitors
constexpr double kElectricRelative = 1e-5, kElectricAbsolute = 1e-5, kMotorAbsolute_V = 2.4e-4;
// Of melting. The body is slow, so it costs few steps, and late: what it is off shows at the end.
constexpr double kElementAbsolute = 2e-6, kBodyAbsolute = 2e-8;

struct NetworkBuilder {
    Network& net;

    std::uint32_t branch(Node a, Node b, double g = 0.0, double j = 0.0) {
        Branches& br = net.branches;
        br.nodeA.push_back(a);
        br.nodeB.push_back(b);
        br.a.push_back(net.joins.unknown[a]);
        br.b.push_back(net.joins.unknown[b]);
        br.offset_V.push_back(net.joins.offset_V[a] - net.joins.offset_V[b]);
        br.g.push_back(g);
        br.j.push_back(j);
        return static_cast<std::uint32_t>(br.size() - 1);
    }

    // Elements whose branch never changes come first; visit() below places the others.
    bool placeFixed(const Part& part, Where& w) {
        if (const auto* p = std::get_if<Resistor>(&part)) {
            w.kind = Kind::Fixed;
            w.branch = branch(p->a, p->b, 1.0 / p->resistance_ohm);
            return true;
        }
        return false;
    }

    Where operator()(const Resistor&) { return {}; }

    Where operator()(const VoltageSource&) { return {}; }

    Where operator()(const CurrentSource& p) {
        net.sources.push_back({branch(p.from, p.to), p.current_A});
        return {Kind::Source, std::uint32_t(net.sources.size() - 1), net.sources.back().branch};
    }

    Where operator()(const Capacitor& p) {
        CapacitorPart c;
        c.branch = branch(p.a, p.b);
        c.voltage = net.states.add(p.initial_V, 1e-6, kPlainRelative);
        c.capacitance_F = p.capacitance_F;
        net.capacitors.push_back(c);
        return {Kind::Capacitor, std::uint32_t(net.capacitors.size() - 1), c.branch};
    }

    std::uint32_t coil(Node a,
                       Node b,
                       double ohm,
                       double henry,
                       double initial_A,
                       double tolerance_A,
                       bool warms) {
        CoilPart c;
        c.branch = branch(a, b);
        c.current = net.states.add(initial_A, tolerance_A, kPlainRelative);
        c.resistance_ohm = ohm;
        c.inductance_H = henry;
        c.warms = warms;
        if (warms) c.temperature = net.states.addTemperature(net.netlist.ambient_K);
        c.heat_J_per_K = 12.0;  // coil of a 2 W relay, some 25 g of copper: no source
        c.loss_W_per_K = 0.033; // 55 K at 1.8 W: no source
        net.coils.push_back(c);
        return static_cast<std::uint32_t>(net.coils.size() - 1);
    }

    Where operator()(const Inductor& p) {
        const std::uint32_t k =
            coil(p.a, p.b, p.resistance_ohm, p.inductance_H, p.initial_A, 1e-6, false);
        return {Kind::Inductor, k, net.coils[k].branch};
    }

    Where operator()(const Cable&) { return {}; }

    // All cables, so that their branches and states come in runs.
    void placeCables(const std::vector<char>& fine) {
        Cables& cables = net.cables;
        const std::vector<Element>& elements = net.netlist.elements;
        std::vector<const Cable*> specs;
        cables.firstBranch = static_cast<std::uint32_t>(net.branches.size());
        for (std::uint32_t e = 0; e < elements.size(); ++e) {
            const auto* spec = std::get_if<Cable>(&elements[e].part);
            if (spec == nullptr || !fine[e]) continue;
            cables.add(cableValues(*spec));
            net.where[e] = {Kind::Cable, std::uint32_t(specs.size()), branch(spec->a, spec->b)};
            net.cableOf.push_back(e);
            specs.push_back(spec);
        }
        cables.firstConductor = warmRun(specs.size());
        for (std::size_t k = 0; k < specs.size(); ++k) {
            placeEnds(*specs[k], static_cast<std::uint32_t>(k));
            if (!specs[k]->parted) continue;
            cables.parted[k].phase = GapPhase::Open;
            cables.part(k);
        }
        findNeighbours();
    }

    const Cable* cableOf(Key key, const std::vector<char>& fine) const {
        const std::vector<Element>& elements = net.netlist.elements;
        for (std::size_t e = 0; e < elements.size(); ++e)
            if (elements[e].key == key && fine[e]) return std::get_if<Cable>(&elements[e].part);
        return nullptr;
    }

    // Keeps only those whose two cables are there.
    void placeTouches(const std::vector<char>& fine) {
        std::vector<Touch> kept;
        for (const Touch& t : net.touches) {
            const Cable *one = cableOf(t.cable, fine), *other = cableOf(t.neighbour, fine);
            if (one == nullptr || other == nullptr || one->neighbour != t.neighbour) continue;
            branch(t.atB ? one->b : one->a, t.neighbourAtB ? other->b : other->a, 1.0 / kTouch_ohm);
            kept.push_back(t);
        }
        net.touches = std::move(kept);
    }

    void findNeighbours() {
        const std::vector<Element>& elements = net.netlist.elements;
        const std::size_t n = net.cables.size();
        const auto keyOf = [&](std::size_t k) { return elements[net.cableOf[k]].key; };
        for (std::size_t k = 0; k < n; ++k) {
            const Key key = std::get<Cable>(elements[net.cableOf[k]].part).neighbour;
            for (std::size_t other = 0; key != 0 && other < n; ++other)
                if (other != k && keyOf(other) == key)
                    net.cables.neighbour[k] = static_cast<std::int32_t>(other);
        }
    }

    std::uint32_t warmRun(std::size_t count) {
        const std::uint32_t first = static_cast<std::uint32_t>(net.states.value.size());
        for (std::size_t k = 0; k < count; ++k)
            net.states.addTemperature(net.netlist.ambient_K);
        return first;
    }

    void placeEnds(const Cable& spec, std::uint32_t cable) {
        for (const Joint* made : {&spec.endA, &spec.endB}) {
            if (!ownModel(*made)) continue;
            EndPart e;
            e.cable = cable;
            e.resistance_ohm = made->resistance_ohm;
            e.loose = made->loose;
            e.temperature = net.states.addTemperature(net.netlist.ambient_K);
            e.wear = net.states.add(0.0, 1e-5, 1e-5);
            net.cables.ends.push_back(e);
        }
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
        setCapacity(b, p.capacity_C);
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
        return static_cast<std::uint32_t>(net.contacts.size() - 1);
    }

    Where operator()(const Contact& p) {
        const std::uint32_t k = contact(p.a, p.b, p.resistance_ohm, p.closed);
        return {Kind::Contact, k, net.contacts[k].branch};
    }

    Where operator()(const Fuse& p) {
        FusePart f = makeFuse(p);
        f.branch = branch(p.a, p.b);
        f.element = net.states.add(0.0, kElementAbsolute, 0.0);
        f.body = net.states.add(0.0, kBodyAbsolute, 0.0);
        net.states.creeping.push_back({f.element, f.g1 / f.c1_s});
        net.states.creeping.push_back({f.body, (f.g1 + f.g2) / f.c2_s});
        if (p.blown) f.gap.phase = GapPhase::Open;
        net.fuses.push_back(f);
        net.fuseOf.push_back(current);
        return {Kind::Fuse, std::uint32_t(net.fuses.size() - 1), f.branch};
    }

    Where operator()(const Relay& p) {
        RelayPart r;
        r.pullIn_A = p.pullIn_V / p.coil_ohm;
        const double tolerance_A = kElectricAbsolute * r.pullIn_A;
        r.coil = coil(p.coilA, p.coilB, p.coil_ohm, p.coil_H, 0.0, tolerance_A, true);
        r.normallyOpen = contact(p.common, p.normallyOpen, p.contact_ohm, p.welded);
        // A welded armature stays over at the normally-open side: the other contact cannot make.
        r.normallyClosed = contact(p.common, p.normallyClosed, p.contact_ohm, !p.welded);
        r.weldEnergy = net.states.add(0.0, 1e-4, 1e-4);
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
        l.temperature = net.states.add(net.netlist.ambient_K, 0.03, 3e-5);
        if (p.broken) l.gap.phase = GapPhase::Open;
        net.lamps.push_back(l);
        net.lampOf.push_back(current);
        return {Kind::Lamp, std::uint32_t(net.lamps.size() - 1), l.branch};
    }

    Where operator()(const Motor& p) {
        MotorPart m;
        m.branch = branch(p.a, p.b);
        m.current = net.states.add(0.0, kMotorAbsolute_V / p.resistance_ohm, kElectricRelative);
        m.speed = net.states.add(0.0, 1e-4, kElectricRelative);
        m.angle = net.states.add(0.0, kUncontrolled, 0.0);
        m.temperature = net.states.addTemperature(net.netlist.ambient_K);
        m.resistance_ohm = p.resistance_ohm;
        m.inductance_H = p.inductance_H;
        m.constant_Vs = p.constant_Vs;
        m.inertia_kg_m2 = p.inertia_kg_m2;
        m.viscous_Nms = p.viscous_Nms;
        m.drag_Nm = p.friction_Nm + p.load_Nm;
        const double braked = p.constant_Vs * p.constant_Vs / p.resistance_ohm + p.viscous_Nms;
        net.states.creeping.push_back({m.speed, braked / p.inertia_kg_m2});
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
        placeTouches(fine);
        net.firstMoving = static_cast<std::uint32_t>(net.branches.size());
        placeCables(fine);
        for (current = 0; current < elements.size(); ++current)
            if (fine[current] && net.where[current].kind == Kind::Unusable)
                net.where[current] = std::visit(*this, elements[current].part);
        // A sleeve follows its conductor, more smoothly: it needs no control of its own.
        net.states.controlled = net.states.value.size();
        net.cables.firstSleeve = warmRun(net.cables.size());
    }

    // Numbers the unknowns in the order of their elimination.
    void renumber() {
        Branches& br = net.branches;
        std::vector<MeshEdge> edges(br.size());
        for (std::size_t k = 0; k < br.size(); ++k)
            edges[k] = {br.a[k], br.b[k]};
        const std::vector<std::uint32_t> place = eliminationPlaces(net.joins.unknowns, edges);
        for (std::uint32_t& unknown : net.joins.unknown)
            unknown = place[unknown];
        for (std::size_t k = 0; k < br.size(); ++k) {
            br.a[k] = place[br.a[k]];
            br.b[k] = place[br.b[k]];
            edges[k] = {br.a[k], br.b[k]};
        }
        br.slot = net.mesh.analyse(net.joins.unknowns, edges);
    }

    void layMesh() {
        Branches& br = net.branches;
        renumber();
        net.fixedConductance.assign(net.mesh.conductances().size(), 0.0);
        net.fixedCurrent.assign(net.mesh.conductances().size(), 0.0);

        net.residual_A.assign(net.joins.unknowns, 0.0);
        net.silent.assign(br.size(), 0);
        net.feeding.reserve(br.size());
        for (std::uint32_t k = 0; k < net.firstMoving; ++k)
            if (br.slot[k] >= 0) net.fixedConductance[br.slot[k]] += br.g[k];
        net.feedFixed();
        net.factored_S.assign(br.size(), -1.0); // no conductance is negative: factor at first
        net.mesh.conductances() = net.fixedConductance;
        net.mesh.factor();
    }
};

Network::Network(const Netlist& from, std::vector<Touch> touching)
    : netlist(from), touches(std::move(touching)) {
    const std::vector<char> fine = usable(netlist);
    where.resize(netlist.elements.size());
    NetworkBuilder builder{*this};
    joins = joinIdeal(netlist.nodeCount, builder.idealEdges(fine));
    builder.placeAll(fine);
    builder.layMesh();
    modelsChanged();
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
#include "lesson/paths.h"

#include "circuit/node_groups.h"
#include "lesson/trial.h"

namespace loom::lesson {
namespace {

// Joins what one element joins, as far as `through` goes.
struct Joining {
    circuit::NodeGroups& groups;
    Through through;

    void operator()(const circuit::Cable& cable) { join(Through::Cables, cable, !cable.parted); }

    void operator()(const circuit::Contact& contact) {
        join(Through::Closed, contact, contact.closed);
    }

    void operator()(const circuit::Fuse& fuse) { join(Through::Closed, fuse, !fuse.blown); }

    void operator()(const circuit::Resistor& resistor) { join(Through::Anything, resistor); }

    void operator()(const circuit::Capacitor& capacitor) { join(Through::Anything, capacitor); }

    void operator()(const circuit::Inductor& inductor) { join(Through::Anything, inductor); }

    void operator()(const circuit::Motor& motor) { join(Through::Anything, motor); }

    void operator()(const circuit::Lamp& lamp) { join(Through::Anything, lamp, !lamp.broken); }

    void operator()(const circuit::CurrentSource&) {}

    void operator()(const circuit::Battery& battery) {
        if (through == Through::Anything) groups.join(battery.plus, battery.minus);
    }

    void operator()(const circuit::VoltageSource& source) {
        if (through == Through::Anything) groups.join(source.plus, source.minus);
    }

    void operator()(const circuit::Diode& diode) {
        if (through == Through::Anything) groups.join(diode.anode, diode.cathode);
    }

    // At rest.
    void operator()(const circuit::Relay& relay) {
        if (through != Through::Cables)
            groups.join(relay.common, relay.welded ? relay.normallyOpen : relay.normallyClosed);
        if (through == Through::Anything) groups.join(relay.coilA, relay.coilB);
    }

private:
    template <class Element> void join(Through from, const Element& element, bool whole = true) {
        if (whole && through >= from) groups.join(element.a, element.b);
    }
};

} // namespace

Ways::Ways(const bench::Bench& of, Through through) : bench(of), wiring(bench::wire(of)) {
    circuit::NodeGroups found(wiring.netlist.nodeCount);
    Joining joining{found, through};
    for (const circuit::Element& element : wiring.netlist.elements)
        std::visit(joining, element.part);
    groups = found.tops();
}

bool Ways::joined(bench::TerminalRef a, bench::TerminalRef b) const {
    const auto from = bench::nodeOf(bench, wiring, a), there = bench::nodeOf(bench, wiring, b);
    return from && there && groups[*from] == groups[*there];
}

bool joined(const bench::Bench& bench, const plan::Spot& a, const plan::Spot& b, Through through) {
    const auto at = find(bench, a), to = find(bench, b);
    return at && to && Ways(bench, through).joined(*at, *to);
}

} // namespace loom::lesson

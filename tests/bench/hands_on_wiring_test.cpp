// SPDX-License-Identifier: MIT
// The network that follows from hand-made ends, ties, the meter and an obstructed axle.
#include "bench/wiring.h"
#include "handmade.h"

namespace loom::bench {
namespace {

template <class Kind> const Kind* elementOf(const Wiring& wiring, circuit::Key key) {
    for (const circuit::Element& element : wiring.netlist.elements)
        if (element.key == key) return std::get_if<Kind>(&element.part);
    return nullptr;
}

Bench clampCable() {
    const Bench bench = handsOn();
    return cut(bench, terminal(bench, "X1", "3 upper"), terminal(bench, "X1", "7 upper"));
}

const circuit::Cable& cableElement(const Bench& bench, const Wiring& wiring) {
    const auto* element = elementOf<circuit::Cable>(wiring, cableKey(cable(bench).id));
    REQUIRE(element);
    return *element;
}

} // namespace

TEST_CASE("an end made well is at its terminal's node, one that touches nothing at its own") {
    const Bench bare = clampCable();
    const Bench bench = made(bare, 0, {});
    const Wiring wiring = wire(bench);
    const auto node = nodeOf(bench, wiring, terminal(bench, "X1", "3 upper"));
    CHECK(cableElement(bench, wiring).a == *node);
    CHECK(wiring.ends[0][0] == *node);
    CHECK(cableElement(bench, wiring).endA.resistance_ohm <= 1e-3); // sound: from memory
    CHECK_FALSE(cableElement(bench, wiring).endA.loose);
    const auto far = nodeOf(bench, wiring, terminal(bench, "X1", "7 upper"));
    CHECK(cableElement(bench, wiring).b != *far); // nothing done to it yet
    CHECK(wiring.ends[0][1] == cableElement(bench, wiring).b);
    // A probe on the end's own metal and one on the terminal are two different things.
    CHECK(nodeOf(bench, wiring, ProbeTip{{}, cable(bench).id, 1}) == wiring.ends[0][1]);
    CHECK(nodeOf(bench, wiring, ProbeTip{terminal(bench, "X1", "7 upper"), {}, 0}) == far);
    CHECK_FALSE(nodeOf(bench, wiring, ProbeTip{}));
}

TEST_CASE("a loose screw makes a loose joint") {
    const Bench bench = made(clampCable(), 0, {0.01, 0.01, true, true, 0.2});
    const Wiring wiring = wire(bench);
    CHECK(cableElement(bench, wiring).endA.loose);
    CHECK(cableElement(bench, wiring).endA.resistance_ohm > 1e-3);
}

TEST_CASE("a strand is a thin cable to the next way, long bare copper a contact") {
    const Bench bench = made(clampCable(), 0, {0.01, 0.01, false});
    const Wiring wiring = wire(bench);
    const circuit::Key key = strandKey(cable(bench).id, 0);
    CHECK_FALSE(cableOf(key));
    CHECK_FALSE(partOf(key));
    REQUIRE(strandOf(key));
    CHECK(strandOf(key)->cable == cable(bench).id);
    CHECK_FALSE(strandOf(cableKey(cable(bench).id)));
    const auto* strand = elementOf<circuit::Cable>(wiring, key);
    REQUIRE(strand);
    CHECK(strand->area_m2 < 0.1e-6);
    CHECK(strand->a == wiring.ends[0][0]);
    CHECK(strand->b != strand->a);
    const Bench burnt = done(bench, WearEnd{cable(bench).id, 0});
    CHECK_FALSE(elementOf<circuit::Cable>(wire(burnt), key));
    const Bench bare = made(clampCable(), 0, {0.025, 0.01});
    CHECK(elementOf<circuit::Contact>(wire(bare), strandKey(cable(bare).id, 0)));
}

TEST_CASE("cables tied together at two places lie along one another") {
    Bench bench = clampCable();
    bench = cut(bench, terminal(bench, "X1", "4 upper"), terminal(bench, "X1", "8 upper"), "W-2");
    const CableId first = cable(bench).id, second = cable(bench, "W-2").id;
    const auto bundled = [&] { return cableElement(bench, wire(bench)).bundled; };
    bench = done(bench, TieCable{first, 0.3, second, 0.3, {0.5, 0.5}});
    bench = done(bench, TieCable{first, 0.3, {}, 0.5, {0.5, 0.5}});
    bench = done(bench, TieCable{first, 0.6, {}, 0.5, {0.6, 0.5}});
    CHECK(bundled() == 0); // they only cross
    bench = done(bench, TieCable{second, 0.6, first, 0.6, {0.6, 0.5}});
    CHECK(bundled() == 1);
    CHECK(cableElement(bench, wire(bench)).neighbour == cableKey(second));
    bench = done(bench, CutTie{bench.ties[0].id});
    CHECK(bundled() == 0);
}

TEST_CASE("the meter is what its range makes it, once both probes touch something") {
    Bench bench = clampCable();
    bench = done(bench, PlaceMeter{{0.5, 0.5}});
    bench = done(bench, SetMeter{MeterRange::Volts});
    bench = done(bench, Probe{0, {terminal(bench, "B1", "plus"), {}, 0}});
    CHECK_FALSE(elementOf<circuit::Resistor>(wire(bench), meterKey(MeterElement::Volts)));
    bench = done(bench, Probe{1, {terminal(bench, "B1", "minus"), {}, 0}});
    const Wiring wiring = wire(bench);
    const auto* volts = elementOf<circuit::Resistor>(wiring, meterKey(MeterElement::Volts));
    REQUIRE(volts);
    CHECK(volts->resistance_ohm == 10e6);
    CHECK(volts->a == *nodeOf(bench, wiring, terminal(bench, "B1", "plus")));
    bench = done(bench, SetMeter{MeterRange::Amperes});
    const Wiring inSeries = wire(bench);
    const auto* fuse = elementOf<circuit::Fuse>(inSeries, meterKey(MeterElement::Fuse));
    REQUIRE(fuse);
    CHECK(fuse->style == circuit::FuseStyle::Cartridge);
    CHECK_FALSE(fuse->blown);
    CHECK(elementOf<circuit::Resistor>(inSeries, meterKey(MeterElement::Shunt))->a == fuse->b);
    bench = done(bench, WearMeter{});
    CHECK(elementOf<circuit::Fuse>(wire(bench), meterKey(MeterElement::Fuse))->blown);
    bench = done(bench, SetMeter{MeterRange::Ohms});
    CHECK(elementOf<circuit::VoltageSource>(wire(bench), meterKey(MeterElement::Source)));
    bench = done(bench, SetMeter{MeterRange::Off});
    CHECK(wire(bench).netlist.elements.size() == wire(clampCable()).netlist.elements.size());
}

TEST_CASE("something against the axle jams the motor") {
    Bench bench = laid(trayOnly(), "M1");
    const circuit::Key key = partKey(idOf(bench, "M1"));
    CHECK_FALSE(elementOf<circuit::Motor>(wire(bench), key)->jammed);
    bench = done(bench, ObstructAxle{idOf(bench, "M1"), true, {}});
    CHECK(elementOf<circuit::Motor>(wire(bench), key)->jammed);
}

} // namespace loom::bench

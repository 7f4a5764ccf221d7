// SPDX-License-Identifier: MIT
#include "circuit/lamp.h"
#include "network_hand.h"

#include <doctest/doctest.h>

namespace loom::circuit {
namespace {

Lamp lamp(double volts, double watts, double coldRatio) {
    Lamp l;
    l.a = 2;
    l.b = 0;
    l.rated_V = volts;
    l.rated_W = watts;
    l.coldRatio = coldRatio;
    return l;
}

struct Fixture {
    Hand hand;
    Key on = 2, part = 3;
    Circuit circuit;

    template <class P> Fixture(double volts, const P& p) : circuit(build(volts, p).netlist) {
        circuit.setContact(on, true);
    }

    template <class P> Hand& build(double volts, const P& p) {
        hand.volt(volts, 1, 0);
        hand.contact(1, 2, false, 1e-6);
        hand.add(p);
        return hand;
    }
};

double diodeCurrent_A(double volts) {
    Hand hand;
    hand.volt(volts, 1, 0);
    const Key d = hand.add(Diode{1, 0});
    return Circuit(hand.netlist).reading(d).current_A;
}

} // namespace

TEST_CASE("C31: a headlamp of 0.350 ohm cold takes 34.3 A at first and 30.0 W hot") {
    // College Physics m42714: 12 V, 2.50 A hot
    Fixture f(12.0, lamp(12.0, 30.0, 0.350 * 2.5 / 12.0));
    CHECK(closeRel(f.circuit.reading(f.part).current_A, 34.29, 5e-3, 0.0));
    CHECK(closeRel(f.circuit.reading(f.part).power_W, 411.4, 5e-3, 0.0));
    run(f.circuit, 2.0);
    CHECK(closeRel(f.circuit.reading(f.part).current_A, 2.50, 5e-3, 0.0));
    CHECK(closeRel(f.circuit.reading(f.part).power_W, 30.0, 5e-3, 0.0));
}

TEST_CASE("C30: tungsten of 0.350 ohm at 20 C has 4.8 ohm at 2850 C") {
    // University Physics m58731, recomputed 4.807; the filament here is at 2800 K when rated
    LampPart part = makeLamp(1.0, 1.0 / 4.807, 0.350 / 4.807);
    const double perKelvin = (resistance_ohm(part, 2000.0) - resistance_ohm(part, 1000.0)) / 1000.0;
    CHECK(closeRel(resistance_ohm(part, 293.15), 0.350, 1e-9, 0.0));
    CHECK(closeRel(perKelvin / 0.350, 4.5e-3, 0.15, 0.0));
}

TEST_CASE("Pippin's headlamp: 0.9 A hot, near 9 A for milliseconds") {
    Fixture f(24.0, lamp(24.0, 21.0, 0.1));
    CHECK(closeRel(f.circuit.reading(f.part).current_A, 8.75, 1e-3, 0.0));
    run(f.circuit, 2e-3, 2e-3);
    CHECK(f.circuit.reading(f.part).current_A > 4.0);
    run(f.circuit, 1.0);
    const Reading hot = f.circuit.reading(f.part);
    CHECK(closeRel(hot.current_A, 0.875, 1e-3, 0.0));
    CHECK(closeRel(hot.brightness, 1.0, 1e-2, 0.0));
    CHECK(closeRel(hot.temp_K, 2800.0, 1e-3, 0.0));
}

TEST_CASE("two lamps in series are dim, less voltage gives much less light") {
    Hand hand;
    hand.volt(24, 1, 0);
    Lamp first = lamp(24, 21, 0.1), second = first;
    first.a = 1;
    first.b = 2;
    const Key a = hand.add(first);
    hand.add(second);
    Circuit circuit(hand.netlist);
    run(circuit, 2.0);
    const Reading r = circuit.reading(a);
    CHECK(closeRel(r.voltage_V, 12.0, 1e-6, 0.0));
    // Lamp makers' rerating rules (from memory): light as volts^3.5, current as volts^0.55.
    CHECK(closeRel(r.brightness, std::pow(0.5, 3.5), 0.35, 0.0));
    CHECK(closeRel(r.current_A / 0.875, std::pow(0.5, 0.55), 0.10, 0.0));
}

TEST_CASE("a 12 V lamp on 24 V fails and says so, a rated one at 26 V does not") {
    Fixture f(24.0, lamp(12.0, 21.0, 0.1));
    const std::vector<Event> events = run(f.circuit, 2.0);
    const Event* failed = firstOf(events, EventKind::LampFailed);
    REQUIRE(failed != nullptr);
    CHECK(closeRel(failed->first, 24.0, 1e-3, 0.0));
    CHECK(f.circuit.reading(f.part).open);
    CHECK(f.circuit.reading(f.part).current_A == 0.0);
    run(f.circuit, 10.0, 1.0);
    CHECK(f.circuit.reading(f.part).brightness < 1e-3); // and goes dark

    Fixture rated(26.0, lamp(24.0, 21.0, 0.1));
    CHECK(run(rated.circuit, 5.0).empty());
}

TEST_CASE("a diode conducts one way") {
    CHECK(closeRel(diodeCurrent_A(0.8), 1.0, 1e-3, 0.0)); // as specified
    CHECK(diodeCurrent_A(-24.0) > -1e-6);
    CHECK(diodeCurrent_A(-24.0) < 0.0);
    CHECK(diodeCurrent_A(-401.0) < -0.5); // beyond its reverse voltage
    // 60 mV a decade times its emission coefficient of 2
    CHECK(closeRel(
        diodeCurrent_A(0.7) / diodeCurrent_A(0.7 - 0.05 * std::log(10.0)), 10.0, 1e-2, 0.0));
    CHECK(diodeCurrent_A(2.0) > 100.0);
}

TEST_CASE("a diode in series with 240 ohm on 24 V drops what its curve says") {
    Hand hand;
    hand.volt(24, 1, 0);
    const Key r = hand.ohm(240, 1, 2), d = hand.add(Diode{2, 0});
    const Circuit circuit(hand.netlist);
    const double i = circuit.reading(r).current_A, v = circuit.reading(d).voltage_V;
    CHECK(closeRel(v, 0.8 + 0.05 * std::log(i / 1.0), 0.0, 1e-5));
    CHECK(closeRel(i, (24.0 - v) / 240.0, 1e-9, 0.0));
}

TEST_CASE("four diodes turn any polarity one way") {
    for (double volts : {24.0, -24.0}) {
        Hand hand;
        hand.volt(volts, 1, 0);
        hand.add(Diode{1, 2});
        hand.add(Diode{0, 2});
        hand.add(Diode{3, 1});
        hand.add(Diode{3, 0});
        const Key load = hand.ohm(24, 2, 3);
        const Circuit circuit(hand.netlist);
        CHECK(closeRel(circuit.reading(load).current_A, (24.0 - 1.6) / 24.0, 1e-2, 0.0));
    }
}

} // namespace loom::circuit

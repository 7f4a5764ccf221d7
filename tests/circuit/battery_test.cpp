// SPDX-License-Identifier: MIT
#include "network_hand.h"

#include <algorithm>
#include <doctest/doctest.h>

namespace loom::circuit {
namespace {

Battery battery(Node plus, Node minus, double charge = 1.0) {
    Battery b;
    b.plus = plus;
    b.minus = minus;
    b.charge = charge;
    return b;
}

double rest_V(double charge) {
    Hand hand;
    hand.add(battery(1, 0, charge));
    const Circuit circuit(hand.netlist);
    return *circuit.voltage_V(1, 0);
}

// Hours until a battery of 40 Ah gives less than end_V at a steady current.
double hoursTo(double end_V, double current_A, double temp_K = 298.15) {
    Hand hand;
    Battery b = battery(1, 0);
    b.capacity_C = 40.0 * 3600.0;
    b.resistance_ohm = 8e-3;
    b.temp_K = temp_K;
    hand.netlist.ambient_K = temp_K;
    hand.add(b);
    hand.add(CurrentSource{1, 0, current_A});
    Circuit circuit(hand.netlist);
    std::vector<Event> events;
    while (*circuit.voltage_V(1, 0) > end_V && circuit.time_s() < 40.0 * 3600.0)
        circuit.advance(20.0, events);
    return circuit.time_s() / 3600.0;
}

} // namespace

TEST_CASE("B01-B06: rest voltage by state of charge, within 0.15 V of the bands") {
    struct Band {
        double charge, least_V, greatest_V;
    };

    for (const Band& b : {Band{1.0, 12.8, 13.2},
                          Band{0.875, 12.6, 12.8},
                          Band{0.625, 12.3, 12.6},
                          Band{0.375, 12.0, 12.3},
                          Band{0.125, 11.6, 12.0},
                          Band{0.0, 11.6, 11.6}}) {
        CAPTURE(b.charge);
        CHECK(rest_V(b.charge) > b.least_V - 0.15);
        CHECK(rest_V(b.charge) < b.greatest_V + 0.15);
    }
    CHECK(closeRel(rest_V(1.0), 12.85, 1e-9, 0.0)); // as specified
    CHECK(closeRel(rest_V(0.1), 12.0, 1e-9, 0.0));
    double before_V = 0.0;
    for (int k = 0; k <= 100; ++k) {
        CHECK(rest_V(0.01 * k) > before_V);
        before_V = rest_V(0.01 * k);
    }
}

TEST_CASE("B08: capacity falls with the current") { // Vinachem sheet: 40 Ah at 20 h, +-5 %

    struct Row {
        double hours, ampereHours, end_V;
    };

    for (const Row& row :
         {Row{20, 40, 10.8}, Row{10, 37.2, 10.5}, Row{5, 34, 10.2}, Row{1, 24, 9.6}}) {
        CAPTURE(row.hours);
        const double current_A = row.ampereHours / row.hours;
        CHECK(closeRel(hoursTo(row.end_V, current_A), row.hours, 0.05, 0.0));
    }
}

TEST_CASE("B11: and with the cold") { // same sheet: 103, 100, 90, 74 % at 30, 25, 10, -10 C
    const double at25 = hoursTo(10.8, 2.0);
    CHECK(closeRel(hoursTo(10.8, 2.0, 303.15) / at25, 1.03, 0.05, 0.0));
    CHECK(closeRel(hoursTo(10.8, 2.0, 283.15) / at25, 0.90, 0.05, 0.0));
    CHECK(closeRel(hoursTo(10.8, 2.0, 263.15) / at25, 0.74, 0.05, 0.0));
}

TEST_CASE("it recovers with a rest") {
    Hand hand;
    hand.add(battery(1, 0));
    const Key on = hand.contact(1, 2, true);
    hand.ohm(0.5, 2, 0);
    Circuit circuit(hand.netlist);
    run(circuit, 1800.0, 1800.0);
    circuit.setContact(on, false);
    const double tired_V = *circuit.voltage_V(1, 0);
    run(circuit, 4.0 * 3600.0, 3600.0);
    CHECK(*circuit.voltage_V(1, 0) > tired_V + 0.1);
}

TEST_CASE("B14: bolted short on 12.8 V, 8 mohm: 1600 A, with 0.3 m of 16 mm2 1531 A") {
    for (const auto& [ohm, printed] : {std::pair{1e-9, 1600.0}, std::pair{0.3 * 1.21e-3, 1531.0}}) {
        Hand hand;
        Battery b = battery(1, 0);
        b.full_V = 12.8;
        b.resistance_ohm = 8e-3;
        const Key key = hand.add(b);
        hand.ohm(ohm, 1, 0);
        const Circuit circuit(hand.netlist);
        CHECK(closeRel(circuit.reading(key).current_A, printed, 5e-3, 0.0));
    }
}

TEST_CASE("B15: two in series through 2 m of 16 mm2: 1390 A; Pippin's own: hundreds of amperes") {
    Hand hand;
    for (int k = 0; k < 2; ++k) {
        Battery b = battery(Node(k + 1), Node(k));
        b.full_V = 12.8;
        b.resistance_ohm = 8e-3;
        hand.add(b);
    }
    hand.ohm(2.0 * 1.21e-3, 2, 0);
    Circuit circuit(hand.netlist);
    CHECK(closeRel(circuit.reading(1).current_A, 1390.0, 5e-3, 0.0));
    const std::vector<Event> events = run(circuit, 0.1);
    CHECK(firstOf(events, EventKind::BatteryAbused) != nullptr);
}

TEST_CASE("B16: one the wrong way round: 0 V, and a 24 V load gets nothing") {
    Hand hand;
    hand.add(battery(1, 0));
    hand.add(battery(1, 2));
    const Key load = hand.ohm(10, 2, 0);
    const Circuit circuit(hand.netlist);
    CHECK(std::fabs(*circuit.voltage_V(2, 0)) < 1e-12);
    CHECK(std::fabs(circuit.reading(load).current_A) < 1e-12);
}

TEST_CASE("a full one charges a flat one beside it") {
    Hand hand;
    const Key full = hand.add(battery(1, 0)), flat = hand.add(battery(2, 0, 0.2));
    hand.ohm(10e-3, 1, 2);
    Circuit circuit(hand.netlist);
    const double between_V = 12.85 - (12.0 + 0.1 / 0.9 * 0.85);
    const double at_once_A = circuit.reading(full).current_A;
    CHECK(closeRel(at_once_A, between_V / (12e-3 + 12e-3 * (1 + 0.64) + 10e-3), 1e-3, 0.0));
    CHECK(closeRel(circuit.reading(flat).current_A, -at_once_A, 1e-9, 0.0));
    const std::vector<Event> events = run(circuit, 600.0, 10.0);
    const Event* charged = firstOf(events, EventKind::BatteryCharged);
    REQUIRE(charged != nullptr);
    CHECK(charged->element == flat);
    CHECK(circuit.reading(flat).charge > 0.2);
    CHECK(circuit.reading(full).charge < 1.0);
    // What one gives the other takes: charge is counted in ampere-seconds.
    CHECK(closeRel(
        circuit.reading(flat).charge - 0.2, 1.0 - circuit.reading(full).charge, 1e-6, 0.0));
}

TEST_CASE("it runs flat and says so, and stays defined when it is dead") {
    Hand hand;
    Battery b = battery(1, 0, 0.15);
    b.capacity_C = 3600.0;
    const Key key = hand.add(b);
    hand.ohm(4, 1, 0);
    Circuit circuit(hand.netlist);
    const std::vector<Event> events = run(circuit, 20000.0, 10.0);
    const Event* flat = firstOf(events, EventKind::BatteryFlat);
    REQUIRE(flat != nullptr);
    CHECK(closeRel(flat->first, 0.10, 0.02, 0.0));
    CHECK(circuit.reading(key).charge < 0.02);
    CHECK(circuit.reading(key).charge >= 0.0);
    CHECK(std::fabs(circuit.reading(key).voltage_V) < 2.0);
}

TEST_CASE("B23, B24: charged hard it takes heat, and near full it gasses") {
    // University Physics m58453: 12.0 V, terminal 16.0 V at 10.0 A is 0.400 ohm and 40.0 W of heat
    Hand hand;
    Battery b = battery(1, 0, 0.5);
    b.full_V = 12.0;
    b.low_V = 12.0;
    b.resistance_ohm = 0.4 / 1.25; // half flat adds a quarter
    const Key key = hand.add(b);
    hand.add(CurrentSource{0, 1, 10.0});
    const Circuit circuit(hand.netlist);
    CHECK(closeRel(circuit.reading(key).voltage_V, 16.0, 1e-6, 0.0));
    CHECK(closeRel(circuit.reading(key).power_W, -160.0, 1e-6, 0.0));

    Hand charger; // 15 V through 0.1 ohm, as cyclic charging ends (B13: 14.7-15.0 V)
    const Key full = charger.add(battery(1, 0, 0.9));
    charger.ohm(0.1, 1, 2);
    charger.volt(15.0, 2, 0);
    Circuit charging(charger.netlist);
    CHECK(!charging.reading(full).gassing);
    const std::vector<Event> events = run(charging, 8.0 * 3600.0, 600.0);
    REQUIRE(firstOf(events, EventKind::BatteryGassing) != nullptr);
    CHECK(firstOf(events, EventKind::BatteryGassing)->second > 14.7);
    CHECK(std::count_if(events.begin(), events.end(), [](const Event& e) {
              return e.kind == EventKind::BatteryGassing;
          }) == 1);
    CHECK(charging.reading(full).gassing);
    CHECK(charging.reading(full).charge == 1.0);
    CHECK(std::fabs(charging.reading(full).current_A) < 2.5); // it hardly takes any more
}

// A battery of 24 Ah at nine tenths, charged with 3 A for hours.
std::pair<Event, std::uint64_t> overcharge(double tolerance) {
    Hand hand;
    Battery battery{1, 0};
    battery.charge = 0.9;
    hand.add(battery);
    hand.add(CurrentSource{0, 1, 3.0});
    Circuit circuit(hand.netlist, tolerance);
    const std::vector<Event> events = run(circuit, 20000.0, 20000.0);
    const Event* gasses = firstOf(events, EventKind::BatteryGassing);
    REQUIRE(gasses != nullptr);
    return {*gasses, circuit.effort().steps};
}

TEST_CASE("gassing is said at its instant, and a battery driven beyond full costs few steps") {
    const auto [usual, steps] = overcharge(1.0);
    const auto [fine, more] = overcharge(1e-3);
    CHECK(std::fabs(usual.time_s - fine.time_s) < 0.1);
    CHECK(std::fabs(usual.second - 1.15 * Battery{}.full_V) < 1e-6);
    CHECK(steps < 10000);
    CHECK(more < 20000);
}

} // namespace loom::circuit

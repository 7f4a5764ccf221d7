// SPDX-License-Identifier: MIT
#include "circuit/cable.h"
#include "network_hand.h"

#include <doctest/doctest.h>
#include <string>

namespace loom::circuit {
namespace {

Cable cable(double area_mm2, double length_m, double end_ohm = 0.0) {
    Cable c;
    c.a = 1;
    c.b = 0;
    c.area_m2 = area_mm2 * 1e-6;
    c.length_m = length_m;
    c.endA.resistance_ohm = c.endB.resistance_ohm = end_ohm;
    return c;
}

// A cable carrying a steady current.
struct Loaded {
    Hand hand;
    Key key;
    Circuit circuit;

    Loaded(const Cable& c, double current_A, double ambient_K = 293.15)
        : hand(fed(c, current_A, ambient_K)), key(2), circuit(hand.netlist) {}

    static Hand fed(const Cable& c, double current_A, double ambient_K) {
        Hand hand;
        hand.add(CurrentSource{0, 1, current_A});
        hand.add(c);
        hand.netlist.ambient_K = ambient_K;
        return hand;
    }

    Reading after(double seconds) {
        run(circuit, seconds, seconds);
        return circuit.reading(key);
    }
};

} // namespace

TEST_CASE("resistance of a metre by IEC 60228 class 5") { // C01-C10, exact as tabulated
    const std::pair<double, double> table[] = {{0.5, 39.0e-3},
                                               {0.75, 26.0e-3},
                                               {1, 19.5e-3},
                                               {1.5, 13.3e-3},
                                               {2.5, 7.98e-3},
                                               {4, 4.95e-3},
                                               {6, 3.30e-3},
                                               {10, 1.91e-3},
                                               {16, 1.21e-3},
                                               {25, 0.780e-3}};
    for (const auto& [mm2, ohm] : table) {
        CAPTURE(mm2);
        CHECK(closeRel(copperCable_ohm_per_m(mm2 * 1e-6), ohm, 1e-12, 0.0));
        Loaded loaded(cable(mm2, 1.0), 1e-3);
        CHECK(closeRel(loaded.circuit.reading(loaded.key).voltage_V, ohm * 1e-3, 1e-9, 0.0));
    }
    // Between and beyond the table: falling with area, never below plain copper (C11).
    double before = 1e300;
    for (double mm2 = 0.1; mm2 < 60.0; mm2 *= 1.05) {
        const double r = copperCable_ohm_per_m(mm2 * 1e-6);
        CHECK(r < before);
        CHECK(r > 17.241e-3 / mm2);
        CHECK(r < 1.16 * 17.241e-3 / mm2);
        before = r;
    }
}

TEST_CASE("the resistance rises with temperature") { // C13 at 50, 70, 100 C; C18 within 0.5 %
    const std::pair<double, double> printed[] = {{50.0, 0.893}, {70.0, 0.833}, {100.0, 0.758}};
    for (const auto& [t, factor] : printed) {
        CAPTURE(t);
        Loaded loaded(cable(2.5, 1.0), 1e-3, t + 273.15);
        const double r = loaded.circuit.reading(loaded.key).voltage_V / 1e-3;
        CHECK(closeRel(r, 7.98e-3 * (1.0 + 0.00393 * (t - 20.0)), 1e-9, 0.0));
        CHECK(closeRel(7.98e-3 / r, factor, 5e-3, 0.0));
    }
}

TEST_CASE("C25: heating from 70 to 160 C within the adiabatic time, never sooner") {
    struct Row {
        double mm2, amperes, printed_s;
    };

    for (const Row& row : {Row{0.75, 100, 0.7439}, Row{2.5, 500, 0.3306}, Row{16, 1000, 3.386}}) {
        CAPTURE(row.mm2);
        CHECK(closeRel(115.0 * row.mm2 / row.amperes * 115.0 * row.mm2 / row.amperes,
                       row.printed_s,
                       1e-3,
                       0.0));
        Cable c = cable(row.mm2, 1.0);
        c.sleeveLimit_K = 433.15 - 10.0; // softens, that is, reports, at 160 C
        Loaded loaded(c, row.amperes, 343.15);
        std::vector<Event> events;
        loaded.circuit.advance(3.0 * row.printed_s, events);
        const Event* at160 = firstOf(events, EventKind::SleeveSoftened);
        REQUIRE(at160 != nullptr);
        CHECK(at160->time_s > row.printed_s);
        CHECK(at160->time_s < 1.10 * row.printed_s); // what the sleeve takes meanwhile
    }
}

TEST_CASE("C24: from 20 to 1083 C the copper parts at the adiabatic time") {
    // k 289.8, without the heat of fusion
    Loaded loaded(cable(1.0, 1.0), 1000.0);
    std::vector<Event> events;
    loaded.circuit.advance(0.2, events);
    const Event* parted = firstOf(events, EventKind::CableParted);
    REQUIRE(parted != nullptr);
    CHECK(parted->time_s > 0.2898 * 0.2898);
    CHECK(parted->time_s < 1.02 * 0.2898 * 0.2898);
    CHECK(loaded.circuit.reading(loaded.key).open);
}

TEST_CASE(
    "C40-C43: steady heating in free air") { // LEC conduct: 30 C ambient, 60 C conductor, +-35 %
    const std::pair<double, double> rows[] = {{0.8230, 13}, {2.081, 25}, {5.261, 40}, {21.15, 105}};
    for (const auto& [mm2, amperes] : rows) {
        CAPTURE(mm2);
        Loaded loaded(cable(mm2, 1.0), amperes, 303.15);
        CHECK(closeRel(loaded.after(36000.0).temp_K - 303.15, 30.0, 0.35, 0.0));
    }
}

TEST_CASE("cables against it keep a cable warm") {
    Cable alone = cable(1.0, 1.0), bundled = alone;
    bundled.bundled = 5;
    const double free_K = Loaded(alone, 12.0).after(36000.0).temp_K - 293.15;
    const double kept_K = Loaded(bundled, 12.0).after(36000.0).temp_K - 293.15;
    CHECK(kept_K >
          2.5 * free_K); // the grouping factor 0.57 squared is 1/3.1, and hot copper resists
}

// IEC 60364-5-52 table B.52.17, bunched, from memory: 1 to 9 and more circuits.
TEST_CASE("each cable more in a bundle keeps less of its heat loss, from the ninth on half the load") {
    const double factors[] = {1.0, 0.80, 0.70, 0.65, 0.60, 0.57, 0.54, 0.52, 0.50, 0.50, 0.50};
    const double alone = cableValues(cable(1.0, 1.0)).outer_W_per_K;
    for (unsigned against = 0; against < std::size(factors); ++against) {
        CAPTURE(against);
        Cable bundled = cable(1.0, 1.0);
        bundled.bundled = against;
        const double loss = cableValues(bundled).outer_W_per_K / alone;
        CHECK(closeRel(loss, factors[against] * factors[against], 1e-9, 0.0));
    }
}

TEST_CASE("the sleeve softens, smokes, burns, and the copper parts, in that order") {
    Hand hand;
    hand.add(Battery{1, 0});
    Cable link = cable(10.0, 0.30, 0.5e-3); // Pippin's series link, across its own battery
    const Key key = hand.add(link);
    Circuit circuit(hand.netlist);
    const double at_once_A = circuit.reading(1).current_A;
    CHECK(closeRel(at_once_A, 12.85 / (12e-3 + 1e-3 + 0.3 * 1.91e-3), 1e-6, 0.0));
    const std::vector<Event> events = run(circuit, 30.0);
    const EventKind order[] = {EventKind::BatteryAbused,
                               EventKind::SleeveSoftened,
                               EventKind::SleeveSmoking,
                               EventKind::SleeveBurning,
                               EventKind::CableParted};
    double before_s = -1.0;
    for (EventKind kind : order) {
        const Event* e = firstOf(events, kind);
        CAPTURE(int(kind));
        REQUIRE(e != nullptr);
        CHECK(e->time_s > before_s);
        before_s = e->time_s;
    }
    CHECK(firstOf(events, EventKind::JointHot) == nullptr); // its ends are sound
    CHECK(closeRel(firstOf(events, EventKind::SleeveSoftened)->second, 353.15, 0.0, 0.05)); // C48
    CHECK(closeRel(firstOf(events, EventKind::SleeveSmoking)->second, 473.15, 0.0, 0.05));  // C47
    CHECK(closeRel(firstOf(events, EventKind::SleeveBurning)->second, 663.15, 0.0, 0.05));  // C47
    CHECK(circuit.reading(key).current_A == 0.0);
    CHECK(std::fabs(circuit.reading(1).current_A) < 1e-15);
}

TEST_CASE("a loose end heats and gets worse, a sound one does neither") {
    Cable c = cable(6.0, 0.9, 0.5e-3);
    c.endB.loose = true;
    c.endB.resistance_ohm = 20e-3;
    Loaded loaded(c, 40.0);
    const double fresh_V = loaded.circuit.reading(loaded.key).voltage_V;
    std::vector<Event> events;
    loaded.circuit.advance(120.0, events);
    const Event* hot = firstOf(events, EventKind::JointHot);
    REQUIRE(hot != nullptr);
    CHECK(hot->second > 360.0);
    const double worn_V = loaded.circuit.reading(loaded.key).voltage_V;
    CHECK(worn_V > 1.5 * fresh_V);

    Loaded sound(cable(6.0, 0.9, 0.5e-3), 40.0);
    const double before_V = sound.circuit.reading(sound.key).voltage_V;
    events.clear();
    sound.circuit.advance(120.0, events);
    CHECK(events.empty());
    CHECK(sound.circuit.reading(sound.key).voltage_V <
          1.1 * before_V); // its copper is warm, no more
}

// A battery feeds a thin cable with far too much, through a contact; beside it lies the cable of a
// lamp that is switched off. Everything else is as thick as it should be.
struct Bundle {
    Hand hand;
    Key feed, thin, beside, motor;
    Circuit circuit;

    explicit Bundle(bool tied) : circuit(build(tied).netlist) {}

    Hand& build(bool tied) {
        hand.volt(25.0, 1, 0);
        feed = hand.contact(1, 2, true);
        Cable c = cable(0.75, 1.0, 0.0);
        c.a = 2;
        c.b = 3;
        c.neighbour = tied ? 5 : 0;
        thin = hand.add(c);
        hand.ohm(0.3, 3, 0);
        c = cable(2.5, 1.0, 0.0);
        c.a = 4;
        c.b = 5;
        beside = hand.add(c);
        Motor m;
        m.a = 5;
        m.b = 0;
        motor = hand.add(m);
        return hand;
    }
};

TEST_CASE("a burning cable touches the one it is tied to, and feeds what that one leads to") {
    Bundle tied(true), apart(false);
    std::vector<Event> events, others;
    tied.circuit.setContact(tied.feed, false); // worked by hand before: it must stay so
    tied.circuit.setContact(tied.feed, true);
    tied.circuit.advance(8.0, events);
    apart.circuit.advance(8.0, others);
    const Event *burning = firstOf(events, EventKind::SleeveBurning),
                *touched = firstOf(events, EventKind::CableTouched);
    REQUIRE(burning != nullptr);
    REQUIRE(touched != nullptr);
    CHECK(touched->element == tied.thin);
    CHECK(touched->time_s == burning->time_s);
    const Event* started = firstOf(events, EventKind::MotorStarted);
    REQUIRE(started != nullptr);
    CHECK(started->time_s > touched->time_s);
    CHECK(started->time_s < touched->time_s + 0.01);
    CHECK(firstOf(others, EventKind::SleeveBurning) != nullptr);
    CHECK(firstOf(others, EventKind::CableTouched) == nullptr);
    CHECK(firstOf(others, EventKind::MotorStarted) == nullptr);
    for (std::size_t k = 1; k < events.size(); ++k)
        CHECK(events[k].time_s >= events[k - 1].time_s);
}

TEST_CASE("copper that touches stays so when the wiring changes, until the two are taken apart") {
    Bundle bundle(true);
    std::vector<Event> events;
    while (firstOf(events, EventKind::CableTouched) == nullptr && bundle.circuit.time_s() < 8.0)
        bundle.circuit.advance(0.01, events);
    bundle.circuit.advance(0.5, events);
    const double before_rad_s = bundle.circuit.reading(bundle.motor).speed_rad_s;
    CHECK(before_rad_s > 10.0);
    CHECK(firstOf(events, EventKind::CableParted) == nullptr);
    bundle.circuit.rewire(bundle.hand.netlist);
    CHECK(bundle.circuit.reading(bundle.motor).current_A > 1.0);
    CHECK(closeRel(bundle.circuit.reading(bundle.motor).speed_rad_s, before_rad_s, 1e-6, 0.0));
    Netlist untied = bundle.hand.netlist;
    std::get<Cable>(untied.elements[2].part).neighbour = 0;
    bundle.circuit.rewire(untied);
    bundle.circuit.advance(0.1, events);
    CHECK(std::fabs(bundle.circuit.reading(bundle.motor).current_A) < 1e-9);
}

} // namespace loom::circuit

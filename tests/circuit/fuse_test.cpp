// SPDX-License-Identifier: MIT
#include "network_hand.h"

#include <doctest/doctest.h>

namespace loom::circuit {
namespace {

Fuse fuse(FuseStyle style, double rating_A, double cold_ohm) {
    Fuse f;
    f.a = 1;
    f.b = 0;
    f.style = style;
    f.rating_A = rating_A;
    f.cold_ohm = cold_ohm;
    return f;
}

// Time to open at a steady multiple of the rating; negative when it has not within the limit.
double opensAfter_s(const Fuse& f, double multiple, double limit_s, double heated_s = 0.0) {
    Hand hand;
    hand.add(CurrentSource{0, 1, f.rating_A * multiple});
    hand.add(f);
    Circuit circuit(hand.netlist);
    if (heated_s > 0.0) { // at its rating before
        hand.netlist.elements[0].part = CurrentSource{0, 1, f.rating_A};
        circuit = Circuit(hand.netlist);
        run(circuit, heated_s, heated_s);
        hand.netlist.elements[0].part = CurrentSource{0, 1, f.rating_A * multiple};
        circuit.rewire(hand.netlist);
    }
    std::vector<Event> events;
    circuit.advance(limit_s, events);
    const bool breaker = f.style == FuseStyle::Breaker;
    const Event* opened =
        firstOf(events, breaker ? EventKind::BreakerTripped : EventKind::FuseMelted);
    return opened == nullptr ? -1.0 : opened->time_s - heated_s;
}

struct Window {
    const char* source;
    FuseStyle style;
    double multiple, least_s, greatest_s;
};

} // namespace

TEST_CASE("fuses open inside their windows") {
    // Windows only: a single fuse may sit anywhere inside. F01-F06, F14, F15 are from memory there.
    const Window windows[] = {
        {"F02 ISO 8820-3 type C", FuseStyle::Blade, 1.35, 0.75, 600.0},
        {"F03", FuseStyle::Blade, 1.6, 0.25, 50.0},
        {"F04", FuseStyle::Blade, 2.0, 0.15, 5.0},
        {"F05, upper text's lower end", FuseStyle::Blade, 3.5, 0.08, 0.5},
        {"F06", FuseStyle::Blade, 6.0, 0.02, 0.1},
        {"F14 ISO 8820-5", FuseStyle::Strip, 1.35, 120.0, 1800.0},
        {"F15", FuseStyle::Strip, 2.0, 1.0, 15.0},
        {"F15", FuseStyle::Strip, 3.5, 0.3, 5.0},
        {"F15", FuseStyle::Strip, 6.0, 0.1, 1.0},
        {"F18 Littelfuse fuseology guide p. 12: UL 248-14",
         FuseStyle::Cartridge,
         1.35,
         0.0,
         3600.0},
        {"F18", FuseStyle::Cartridge, 2.0, 0.0, 120.0},
        {"thermal breaker, from memory", FuseStyle::Breaker, 1.35, 10.0, 3600.0},
        {"thermal breaker, from memory", FuseStyle::Breaker, 2.0, 5.0, 30.0},
        {"thermal breaker, from memory", FuseStyle::Breaker, 6.0, 0.4, 2.0},
    };
    for (const Window& w : windows)
        for (double rating : {3.0, 7.5, 50.0}) {
            CAPTURE(w.source);
            CAPTURE(w.multiple);
            const double t =
                opensAfter_s(fuse(w.style, rating, 0.0825 / rating), w.multiple, 4000.0);
            CHECK(t >= w.least_s);
            CHECK(t <= w.greatest_s);
        }
}

TEST_CASE("no fuse opens at its rating, nor a blade at 1.1 times within 100 h") { // F01, F14
    for (FuseStyle style :
         {FuseStyle::Blade, FuseStyle::Strip, FuseStyle::Cartridge, FuseStyle::Breaker})
        CHECK(opensAfter_s(fuse(style, 10.0, 8e-3), 1.0, 100.0 * 3600.0) < 0.0);
    CHECK(opensAfter_s(fuse(FuseStyle::Blade, 10.0, 8e-3), 1.1, 100.0 * 3600.0) < 0.0);
}

TEST_CASE("more current opens sooner, and the energy falls to the adiabatic I2t") {
    const Fuse five = fuse(FuseStyle::Blade, 5.0, 17.9e-3);
    double before_s = 1e300, before_A2s = 1e300;
    for (double multiple : {1.25, 1.35, 1.6, 2.0, 3.5, 6.0, 10.0, 30.0}) {
        CAPTURE(multiple);
        const double t = opensAfter_s(five, multiple, 4000.0), i2t = 25.0 * multiple * multiple * t;
        CHECK(t > 0.0);
        CHECK(t < before_s);
        CHECK(i2t < before_A2s);
        before_s = t;
        before_A2s = i2t;
    }
    CHECK(closeRel(before_A2s, 26.0, 0.25, 0.0)); // F07 (from memory), at 30 times
}

TEST_CASE("resistance and drop of a 5 A blade") { // F07: 17.9 mohm cold, 0.12 V at rating, +-25 %
    Hand hand;
    hand.add(CurrentSource{0, 1, 5.0});
    const Key f = hand.add(fuse(FuseStyle::Blade, 5.0, 17.9e-3));
    Circuit circuit(hand.netlist);
    CHECK(closeRel(circuit.reading(f).voltage_V, 5.0 * 17.9e-3, 1e-6, 0.0));
    run(circuit, 600.0, 600.0);
    CHECK(closeRel(circuit.reading(f).voltage_V, 0.12, 0.25, 0.0));
    CHECK(circuit.reading(f).melting > 0.3);
    CHECK(circuit.reading(f).melting < 0.9);
}

TEST_CASE("a hot fuse opens sooner, and one cools when it is unloaded") {
    const Fuse f = fuse(FuseStyle::Blade, 7.5, 11e-3);
    CHECK(opensAfter_s(f, 2.0, 100.0, 300.0) < 0.7 * opensAfter_s(f, 2.0, 100.0));

    Hand hand;
    hand.volt(1.0, 1, 0);
    const Key on = hand.contact(1, 2, true, 1e-6);
    hand.ohm(0.9 / 7.5, 2, 3);
    Fuse warm = f;
    warm.a = 3;
    const Key key = hand.add(warm);
    Circuit circuit(hand.netlist);
    run(circuit, 60.0, 60.0);
    const double hot = circuit.reading(key).melting;
    circuit.setContact(on, false);
    run(circuit, 5.0, 5.0);
    CHECK(circuit.reading(key).melting < 0.5 * hot);
    run(circuit, 200.0, 200.0);
    CHECK(circuit.reading(key).melting < 1e-3);
}

TEST_CASE("a breaker that is set again conducts, is as hot as before and trips sooner") {
    Hand hand;
    hand.add(CurrentSource{0, 1, 60.0});
    Fuse breaker = fuse(FuseStyle::Breaker, 30.0, 3.3e-3);
    const Key key = hand.add(breaker);
    hand.ohm(1.0, 1, 0); // where the current goes when it is open
    Circuit circuit(hand.netlist);
    std::vector<Event> events;
    circuit.advance(60.0, events);
    const Event* first = firstOf(events, EventKind::BreakerTripped);
    REQUIRE(first);
    const double first_s = first->time_s;
    CHECK(circuit.reading(key).open);
    const double cooled = circuit.reading(key).temp_K;
    CHECK(cooled < 293.15 + 40.0);

    circuit.rewire(hand.netlist); // the handle pushed in: not blown any more
    CHECK_FALSE(circuit.reading(key).open);
    CHECK(circuit.reading(key).temp_K == doctest::Approx(cooled));
    events.clear();
    circuit.advance(60.0, events);
    const Event* second = firstOf(events, EventKind::BreakerTripped);
    REQUIRE(second);
    CHECK(second->time_s - 60.0 < 0.9 * first_s);

    breaker.blown = true; // opened by hand, and it stays so
    hand.netlist.elements[1].part = breaker;
    circuit.rewire(hand.netlist);
    circuit.rewire(hand.netlist);
    CHECK(circuit.reading(key).open);

    const double open_K = circuit.reading(key).temp_K;
    CHECK(open_K > 293.15 + 5.0);
    breaker.blown = false; // set again, it is still the same one
    hand.netlist.elements[1].part = breaker;
    circuit.rewire(hand.netlist);
    CHECK(circuit.reading(key).temp_K == doctest::Approx(open_K));
}

TEST_CASE("a melted fuse says when, at what current, and how long it was overloaded") {
    Hand hand;
    hand.volt(24, 1, 0);
    const Key more = hand.contact(2, 0, false, 1.2); // 20 A
    hand.ohm(4.8, 2, 0);                             // 5 A
    Fuse f = fuse(FuseStyle::Blade, 7.5, 11e-3);
    f.a = 1;
    f.b = 2;
    const Key key = hand.add(f);
    Circuit circuit(hand.netlist);
    run(circuit, 1.0);
    circuit.setContact(more, true);
    run(circuit, 0.1);
    std::get<Contact>(hand.netlist.elements[1].part).closed = true;
    circuit.rewire(hand.netlist); // somebody works elsewhere on the bench meanwhile
    const std::vector<Event> events = run(circuit, 5.0);
    const Event* melted = firstOf(events, EventKind::FuseMelted);
    REQUIRE(melted != nullptr);
    CHECK(melted->element == key);
    CHECK(closeRel(melted->first, 24.0 / 0.96, 0.03, 0.0));
    CHECK(closeRel(melted->second, melted->time_s - 1.0, 0.0, 0.02));
    CHECK(circuit.reading(key).open);
    CHECK(circuit.reading(key).melting == 1.0);
    CHECK(circuit.reading(key).current_A == 0.0);
    REQUIRE(circuit.voltage_V(1, 2)); // it has all of the supply's across it
    CHECK(closeRel(*circuit.voltage_V(1, 2), 24.0, 1e-9, 0.0));
}

TEST_CASE("a new fuse in its place is cold") {
    Hand hand;
    hand.volt(24, 1, 0);
    hand.ohm(1.2, 1, 2);
    Fuse f = fuse(FuseStyle::Blade, 7.5, 11e-3);
    f.a = 2;
    const Key key = hand.add(f);
    Circuit circuit(hand.netlist);
    run(circuit, 1.0);
    CHECK(circuit.reading(key).open);
    std::get<Fuse>(hand.netlist.elements.back().part).blown = true;
    circuit.rewire(hand.netlist); // the bench has taken note
    CHECK(circuit.reading(key).open);
    std::get<Fuse>(hand.netlist.elements.back().part).blown = false;
    circuit.rewire(hand.netlist); // and then been given a new blade
    CHECK(!circuit.reading(key).open);
    CHECK(circuit.reading(key).melting < 0.05);
}

} // namespace loom::circuit

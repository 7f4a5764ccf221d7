// SPDX-License-Identifier: MIT
#include "attempt/hand.h"

#include <cmath>

using namespace loom;
using namespace loom::attempt;
using namespace loom::attempt::test;

TEST_CASE("an empty bench and a battery alone are not live") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    CHECK_FALSE(attempt.supply().batteryOut);
    hand.lay("B1", 0.3, 0.5);
    hand.wait(0.1);
    CHECK(attempt.supply().batteryOut);
    CHECK_FALSE(attempt.supply().live);
    CHECK(attempt.supply().current_A == 0.0);
}

TEST_CASE("a terminal that a battery feeds makes the bench live") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.wait(0.1);
    const Supply open = attempt.supply();
    CHECK(open.live);
    CHECK(open.voltage_V == doctest::Approx(12.85).epsilon(0.01)); // PIPPIN: full, no load
    CHECK(open.current_A == doctest::Approx(0.0).epsilon(1e-3));
    hand.set("S4", 1);
    hand.wait(1.0);
    CHECK(attempt.supply().current_A ==
          doctest::Approx(attempt.reading(hand.part("E1")).current_A).epsilon(1e-3));
    hand.does(bench::RemovePart{hand.part("B1")});
    hand.wait(0.1);
    CHECK_FALSE(attempt.supply().live);
    CHECK_FALSE(attempt.supply().batteryOut);
}

TEST_CASE("a series pair counts once, a parallel pair together") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.8);
    hand.lay("B2", 0.6, 0.8);
    hand.lay("R1", 0.5, 0.3);
    const auto lamp = hand.terminal("R1", "in"), back = hand.terminal("R1", "out");
    SUBCASE("series") {
        hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("B2", "minus"), 10);
        hand.cut("W-2", hand.terminal("B2", "plus"), lamp);
        hand.cut("W-3", hand.terminal("B1", "minus"), back);
        hand.wait(0.1);
        CHECK(attempt.supply().voltage_V == doctest::Approx(25.6).epsilon(0.02));
    }
    SUBCASE("parallel") {
        hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("B2", "plus"), 10);
        hand.cut("W-2", hand.terminal("B1", "minus"), hand.terminal("B2", "minus"), 10);
        hand.cut("W-3", hand.terminal("B1", "plus"), lamp);
        hand.cut("W-4", hand.terminal("B2", "minus"), back);
        hand.wait(0.1);
        CHECK(attempt.supply().voltage_V == doctest::Approx(12.8).epsilon(0.02));
    }
    const double load_A = std::fabs(attempt.reading(hand.part("R1")).current_A);
    CHECK(load_A > 1.0);
    CHECK(attempt.supply().current_A == doctest::Approx(load_A).epsilon(1e-3));
}

TEST_CASE("a battery bridged by its own link shows its current") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.5);
    hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("B1", "minus"), 10);
    hand.wait(0.1);
    CHECK(attempt.supply().current_A > 300.0);
    CHECK(attempt.supply().current_A ==
          doctest::Approx(attempt.reading(hand.part("B1")).current_A));
}

TEST_CASE("what hangs on a battery is live before any current flows") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.5);
    SUBCASE("the terminal of a part that carries nothing to a load") {
        hand.lay("F2", 0.3, 0.3);
        hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("F2", "in"));
        hand.wait(0.1);
        CHECK(attempt.supply().battery == hand.part("B1"));
        CHECK_FALSE(attempt.supply().looseAt);
    }
    SUBCASE("the loose end of a cable") {
        hand.lay("F2", 0.3, 0.3);
        hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("F2", "in"));
        hand.does(bench::FreeEnd{hand.cable("W-1").id, 1, {0.5, 0.5}});
        hand.wait(0.1);
        CHECK(attempt.supply().looseAt == hand.cable("W-1").id);
    }
    CHECK(attempt.supply().live);
    CHECK(attempt.supply().voltage_V == doctest::Approx(12.85).epsilon(0.01));
    CHECK(attempt.supply().current_A < 1e-3);
    CHECK(attempt.supply().danger.harm == Harm::None);
}

TEST_CASE("voltage that ends at the isolator is not said of the block behind it") {
    Attempt attempt(builtInBench("pippin"));
    Hand hand(attempt);
    hand.wait(0.1);
    const Supply off = attempt.supply();
    CHECK(off.live);
    CHECK(off.voltage_V == doctest::Approx(25.7).epsilon(0.01));
    CHECK_FALSE(off.at);
    CHECK_FALSE(off.battery); // both
    CHECK(off.dead == hand.part("X1"));
    hand.set("Q1", 1);
    hand.set("Q1", 2);
    hand.wait(0.1);
    const Supply on = attempt.supply();
    CHECK(on.at == hand.part("X1"));
    CHECK_FALSE(on.dead);
}

TEST_CASE("a reversed link leaves the block without voltage of its own, but the bench live") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.8);
    hand.lay("B2", 0.6, 0.8);
    hand.lay("Q1", 0.9, 0.8);
    hand.lay("X1", 0.6, 0.3);
    hand.cut("W-1", hand.terminal("B1", "minus"), hand.terminal("X1", "10 lower"), 10);
    hand.cut("W-2", hand.terminal("B1", "plus"), hand.terminal("B2", "plus"), 10);
    hand.cut("W-3", hand.terminal("B2", "minus"), hand.terminal("Q1", "in"), 10);
    hand.cut("W-4", hand.terminal("Q1", "out"), hand.terminal("X1", "1 lower"), 10);
    hand.set("Q1", 1);
    hand.set("Q1", 2);
    hand.wait(0.1);
    const Supply supply = attempt.supply();
    const auto across_V =
        attempt.voltage_V(hand.terminal("X1", "1 lower"), hand.terminal("X1", "10 lower"));
    REQUIRE(across_V);
    CHECK(std::fabs(*across_V) < 0.01);
    CHECK(supply.live);
    CHECK(supply.voltage_V == doctest::Approx(12.85).epsilon(0.01)); // each way against a plus
    CHECK(supply.dead == hand.part("X1"));
}

TEST_CASE("danger names a battery that is shorted, alone or in a ring") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.5);
    hand.lay("B2", 0.6, 0.5);
    SUBCASE("by one cable") {
        hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("B1", "minus"), 10);
    }
    SUBCASE("by a reversed link and its neighbour") {
        hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("B2", "minus"), 10);
        hand.cut("W-2", hand.terminal("B2", "plus"), hand.terminal("B1", "minus"), 10);
    }
    hand.wait(0.1);
    const Supply supply = attempt.supply();
    CHECK(supply.danger.harm == Harm::Shorted);
    CHECK(bench::findPart(hand.bench(), supply.danger.battery));
    CHECK(supply.danger.figure > 300.0);
    CHECK(supply.danger.figure ==
          doctest::Approx(attempt.reading(supply.danger.battery).current_A));
}

TEST_CASE("danger names the battery that another drives current into, not one that is as full") {
    for (const double charge : {0.2, 1.0}) {
        CAPTURE(charge);
        bench::Bench start = builtInBench("free");
        for (bench::PartSlot& slot : start.kit.parts)
            if (slot.ref == "B2") slot.charge = charge;
        Attempt attempt(start);
        Hand hand(attempt);
        hand.lay("B1", 0.3, 0.5);
        hand.lay("B2", 0.6, 0.5);
        hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("B2", "plus"), 10);
        hand.cut("W-2", hand.terminal("B1", "minus"), hand.terminal("B2", "minus"), 10);
        hand.wait(0.1);
        const Danger danger = attempt.supply().danger;
        CHECK(attempt.supply().live == (charge < 1.0));
        CHECK((danger.harm == Harm::Charged) == (charge < 1.0));
        if (danger.harm != Harm::Charged) continue;
        CHECK(danger.battery == hand.part("B2"));
        CHECK(danger.figure == doctest::Approx(-attempt.reading(hand.part("B2")).current_A));
    }
}

TEST_CASE("danger names a cable that cannot bear its current, and then its heat") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.8);
    hand.lay("M1", 0.9, 0.4);
    const auto joins = [&](double mm2) {
        hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("M1", "lead 1"), mm2);
        hand.cut("W-2", hand.terminal("M1", "lead 2"), hand.terminal("B1", "minus"), 10);
    };
    SUBCASE("the start of a motor through a sufficient one is none") {
        joins(10);
        hand.wait(0.02);
        CHECK(attempt.reading(hand.part("M1")).current_A > 20.0);
        CHECK(attempt.supply().danger.harm == Harm::None);
    }
    SUBCASE("a motor held fast through a thin one") {
        joins(1);
        bench::Bench jammed = attempt.bench();
        jammed.parts.back().obstructed = true;
        attempt = Attempt(jammed);
        hand.wait(0.2);
        Danger danger = attempt.supply().danger;
        CHECK(danger.harm == Harm::Overloaded);
        CHECK(danger.cable == hand.cable("W-1").id);
        CHECK(danger.figure == doctest::Approx(attempt.reading(danger.cable).current_A));
        Harm worst = danger.harm;
        for (int i = 0; i < 600 && worst != Harm::Smoking; ++i) {
            hand.wait(0.1);
            danger = attempt.supply().danger;
            REQUIRE(danger.harm <= worst); // only graver
            REQUIRE(danger.harm != Harm::None);
            worst = danger.harm;
        }
        CHECK(worst == Harm::Smoking);
        CHECK(danger.figure == doctest::Approx(attempt.reading(danger.cable).temp_K));
        CHECK(danger.figure > 343.15 + 130.0);
    }
}

TEST_CASE("a meter that measures resistance makes nothing live") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("S4", 0.3, 0.8);
    hand.does(bench::PlaceMeter{{0.5, 0.5}});
    hand.does(bench::SetMeter{bench::MeterRange::Ohms});
    hand.does(bench::Probe{0, {hand.terminal("S4", "in"), {}, 0}});
    hand.does(bench::Probe{1, {hand.terminal("S4", "out"), {}, 0}});
    hand.wait(0.1);
    CHECK_FALSE(attempt.supply().live); // 1.5 V of the meter's own stand across S4
}

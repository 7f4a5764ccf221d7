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

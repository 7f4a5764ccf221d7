// SPDX-License-Identifier: MIT
// What follows from how an end was made: one case a rule.
#include "handmade.h"

namespace loom::bench {
namespace {

// W-1 from X1 3 upper (a bare end, 1 mm2) to X1 5 upper.
Bench clampCable() {
    const Bench bench = handsOn();
    return cut(bench, terminal(bench, "X1", "3 upper"), terminal(bench, "X1", "5 upper"));
}

EndState clampEnd(const Making& making) {
    const Bench bench = made(clampCable(), 0, making);
    return stateOf(bench, cable(bench), 0);
}

// W-1 from B1 plus (ring M6) to Q1 in (ring M8).
Bench studCable() {
    const Bench bench = handsOn();
    return cut(bench, terminal(bench, "B1", "plus"), terminal(bench, "Q1", "in"));
}

EndState studEnd(int end, const Making& making) {
    const Bench bench = made(studCable(), end, making);
    return stateOf(bench, cable(bench), end);
}

} // namespace

TEST_CASE("an end in a clamp is worth what was done to it") {
    struct Row {
        const char* rule;
        const char* source;
        Making making;
        std::vector<EndFault> faults;
        bool touches, holds, loose;
        double most_ohm, least_ohm;
    };

    const char* const practice = "common practice, no source";
    using F = EndFault;
    const Row rows[] = {
        {"10 mm bare, twisted, pushed home, 0.5 N m",
         "common practice (10 mm); IEC 60999-1 (M3 0.5 N m) and 1 mohm or less, from memory",
         {},
         {},
         true,
         true,
         false,
         1e-3,
         0.1e-3},
        {"not stripped: it touches nothing",
         practice,
         {0.0, 0.01},
         {F::NotStripped},
         false,
         true,
         false,
         1.0,
         0.0},
        {"stripped too short: not held",
         "common practice: 10 mm",
         {0.005, 0.005},
         {F::StripTooShort, F::NotPushedIn},
         true,
         false,
         true,
         1.0,
         5e-3},
        {"stripped too long: copper shows",
         "common practice: none showing",
         {0.014, 0.01},
         {F::StripTooLong},
         true,
         true,
         false,
         1e-3,
         0.0},
        {"not twisted: a strand stands out",
         "common practice: twisted",
         {0.01, 0.01, false},
         {F::StrandOut},
         true,
         true,
         false,
         1e-3,
         0.0},
        {"not far enough in: the screw misses it",
         practice,
         {0.01, 0.005},
         {F::NotPushedIn},
         true,
         false,
         true,
         1.0,
         10e-3},
        {"not pushed in at all",
         practice,
         {0.01, 0.0},
         {F::NotPushedIn},
         false,
         false,
         true,
         1.0,
         0.0},
        {"a little too far: the screw bites on the sleeve",
         "common practice: copper under the screw",
         {0.01, 0.014},
         {F::OnSleeve},
         true,
         true,
         false,
         1e3,
         1.0},
        {"all too far: nothing but sleeve under the screw",
         "common practice: copper under the screw",
         {0.01, 0.02},
         {F::OnSleeve},
         false,
         true,
         false,
         1e3,
         1.0},
        {"the screw never tightened",
         practice,
         {0.01, 0.01, true, true, 0.0},
         {F::ScrewOpen},
         true,
         false,
         true,
         1.0,
         10e-3},
        {"tightened too little: it heats",
         "IEC 60999-1, from memory, less 20 %",
         {0.01, 0.01, true, true, 0.35},
         {F::ScrewLoose},
         true,
         true,
         true,
         1.0,
         2e-3},
        {"hardly tightened: it pulls out too",
         practice,
         {0.01, 0.01, true, true, 0.1},
         {F::ScrewLoose},
         true,
         false,
         true,
         1.0,
         2e-3},
        {"tightened too far: strands cut",
         "IEC 60999-1, from memory, and 20 %",
         {0.01, 0.01, true, true, 0.7},
         {F::ScrewTight},
         true,
         true,
         false,
         1e-3,
         0.6e-3},
        {"and beyond: broken",
         practice,
         {0.01, 0.01, true, true, 1.2},
         {F::ScrewBroken},
         true,
         false,
         true,
         1.0,
         10e-3},
    };
    for (const Row& row : rows) {
        CAPTURE(row.rule);
        CAPTURE(row.source);
        const EndState state = clampEnd(row.making);
        CHECK((state.faults == row.faults));
        CHECK(state.touches == row.touches);
        CHECK(state.holds == row.holds);
        CHECK(state.loose == row.loose);
        CHECK(state.resistance_ohm <= row.most_ohm);
        CHECK(state.resistance_ohm >= row.least_ohm);
    }
}

TEST_CASE(
    "bare copper shows by what is not in the clamp, and long enough it lies on the next way") {
    const EndState some = clampEnd({0.014, 0.01});
    CHECK(some.copperShows_m == doctest::Approx(0.004));
    CHECK_FALSE(some.copperOn);
    const Bench bench = made(clampCable(), 0, {0.025, 0.01});
    const EndState much = stateOf(bench, cable(bench), 0);
    CHECK(much.copperShows_m == doctest::Approx(0.015));
    REQUIRE(much.copperOn);
    const std::string way = terminalName(bench, *much.copperOn);
    CHECK((way == "X1 2 upper" || way == "X1 4 upper"));
}

TEST_CASE("a strand that stands out reaches the neighbouring way, not the same metal") {
    const Bench bench = made(clampCable(), 0, {0.01, 0.01, false});
    const EndState state = stateOf(bench, cable(bench), 0);
    REQUIRE(state.strandOn);
    const std::string way = terminalName(bench, *state.strandOn);
    CHECK((way == "X1 2 upper" || way == "X1 4 upper"));
    // A battery's posts are too far apart for a strand.
    const Bench studs = made(studCable(), 0, {0.007, 0.0, false, true, 2.5});
    CHECK(has(stateOf(studs, cable(studs), 0), EndFault::StrandOut));
    CHECK_FALSE(stateOf(studs, cable(studs), 0).strandOn);
}

TEST_CASE("a nut on a stud: open, loose, right, too tight, broken") {
    struct Row {
        const char* source;
        int end; // 0 M6, 1 M8
        double torque_Nm;
        std::vector<EndFault> faults;
    };

    const Row rows[] = {
        {"Omron 3G3FV-CE manual p. 2-25: M6 2.5 N m", 0, 2.5, {}},
        {"Omron 3G3FV-CE manual p. 2-25: M8 6.0 N m", 1, 6.0, {}},
        {"20 % less, the table's own tolerance", 0, 2.05, {}},
        {"20 % more", 1, 7.1, {}},
        {"too little", 0, 1.5, {EndFault::ScrewLoose}},
        {"an M6 torque on an M8", 1, 2.5, {EndFault::ScrewLoose}},
        {"an M8 torque on an M6 breaks it (common practice, no source)",
         0,
         6.0,
         {EndFault::ScrewBroken}},
        {"too much", 1, 9.0, {EndFault::ScrewTight}},
        {"not put on", 1, 0.0, {EndFault::ScrewOpen}},
    };
    for (const Row& row : rows) {
        CAPTURE(row.source);
        Making making{0.007, 0.0, true, true, row.torque_Nm};
        const EndState state = studEnd(row.end, making);
        CHECK((state.faults == row.faults));
        const bool rightOrTight = row.faults.empty() || row.faults[0] == EndFault::ScrewTight;
        CHECK(state.loose == !rightOrTight);
    }
}

TEST_CASE("a fitting that was not pressed on pulls out and resists; pressed too short it slips") {
    const EndState slipped = studEnd(0, {0.007, 0.0, true, false, 2.5});
    CHECK((slipped.faults == std::vector<EndFault>{EndFault::NotPressed}));
    CHECK_FALSE(slipped.holds);
    CHECK(slipped.resistance_ohm > 10e-3);
    const EndState shortBarrel = studEnd(0, {0.003, 0.0, true, true, 2.5});
    CHECK((shortBarrel.faults == std::vector<EndFault>{EndFault::StripTooShort}));
    CHECK_FALSE(shortBarrel.holds);
    const EndState longBarrel = studEnd(0, {0.012, 0.0, true, true, 2.5});
    CHECK((longBarrel.faults == std::vector<EndFault>{EndFault::StripTooLong}));
    CHECK(longBarrel.copperShows_m == doctest::Approx(0.005));
}

TEST_CASE("a spade has to be pushed home") {
    const Bench start = handsOn();
    const Bench bench = cut(start, terminal(start, "S4", "in"), terminal(start, "S4", "out"));
    const auto pushed = [&](double pushed_m) {
        const Bench after = made(bench, 0, {0.007, pushed_m, true, true, 0.0});
        return stateOf(after, cable(after), 0);
    };
    CHECK(pushed(0.008).faults.empty());
    CHECK(pushed(0.02).faults.empty()); // it cannot go further than home
    const EndState half = pushed(0.004);
    CHECK((half.faults == std::vector<EndFault>{EndFault::NotPushedIn}));
    CHECK(half.touches);
    CHECK(half.loose);
    CHECK_FALSE(half.holds);
    CHECK_FALSE(pushed(0.0).touches);
}

TEST_CASE("of two ends in one hole the one that is not as far in is missed by the screw") {
    Bench bench = clampCable();
    const TerminalRef hole = terminal(bench, "X1", "3 upper");
    bench = cut(bench, hole, terminal(bench, "X1", "7 upper"), "W-2");
    bench = made(bench, 0, {0.01, 0.012, true, true, 0.0});
    bench = made(bench, 0, {0.01, 0.009, true, true, 0.5}, "W-2");
    CHECK(stateOf(bench, cable(bench), 0).faults.empty());
    const EndState missed = stateOf(bench, cable(bench, "W-2"), 0);
    CHECK((missed.faults == std::vector<EndFault>{EndFault::NotPushedIn}));
    CHECK_FALSE(missed.holds);
    bench = done(bench, TurnScrew{hole, 0.0});
    bench = done(bench, PushEnd{cable(bench, "W-2").id, 0, 0.011});
    bench = done(bench, TurnScrew{hole, 0.5});
    CHECK(stateOf(bench, cable(bench, "W-2"), 0).faults.empty());
}

TEST_CASE("the right figures make a good end of every kind and size") {
    const double areas_m2[] = {0.75e-6, 1e-6, 2.5e-6, 4e-6, 6e-6, 10e-6, 16e-6, 25e-6};
    for (const EndKind kind : {EndKind::Bare,
                               EndKind::Ferrule,
                               EndKind::RingM6,
                               EndKind::RingM8,
                               EndKind::Spade,
                               EndKind::Piggyback}) {
        for (const double area_m2 : areas_m2) {
            CAPTURE(word(kind));
            CAPTURE(area_m2);
            const EndTarget target = targetFor(kind, area_m2);
            CHECK(target.stripLeast_m < target.strip_m);
            CHECK(target.strip_m < target.stripMost_m);
            CHECK(target.pushedLeast_m <= target.pushed_m);
            CHECK(target.pushed_m <= target.pushedMost_m);
            Bench bench;
            Cable loose;
            loose.area_m2 = area_m2;
            loose.ends[0].kind = kind;
            loose.ends[0].make = wellMade(kind, area_m2, true);
            CHECK(stateOf(bench, loose, 0).faults.empty());
            loose.ends[0].make->strip_m = target.stripLeast_m - 0.0005;
            CHECK(has(stateOf(bench, loose, 0), EndFault::StripTooShort));
            loose.ends[0].make->strip_m = target.stripMost_m + 0.0005;
            CHECK(has(stateOf(bench, loose, 0), EndFault::StripTooLong));
        }
    }
}

TEST_CASE("which cables are made by hand") {
    Bench bench;
    CHECK_FALSE(isHandmade(bench, "P-01"));
    bench.kit.handmade = {"P-01"};
    CHECK(isHandmade(bench, "P-01"));
    CHECK_FALSE(isHandmade(bench, "P-02"));
    bench.kit.handmade = {"*"};
    CHECK(isHandmade(bench, "P-02"));
}

} // namespace loom::bench

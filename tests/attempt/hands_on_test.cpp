// SPDX-License-Identifier: MIT
// Ends made by hand, obstructed axles and ties, with the circuit that follows from them.
#include "attempt/hand.h"
#include "attempt/record_file.h"
#include "bench/ends.h"

#include <cmath>

using namespace loom;
using namespace loom::attempt;
using namespace loom::attempt::test;

namespace {

// The lamp bench on the way through X1: B1 plus - W-1 - X1 3 - W-2 - E1 - W-3 - B1 minus, with W-1
// made by hand: its ring well, its end in X1 as nothing yet.
void wireBlock(Hand& hand) {
    hand.lay("B1", 0.3, 0.8);
    hand.lay("X1", 0.8, 0.8);
    hand.lay("E1", 0.9, 0.4);
    hand.does(bench::TurnScrew{hand.terminal("X1", "3 upper"), 0.0});
    hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("X1", "3 upper"));
    hand.does(bench::MakeEndWell{hand.cable("W-1").id, 0});
    hand.cut("W-2", hand.terminal("X1", "3 lower"), hand.terminal("E1", "in"));
    hand.cut("W-3", hand.terminal("E1", "out"), hand.terminal("B1", "minus"));
}

bench::Bench handmadeBench() {
    bench::Bench bench = builtInBench("free");
    bench.kit.handmade = {"W-1"};
    return bench;
}

void makeEnd(Hand& hand, double strip_m, double pushed_m, bool twist, double torque_Nm) {
    const auto id = hand.cable("W-1").id;
    const auto hole = hand.terminal("X1", "3 upper");
    hand.does(bench::TurnScrew{hole, 0.0});
    hand.does(bench::StripEnd{id, 1, strip_m});
    if (twist) hand.does(bench::TwistEnd{id, 1});
    hand.does(bench::PushEnd{id, 1, pushed_m});
    hand.does(bench::TurnScrew{hole, torque_Nm});
}

double lamp_A(const Attempt& attempt, const Hand& hand) {
    return attempt.reading(hand.part("E1")).current_A;
}

} // namespace

TEST_CASE("the lamp lights through an end made well and not through one that is not") {
    Attempt attempt(handmadeBench());
    Hand hand(attempt);
    wireBlock(hand);
    hand.wait(0.5);
    CHECK(std::fabs(lamp_A(attempt, hand)) < 1e-6); // nothing is pushed in
    makeEnd(hand, 0.01, 0.01, true, 0.5);
    hand.wait(1.0);
    const double good_A = lamp_A(attempt, hand);
    CHECK(good_A > 0.5);
    makeEnd(hand, 0.01, 0.014, true, 0.5); // the screw bites on the sleeve
    hand.wait(1.0);
    CHECK(lamp_A(attempt, hand) < 0.9 * good_A);
    makeEnd(hand, 0.01, 0.02, true, 0.5);
    hand.wait(1.0);
    CHECK(std::fabs(lamp_A(attempt, hand)) < 1e-6);
}

TEST_CASE("a loose nut heats and gets worse while current flows") {
    Attempt attempt(handmadeBench());
    Hand hand(attempt);
    wireBlock(hand);
    makeEnd(hand, 0.01, 0.01, true, 0.5);
    hand.does(bench::TurnScrew{hand.terminal("B1", "plus"), 1.2});
    CHECK(bench::stateOf(attempt.bench(), hand.cable("W-1"), 0).loose);
    hand.wait(1.0);
    const auto before = attempt.reading(hand.cable("W-1").id);
    hand.wait(60.0);
    const auto after = attempt.reading(hand.cable("W-1").id);
    CHECK(after.voltage_V / after.current_A > before.voltage_V / before.current_A);
}

TEST_CASE("a strand onto the negative way shorts, burns off, and the end then counts as twisted") {
    Attempt attempt(handmadeBench());
    Hand hand(attempt);
    wireBlock(hand);
    // The neighbouring ways on both sides belong to the negative.
    hand.cut("W-4", hand.terminal("X1", "2 lower"), hand.terminal("B1", "minus"));
    hand.cut("W-5", hand.terminal("X1", "4 lower"), hand.terminal("B1", "minus"));
    makeEnd(hand, 0.01, 0.01, false, 0.5);
    const auto entries = attempt.record().entries.size();
    hand.wait(1.0);
    REQUIRE(hand.cable("W-1").ends[1].make);
    CHECK(hand.cable("W-1").ends[1].make->twisted);
    CHECK(attempt.record().entries.size() == entries + 1);
    bool told = false;
    for (const BenchEvent& event : attempt.events())
        told |= event.strandEnd == 1 && event.name == "W-1";
    CHECK(told);
    CHECK(hand.cable("W-1").condition == bench::CableCondition::Sound);
    hand.wait(1.0);
    CHECK(lamp_A(attempt, hand) > 0.5);
    const auto replayed = replay(attempt.record());
    REQUIRE(replayed);
    CHECK(replayed.value().stateHash() == attempt.stateHash());
    const auto resumed = resume(attempt.record());
    REQUIRE(resumed);
    CHECK(sameThings(resumed.value().bench(), attempt.bench()));
}

TEST_CASE("bare copper that reaches the negative way is a short that stays") {
    Attempt attempt(handmadeBench());
    Hand hand(attempt);
    wireBlock(hand);
    hand.cut("W-4", hand.terminal("X1", "2 lower"), hand.terminal("B1", "minus"));
    hand.cut("W-5", hand.terminal("X1", "4 lower"), hand.terminal("B1", "minus"));
    makeEnd(hand, 0.025, 0.01, true, 0.5);
    hand.wait(0.5);
    CHECK(attempt.reading(hand.cable("W-1").id).current_A > 50.0);
}

TEST_CASE("an obstructed axle cannot turn; that is no step and is taken up again in a replay") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.3);
    hand.lay("M1", 0.8, 0.7);
    hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("M1", "lead 1"), 6.0);
    hand.cut("W-2", hand.terminal("M1", "lead 2"), hand.terminal("B1", "minus"), 6.0);
    hand.wait(2.0);
    CHECK(attempt.reading(hand.part("M1")).speed_rad_s > 50.0);
    hand.does(bench::ObstructAxle{hand.part("M1"), true, hand.cable("W-2").id});
    hand.wait(1.0);
    CHECK(attempt.reading(hand.part("M1")).speed_rad_s == 0.0);
    CHECK(attempt.reading(hand.part("M1")).current_A > 25.0);
    hand.does(Undo{}); // W-2, not the obstruction
    CHECK(attempt.bench().cables.size() == 1);
    CHECK(bench::findPart(attempt.bench(), hand.part("M1"))->obstructed);
    hand.does(Redo{});
    hand.does(bench::ObstructAxle{hand.part("M1"), false, {}});
    hand.wait(2.0);
    CHECK(attempt.reading(hand.part("M1")).speed_rad_s > 50.0);
    CHECK(attempt.ask(bench::ObstructAxle{hand.part("B1"), true, {}}));
    const auto replayed = replay(attempt.record());
    REQUIRE(replayed);
    CHECK(replayed.value().stateHash() == attempt.stateHash());
}

TEST_CASE("steps of making an end can be undone and done again") {
    Attempt attempt(handmadeBench());
    Hand hand(attempt);
    wireBlock(hand);
    const auto id = hand.cable("W-1").id;
    const auto hole = hand.terminal("X1", "3 upper");
    const Command steps[] = {bench::StripEnd{id, 1, 0.01},
                             bench::TwistEnd{id, 1},
                             bench::PressEnd{id, 1, bench::EndKind::Ferrule},
                             bench::PushEnd{id, 1, 0.01},
                             bench::TurnScrew{hole, 0.3},
                             bench::TurnScrew{hole, 3.0},
                             bench::MendScrew{hole},
                             bench::TugEnd{id, 1},
                             bench::TieCable{id, 0.5, {}, 0.5, {0.5, 0.5}},
                             bench::MakeEndWell{id, 1},
                             bench::Operate{hand.part("B1"), 1}};
    std::vector<bench::Bench> states{attempt.bench()};
    for (const Command& step : steps) {
        hand.does(step);
        CHECK_FALSE(sameThings(attempt.bench(), states.back()));
        states.push_back(attempt.bench());
    }
    for (std::size_t i = states.size() - 1; i-- > 0;) {
        CAPTURE(i);
        hand.does(Undo{});
        CHECK(sameThings(attempt.bench(), states[i]));
    }
    for (std::size_t i = 1; i < states.size(); ++i) {
        hand.does(Redo{});
        CHECK(sameThings(attempt.bench(), states[i]));
    }
}

TEST_CASE("names that are none are refused and not recorded") {
    Attempt attempt(builtInBench("free"));
    const Command commands[] = {MarkOff{"", SheetMark::Right},
                                MarkOff{std::string(25, 'x'), SheetMark::Right},
                                LookAt{"a\nb", 0},
                                LookAt{"W-1", 2},
                                NameFault{"W-1", -2},
                                bench::WearEnd{{1}, 0},
                                bench::WearMeter{}};
    for (const Command& command : commands) {
        CAPTURE(command.index());
        CHECK(attempt.ask(command));
    }
    CHECK(attempt.record().entries.empty());
}

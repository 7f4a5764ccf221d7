// SPDX-License-Identifier: MIT
#include "attempt/hand.h"

#include <vector>

using namespace loom;
using namespace loom::attempt;
using namespace loom::attempt::test;

namespace {

// One step of each kind, on the bench as the steps before it left it.
std::vector<std::pair<const char*, Command>> everyStep(const Hand& hand) {
    const auto freeCable = hand.cable("W-4").id;
    return {{"lay", bench::LayPart{"P1", {1.2, 0.5}, 1}},
            {"move", bench::MovePart{hand.part("E1"), {0.95, 0.6}}},
            {"turn", bench::TurnPart{hand.part("F2"), 3}},
            {"make a cable",
             bench::MakeCable{hand.terminal("E1", "in"),
                              hand.terminal("S4", "out"),
                              1e-6,
                              bench::Sleeve::Black,
                              0.0,
                              ""}},
            {"free an end", bench::FreeEnd{freeCable, 1, {0.5, 0.9}}},
            {"join an end", bench::JoinEnd{freeCable, 1, hand.terminal("B1", "minus")}},
            {"change a cable",
             bench::ChangeCable{hand.cable("W-1").id, 2.5e-6, bench::Sleeve::Black, 0.7, "main"}},
            {"remove a cable", bench::RemoveCable{hand.cable("W-2").id}},
            {"fit a fuse", bench::FitFuse{hand.part("F2"), 10.0}},
            {"operate a switch", bench::Operate{hand.part("S4"), 1}},
            {"remove a part", bench::RemovePart{hand.part("B1")}}};
}

} // namespace

TEST_CASE("every step can be undone and done again, in order") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    std::vector<bench::Bench> states{attempt.bench()};
    const auto steps = everyStep(hand);
    for (const auto& [name, command] : steps) {
        CAPTURE(name);
        hand.does(command);
        CHECK_FALSE(sameThings(attempt.bench(), states.back()));
        states.push_back(attempt.bench());
    }
    for (std::size_t i = steps.size(); i-- > 0;) {
        CAPTURE(steps[i].first);
        hand.does(Undo{});
        CHECK(sameThings(attempt.bench(), states[i]));
    }
    for (std::size_t i = 0; i < steps.size(); ++i) {
        CAPTURE(steps[i].first);
        hand.does(Redo{});
        CHECK(sameThings(attempt.bench(), states[i + 1]));
    }
    CHECK_FALSE(attempt.canRedo());
}

TEST_CASE("taking a ready-made cable and giving it back can be undone") {
    Attempt attempt(builtInBench("pippin"));
    Hand hand(attempt);
    const bench::Bench whole = attempt.bench();
    hand.does(bench::RemoveCable{hand.cable("P-06").id});
    const bench::Bench without = attempt.bench();
    hand.does(bench::TakeCable{"P-06", {0.5, 0.5}, {0.6, 0.6}});
    hand.does(Undo{});
    CHECK(sameThings(attempt.bench(), without));
    hand.does(Undo{});
    CHECK(sameThings(attempt.bench(), whole));
}

TEST_CASE("the slot a removed part made in the tray goes with the undo") {
    bench::Bench start = builtInBench("pippin");
    start.kit = {};
    Attempt attempt(start);
    Hand hand(attempt);
    hand.does(bench::RemovePart{hand.part("E1")});
    REQUIRE(attempt.bench().kit.parts.size() == 1);
    hand.does(Undo{});
    CHECK(attempt.bench().kit.parts.empty());
    hand.does(Redo{});
    CHECK(attempt.bench().kit.parts.size() == 1);
    hand.lay("E1", 1.6, 0.2);
}

TEST_CASE("undo reaches back to the beginning and stops there with a reason") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    const bench::Bench empty = attempt.bench();
    CHECK_FALSE(attempt.canUndo());
    for (int i = 0; i < 500; ++i)
        hand.does(i ? Command(bench::MovePart{hand.part("B1"), {0.3 + 0.001 * i, 0.4}})
                    : Command(bench::LayPart{"B1", {0.3, 0.4}, 0}));
    for (int i = 0; i < 500; ++i)
        hand.does(Undo{});
    CHECK(sameThings(attempt.bench(), empty));
    CHECK_FALSE(attempt.canUndo());
    const std::size_t entries = attempt.record().entries.size();
    const auto refused = attempt.ask(Undo{});
    REQUIRE(refused);
    CHECK(refused->why == bench::Why::NothingToUndo);
    CHECK(attempt.record().entries.size() == entries);
}

TEST_CASE("a new edit after an undo cuts what could be done again") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.3);
    hand.lay("B2", 0.6, 0.3);
    hand.does(Undo{});
    CHECK(attempt.canRedo());
    hand.lay("M1", 0.8, 0.6);
    CHECK_FALSE(attempt.canRedo());
    const auto refused = attempt.ask(Redo{});
    REQUIRE(refused);
    CHECK(refused->why == bench::Why::NothingToRedo);
    CHECK_FALSE(bench::findPart(attempt.bench(), std::string("B2")));
}

TEST_CASE("ids handed out before an undo are not handed out again") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.3);
    const bench::PartId first = hand.part("B1");
    hand.does(Undo{});
    hand.lay("B2", 0.3, 0.3);
    CHECK(hand.part("B2") != first);
}

TEST_CASE("holding a button is no step, does not cut redo, and ends with an undo") {
    Attempt attempt(builtInBench("pippin"));
    Hand hand(attempt);
    hand.does(bench::MovePart{hand.part("M1"), {1.6, 1.0}});
    hand.set("S3", 1);
    CHECK(bench::findPart(attempt.bench(), std::string("S3"))->position == 1);
    hand.does(Undo{}); // the move, not the button
    CHECK_FALSE(attempt.canUndo());
    CHECK(bench::findPart(attempt.bench(), std::string("S3"))->position == 0);
    hand.set("S3", 1);
    CHECK(attempt.canRedo());
    hand.does(Redo{});
    CHECK(bench::findPart(attempt.bench(), std::string("S3"))->position == 0);
    CHECK(bench::findPart(attempt.bench(), std::string("M1"))->at_m.y_m == 1.0);
}

TEST_CASE("what changes nothing is done but leaves no step and no entry") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("S4", 0.3, 0.3);
    const auto entries = attempt.record().entries.size();
    const auto revision = attempt.revision();
    hand.set("S4", 0);
    hand.does(bench::MovePart{hand.part("S4"), {0.3, 0.3}});
    CHECK(attempt.record().entries.size() == entries);
    CHECK(attempt.revision() == revision);
    hand.does(Undo{});
    CHECK(attempt.bench().parts.empty());
}

TEST_CASE("a refused command leaves everything as it was") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.does(Undo{});
    const auto hash = attempt.stateHash();
    const auto revision = attempt.revision();
    const Command refusedOnes[] = {
        bench::LayPart{"B1", {0.3, 0.3}, 0}, // is out
        bench::MovePart{{999}, {0.3, 0.3}},
        bench::JoinEnd{hand.cable("W-1").id, 0, hand.terminal("S4", "in")}, // ring on a tab
        bench::Operate{hand.part("E1"), 1},
        bench::FitFuse{hand.part("F2"), 7.1},
        bench::WearPart{hand.part("F2"), bench::Condition::Open}, // only the circuit wears
        bench::WearCable{hand.cable("W-1").id, bench::CableCondition::Parted},
        Reopened{},
        AskHint{std::string(1000, 'x')}};
    for (const Command& command : refusedOnes) {
        CAPTURE(command.index());
        CHECK(attempt.ask(command));
        CHECK(attempt.stateHash() == hash);
        CHECK(attempt.revision() == revision);
        CHECK(attempt.canRedo());
    }
}

TEST_CASE("asking for a check or a hint is recorded and changes nothing") {
    Attempt attempt(builtInBench("free"), "first", "abc");
    Hand hand(attempt);
    hand.does(AskCheck{});
    hand.does(AskHint{"closed"});
    CHECK(attempt.record().entries.size() == 2);
    CHECK_FALSE(attempt.canUndo());
    CHECK(attempt.record().exercise == "first");
}

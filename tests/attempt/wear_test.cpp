// SPDX-License-Identifier: MIT
// What the circuit does lasting comes into the bench, and what an undo makes of it.
#include "attempt/hand.h"
#include "attempt/wear.h"

#include <cmath>

using namespace loom;
using namespace loom::attempt;
using namespace loom::attempt::test;

namespace {

const bench::Part& partOf(const Attempt& attempt, const char* ref) {
    const bench::Part* part = bench::findPart(attempt.bench(), std::string(ref));
    REQUIRE(part);
    return *part;
}

std::size_t wears(const Record& record) {
    std::size_t count = 0;
    for (const Entry& entry : record.entries)
        if (const auto* edit = std::get_if<bench::Edit>(&entry.command))
            count += std::holds_alternative<bench::WearPart>(*edit);
    return count;
}

} // namespace

TEST_CASE("the wired lamp glows when its switch is closed, under power") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.wait(0.5);
    CHECK(std::fabs(attempt.reading(hand.part("E1")).current_A) < 1e-3);
    hand.set("S4", 1);
    hand.wait(1.0);
    // 24 V 21 W on 12.8 V: between half of what it takes at 24 V and the whole.
    CHECK(attempt.reading(hand.part("E1")).current_A > 0.4);
    CHECK(attempt.reading(hand.part("E1")).current_A < 0.9);
    hand.set("S4", 0);
    hand.wait(0.2);
    CHECK(std::fabs(attempt.reading(hand.part("E1")).current_A) < 1e-3);
}

TEST_CASE("a melted fuse is open on the bench, recorded, and no step of its own") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireShort(hand);
    hand.set("S4", 1);
    const auto revision = attempt.revision();
    hand.wait(3.0);
    CHECK(partOf(attempt, "F2").condition == bench::Condition::Open);
    CHECK(hand.happened(circuit::EventKind::FuseMelted, "F2"));
    CHECK(wears(attempt.record()) == 1);
    CHECK(attempt.revision() > revision);
    CHECK(std::fabs(attempt.reading(hand.part("B1")).current_A) < 1e-3);

    hand.does(Undo{}); // the switch, and the bench was whole then
    CHECK(partOf(attempt, "S4").position == 0);
    CHECK(partOf(attempt, "F2").condition == bench::Condition::Sound);
    CHECK(attempt.now_slices() == 300); // time went on
    CHECK(hand.happened(circuit::EventKind::FuseMelted, "F2"));

    hand.does(Redo{}); // as it was when it was undone
    CHECK(partOf(attempt, "F2").condition == bench::Condition::Open);
    hand.wait(1.0);
    CHECK(wears(attempt.record()) == 1);
}

TEST_CASE("a fuse put back by undo is whole in the circuit too, and melts again") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireShort(hand);
    hand.set("S4", 1);
    hand.wait(3.0);
    hand.does(Undo{});
    CHECK_FALSE(attempt.reading(hand.part("F2")).open);
    hand.set("S4", 1);
    hand.wait(3.0);
    CHECK(partOf(attempt, "F2").condition == bench::Condition::Open);
    CHECK(wears(attempt.record()) == 2);
}

TEST_CASE("a fresh fuse is whole and cold, whatever the old one was") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireShort(hand);
    hand.set("S4", 1);
    hand.wait(3.0);
    hand.set("S4", 0);
    hand.fit("F2", 7.5);
    CHECK(partOf(attempt, "F2").condition == bench::Condition::Sound);
    CHECK_FALSE(attempt.reading(hand.part("F2")).open);

    hand.does(bench::RemoveCable{hand.cable("W-5").id}); // the short
    hand.fit("F2", 3.0);
    hand.set("S4", 1);
    hand.wait(30.0);
    const double warm_K = attempt.reading(hand.part("F2")).temp_K;
    hand.fit("F2", 3.0); // like for like, under power
    CHECK(attempt.reading(hand.part("F2")).temp_K < warm_K);
    CHECK(partOf(attempt, "F2").condition == bench::Condition::Sound);
}

TEST_CASE("a fuse that cannot carry its load melts each time it is fitted") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireShort(hand);
    hand.set("S4", 1);
    for (std::size_t i = 1; i <= 3; ++i) {
        hand.wait(2.0);
        CHECK(partOf(attempt, "F2").condition == bench::Condition::Open);
        CHECK(wears(attempt.record()) == i);
        hand.fit("F2", 7.5);
    }
}

TEST_CASE("a battery bridged by a thin cable marks its sleeve, once and for good") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.5);
    hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("B1", "minus"), 1.0);
    hand.wait(5.0);
    CHECK(hand.cable("W-1").condition == bench::CableCondition::Parted);
    CHECK(hand.happened(circuit::EventKind::SleeveSoftened, "W-1"));
    CHECK(hand.happened(circuit::EventKind::CableParted, "W-1"));
    hand.does(Undo{});
    CHECK(attempt.bench().cables.empty());
    hand.does(Redo{});
    CHECK(hand.cable("W-1").condition == bench::CableCondition::Parted);
    hand.wait(1.0);
    CHECK(std::fabs(attempt.reading(hand.part("B1")).current_A) < 1e-3);
}

TEST_CASE("charge goes on through undo; from the tray a battery comes fresh") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.set("S4", 1);
    hand.wait(600.0);
    const double spent = attempt.reading(hand.part("B1")).charge;
    CHECK(spent < 0.999); // 0.6 A for 10 min of 24 Ah is 0.4 %
    hand.does(bench::RemovePart{hand.part("B1")});
    hand.wait(1.0);
    hand.does(Undo{});
    CHECK(attempt.reading(hand.part("B1")).charge == doctest::Approx(spent).epsilon(1e-9));
    hand.does(bench::RemovePart{hand.part("B1")});
    hand.lay("B1", 0.3, 0.8);
    CHECK(attempt.reading(hand.part("B1")).charge == doctest::Approx(1.0));
}

TEST_CASE("undoing a switch under power opens it, doing it again closes it") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.set("S4", 1);
    hand.wait(1.0);
    hand.does(Undo{});
    hand.wait(0.1);
    CHECK(std::fabs(attempt.reading(hand.part("E1")).current_A) < 1e-3);
    hand.does(Redo{});
    hand.wait(0.1);
    CHECK(attempt.reading(hand.part("E1")).current_A > 0.4);
}

TEST_CASE("moving a part under power disturbs nothing") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.set("S4", 1);
    hand.wait(1.0);
    const auto before = attempt.reading(hand.part("E1"));
    hand.does(bench::MovePart{hand.part("E1"), {1.0, 0.7}});
    hand.does(bench::TurnPart{hand.part("B1"), 1});
    const auto after = attempt.reading(hand.part("E1"));
    CHECK(after.current_A == before.current_A);
    CHECK(after.temp_K == before.temp_K);
}

TEST_CASE("a cable taken off under power stops the current and keeps the rest warm") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.set("S4", 1);
    hand.wait(2.0);
    const double hot_K = attempt.reading(hand.part("E1")).temp_K;
    hand.does(bench::FreeEnd{hand.cable("W-4").id, 1, {0.5, 0.9}});
    hand.wait(0.02);
    CHECK(std::fabs(attempt.reading(hand.part("E1")).current_A) < 1e-3);
    CHECK(attempt.reading(hand.part("E1")).temp_K > 0.5 * hot_K);
}

TEST_CASE("of a part that is broken inside one reads what a meter reads at its terminals") {
    Attempt whole(builtInBench("free"));
    Hand builder(whole);
    builder.lay("B1", 0.3, 0.8);
    builder.lay("M1", 0.6, 0.3);
    builder.lay("K1", 0.9, 0.3);
    builder.cut("W-1", builder.terminal("B1", "plus"), builder.terminal("M1", "lead 1"), 6.0);
    builder.cut("W-2", builder.terminal("B1", "minus"), builder.terminal("M1", "lead 2"), 6.0);
    builder.cut("W-3", builder.terminal("B1", "plus"), builder.terminal("K1", "coil a"));
    builder.cut("W-4", builder.terminal("B1", "minus"), builder.terminal("K1", "coil b"));
    builder.wait(1.0);
    CHECK(whole.reading(builder.part("M1")).current_A > 1.0);
    for (const bool batteryToo : {false, true}) {
        bench::Bench bench = whole.bench();
        for (bench::Part& part : bench.parts)
            if (batteryToo || part.ref != "B1") part.condition = bench::Condition::Open;
        Attempt broken(bench);
        Hand hand(broken);
        const double expected_V = batteryToo ? 0.0 : 12.8;
        for (const double time_s : {0.0, 0.1, 1.0, 60.0}) {
            hand.wait(time_s);
            for (const char* ref : {"B1", "M1", "K1"}) {
                CAPTURE(ref);
                const circuit::Reading read = broken.reading(hand.part(ref));
                CHECK(std::fabs(read.voltage_V - expected_V) < 0.3);
                CHECK(std::fabs(read.current_A) < 1e-6);
            }
        }
    }
}

TEST_CASE("a cable never grows sound again by later wear") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    bench::Bench worn = attempt.bench();
    bench::Cable& cable = worn.cables.front();
    cable.condition = bench::CableCondition::Charred;
    circuit::Event event;
    event.element = bench::cableKey(cable.id);
    event.kind = circuit::EventKind::SleeveSoftened;
    CHECK_FALSE(wearFrom(event, worn));
    event.kind = circuit::EventKind::CableParted;
    CHECK(wearFrom(event, worn));
    cable.condition = bench::CableCondition::Parted;
    CHECK_FALSE(wearFrom(event, worn));
}

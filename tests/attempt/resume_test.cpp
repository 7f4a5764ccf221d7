// SPDX-License-Identifier: MIT
// An attempt taken up again without the circuit, and one run again with it.
#include "attempt/hand.h"
#include "attempt/record_file.h"
#include "said.h"

using namespace loom;
using namespace loom::attempt;
using namespace loom::attempt::test;

namespace {

// Drives Pippin forward, brakes, reverses; undoes and redoes on the way.
void drive(Attempt& attempt) {
    Hand hand(attempt);
    hand.set("Q1", 1);
    hand.set("Q1", 2);
    hand.set("S1", 1);
    hand.set("S2", 2);
    hand.wait(0.3);
    hand.set("S3", 1);
    hand.wait(1.5);
    hand.does(bench::MovePart{hand.part("E1"), {1.6, 0.2}});
    hand.set("S3", 0);
    hand.wait(0.7);
    hand.does(Undo{});
    hand.set("S2", 0);
    hand.set("S3", 1);
    hand.wait(0.8);
}

} // namespace

TEST_CASE("a resumed attempt has the same bench and undoes and redoes alike") {
    Attempt live(builtInBench("free"));
    Hand hand(live);
    wireShort(hand);
    hand.set("S4", 1);
    hand.wait(3.0); // the fuse melts
    hand.does(bench::MovePart{hand.part("E1"), {1.0, 0.6}});
    hand.does(bench::MovePart{hand.part("E1"), {1.1, 0.6}});
    hand.does(Undo{});
    auto outcome = resume(live.record());
    REQUIRE(outcome);
    Attempt& resumed = outcome.value();
    CHECK(sameThings(resumed.bench(), live.bench()));
    CHECK(resumed.bench().lastId == live.bench().lastId);
    CHECK(resumed.now_slices() == live.now_slices());
    for (const bool undo : {false, true, true, true, true, false, false, true}) {
        CAPTURE(undo);
        const Command command = undo ? Command(Undo{}) : Command(Redo{});
        CHECK_FALSE(live.ask(command));
        CHECK_FALSE(resumed.ask(command));
        CHECK(sameThings(resumed.bench(), live.bench()));
    }
    CHECK(resumed.canUndo() == live.canUndo());
    CHECK(resumed.canRedo() == live.canRedo());
}

TEST_CASE("a resumed attempt is under power at once and the blown fuse stays blown") {
    Attempt live(builtInBench("free"));
    Hand hand(live);
    wireShort(hand);
    hand.set("S4", 1);
    hand.wait(3.0);
    auto outcome = resume(live.record());
    REQUIRE(outcome);
    Hand again(outcome.value());
    again.wait(1.0);
    CHECK(outcome.value().reading(again.part("F2")).open);
    CHECK(outcome.value().supply().live);
    CHECK_FALSE(again.happened(circuit::EventKind::FuseMelted, "F2"));
}

TEST_CASE("a replay comes to the same state hash, whatever portions time came in") {
    Attempt live(builtInBench("pippin"));
    drive(live);
    const auto replayed = replay(live.record());
    REQUIRE(replayed);
    CHECK(replayed.value().stateHash() == live.stateHash());
    CHECK(replayed.value().events().size() == live.events().size());
    CHECK(toJson(replayed.value().record()) == toJson(live.record()));

    Attempt slow(builtInBench("pippin"));
    Hand hand(slow);
    hand.set("Q1", 1);
    hand.set("Q1", 2);
    hand.set("S1", 1);
    hand.set("S2", 2);
    for (int i = 0; i < 30; ++i)
        slow.advance(1);
    Attempt quick(builtInBench("pippin"));
    Hand other(quick);
    other.set("Q1", 1);
    other.set("Q1", 2);
    other.set("S1", 1);
    other.set("S2", 2);
    quick.advance(30);
    CHECK(slow.stateHash() == quick.stateHash());
}

TEST_CASE("recorded wear is done again by the circuit, not by the record") {
    Attempt live(builtInBench("free"));
    Hand hand(live);
    wireShort(hand);
    hand.set("S4", 1);
    hand.wait(3.0);
    hand.does(Undo{});
    hand.set("S4", 1);
    hand.wait(1.0);
    Record bare = live.record();
    auto& entries = bare.entries;
    std::size_t dropped = 0;
    for (std::size_t i = entries.size(); i-- > 0;) {
        const auto* edit = std::get_if<bench::Edit>(&entries[i].command);
        if (!edit || !std::holds_alternative<bench::WearPart>(*edit)) continue;
        entries.erase(entries.begin() + static_cast<std::ptrdiff_t>(i));
        ++dropped;
    }
    REQUIRE(dropped == 2);
    const auto replayed = replay(bare);
    REQUIRE(replayed);
    CHECK(replayed.value().stateHash() == live.stateHash());
    CHECK(toJson(replayed.value().record()) == toJson(live.record()));
}

TEST_CASE("an attempt put away twice and gone on with replays to its hash") {
    Attempt first(builtInBench("pippin"));
    drive(first);
    auto second = resume(first.record());
    REQUIRE(second);
    second.value().advance(20);
    auto third = resume(second.value().record());
    REQUIRE(third);
    drive(third.value());
    const auto replayed = replay(third.value().record());
    if (!replayed) FAIL(replayed.refusal().place, " ", replayed.refusal().found);
    CHECK(replayed.value().stateHash() == third.value().stateHash());
}

TEST_CASE("opening without doing anything adds no entries") {
    Attempt fresh(builtInBench("free"));
    const auto untouched = resume(fresh.record());
    REQUIRE(untouched);
    CHECK(untouched.value().record().entries.empty());
    fresh.advance(100);
    auto once = resume(fresh.record());
    REQUIRE(once);
    const auto twice = resume(once.value().record());
    REQUIRE(twice);
    CHECK(twice.value().record().entries.size() == 1);
}

TEST_CASE("time passes on a bench where nothing happens, without being computed") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    CHECK(attempt.quiet());
    attempt.advance(std::int64_t{100} * 3600 * 24 * 365); // a year
    CHECK(attempt.now_slices() == std::int64_t{100} * 3600 * 24 * 365);
    wireShort(hand);
    hand.set("S4", 1);
    hand.wait(2.0);
    REQUIRE(hand.happened(circuit::EventKind::FuseMelted, "F2"));
    for (const BenchEvent& event : attempt.events()) {
        CHECK(event.time_s > 3600.0 * 24 * 365);
        CHECK(event.time_s <= static_cast<double>(event.slice) * kSlice_s + 1e-6);
    }
}

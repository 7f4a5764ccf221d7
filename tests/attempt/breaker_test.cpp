// SPDX-License-Identifier: MIT
// A circuit breaker in an attempt: it trips, stays tripped until a hand sets it again, and all of it
// is recorded.
#include "attempt/hand.h"
#include "attempt/record_file.h"

using namespace loom;
using namespace loom::attempt;
using namespace loom::attempt::test;

namespace {

// B1 through F4 (30 A) and 20 m of 6 mm2 back to B1: some six times what F4 is for.
void wireOverload(Hand& hand) {
    hand.lay("B1", 0.3, 0.8);
    hand.lay("F4", 0.3, 0.5);
    hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("F4", "in"), 6.0);
    hand.does(bench::MakeCable{hand.terminal("F4", "out"),
                               hand.terminal("B1", "minus"),
                               6e-6,
                               bench::Sleeve::Black,
                               20.0,
                               "W-2"});
}

const bench::Part& breaker(const Attempt& attempt) {
    return *bench::findPart(attempt.bench(), std::string("F4"));
}

double tripsAfter_s(Attempt& attempt) {
    const std::int64_t from = attempt.now_slices();
    while (breaker(attempt).position != 0 && attempt.now_slices() < from + 1000)
        attempt.advance(1);
    return static_cast<double>(attempt.now_slices() - from) * kSlice_s;
}

} // namespace

TEST_CASE("a breaker trips, stays so until it is set again, and trips sooner while it is hot") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireOverload(hand);
    const double cold_s = tripsAfter_s(attempt);
    CHECK(cold_s > 0.4);
    CHECK(cold_s < 2.0);
    CHECK(hand.happened(circuit::EventKind::BreakerTripped, "F4"));
    CHECK(breaker(attempt).condition == bench::Condition::Sound);
    hand.wait(2.0);
    CHECK(attempt.reading(hand.part("F4")).open);
    CHECK(attempt.reading(hand.cable("W-2").id).current_A == doctest::Approx(0.0));

    hand.set("F4", 1);
    CHECK(attempt.reading(hand.part("F4")).current_A > 100.0);
    CHECK(tripsAfter_s(attempt) < 0.8 * cold_s);
    CHECK(attempt.ask(bench::Edit{bench::FitFuse{hand.part("F4"), 30.0}})); // it takes none
}

TEST_CASE("a hand opens a breaker before it trips") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireOverload(hand);
    hand.wait(0.1);
    hand.set("F4", 0);
    hand.wait(0.1);
    CHECK(attempt.reading(hand.part("F4")).current_A == doctest::Approx(0.0));
    CHECK_FALSE(hand.happened(circuit::EventKind::BreakerTripped, "F4"));
}

TEST_CASE("a record with a tripped breaker resumes tripped and replays to the same state") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireOverload(hand);
    hand.wait(3.0);
    hand.set("F4", 1);
    hand.wait(0.1);
    hand.does(bench::MovePart{hand.part("F4"), {0.5, 0.5}});
    hand.wait(3.0);
    const auto record = recordFromJson(toJson(attempt.record()));
    REQUIRE(record);
    const auto replayed = replay(record.value());
    REQUIRE(replayed);
    CHECK(replayed.value().stateHash() == attempt.stateHash());
    auto resumed = resume(record.value());
    REQUIRE(resumed);
    CHECK(breaker(resumed.value()).position == 0);
    Hand again(resumed.value());
    again.wait(1.0);
    CHECK(resumed.value().reading(again.part("F4")).open);
}

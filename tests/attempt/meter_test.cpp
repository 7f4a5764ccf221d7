// SPDX-License-Identifier: MIT
// The hand meter on a bench: what it shows, what it does to the circuit, how its use is counted.
#include "attempt/hand.h"
#include "attempt/meter_reading.h"
#include "attempt/record_file.h"

#include <cmath>

using namespace loom;
using namespace loom::attempt;
using namespace loom::attempt::test;
using bench::MeterRange;

namespace {

// The meter off its hook, on a range, with both probes at terminals.
void measure(Hand& hand, MeterRange range, bench::TerminalRef red, bench::TerminalRef black) {
    hand.does(bench::PlaceMeter{{0.7, 0.2}});
    hand.does(bench::SetMeter{range});
    hand.does(bench::Probe{0, {red, {}, 0}});
    hand.does(bench::Probe{1, {black, {}, 0}});
}

// A resistor alone on the bench.
bench::Bench withResistor(double resistance_ohm) {
    bench::Bench start = builtInBench("free");
    bench::Part resistor;
    resistor.id = {++start.lastId};
    resistor.kind = bench::PartKind::Resistor;
    resistor.ref = "R9";
    resistor.rating = resistance_ohm;
    resistor.at_m = {0.5, 0.5};
    start.parts.push_back(resistor);
    return start;
}

} // namespace

TEST_CASE("volts at a battery: 12.85 V when full, with the last digit's uncertainty") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.3);
    measure(hand, MeterRange::Volts, hand.terminal("B1", "plus"), hand.terminal("B1", "minus"));
    hand.wait(0.1);
    MeterReading reading = meterReading(attempt);
    CHECK(reading.on);
    CHECK(reading.unit == MeterUnit::Volt);
    CHECK(reading.value == doctest::Approx(12.85).epsilon(0.001));
    CHECK(reading.digit == doctest::Approx(0.01)); // 4000 counts: 40.00 V
    CHECK(reading.uncertainty == doctest::Approx(0.005 * 12.85 + 0.02).epsilon(0.01));
    hand.does(bench::Probe{0, {hand.terminal("B1", "minus"), {}, 0}});
    hand.does(bench::Probe{1, {hand.terminal("B1", "plus"), {}, 0}});
    hand.wait(0.1);
    CHECK(meterReading(attempt).value == doctest::Approx(-12.85).epsilon(0.001));
}

TEST_CASE("a meter that is away, off, or has a probe in the air shows nothing of the bench") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    CHECK_FALSE(meterReading(attempt).on);
    CHECK(attempt.ask(bench::SetMeter{MeterRange::Volts})->why == bench::Why::MeterAway);
    hand.lay("B1", 0.3, 0.3);
    hand.does(bench::PlaceMeter{{0.7, 0.2}});
    CHECK_FALSE(meterReading(attempt).on);
    hand.does(bench::SetMeter{MeterRange::Volts});
    hand.does(bench::Probe{0, {hand.terminal("B1", "plus"), {}, 0}});
    hand.wait(0.1);
    CHECK(meterReading(attempt).on);
    CHECK(meterReading(attempt).value == 0.0);
    hand.does(bench::SetMeter{MeterRange::Ohms});
    hand.wait(0.1);
    CHECK(meterReading(attempt).beyond); // open loop
    CHECK_FALSE(meterReading(attempt).live);
}

TEST_CASE("resistance within the stated uncertainty, over all ranges; the tone below 30 ohm") {
    struct Row {
        double resistance_ohm, digit_ohm;
        bool tone;
    };

    const Row rows[] = {{0.0, 0.1, true},
                        {10.0, 0.1, true},
                        {29.0, 0.1, true},
                        {31.0, 0.1, false},
                        {390.0, 0.1, false},
                        {1000.0, 1.0, false},
                        {22e3, 10.0, false},
                        {330e3, 100.0, false},
                        {1e6, 1e3, false},
                        {22e6, 10e3, false}};
    for (const Row& row : rows) {
        CAPTURE(row.resistance_ohm);
        Attempt attempt(withResistor(row.resistance_ohm));
        Hand hand(attempt);
        measure(hand, MeterRange::Ohms, hand.terminal("R9", "in"), hand.terminal("R9", "out"));
        hand.wait(0.1);
        const MeterReading reading = meterReading(attempt);
        CHECK_FALSE(reading.live);
        REQUIRE_FALSE(reading.beyond);
        CHECK(reading.digit == doctest::Approx(row.digit_ohm));
        CHECK(std::fabs(reading.value - row.resistance_ohm) <= reading.uncertainty);
        CHECK_FALSE(reading.tone);
        hand.does(bench::SetMeter{MeterRange::Tone});
        hand.wait(0.1);
        CHECK(meterReading(attempt).tone == row.tone);
        CHECK(meterReading(attempt).beyond == (row.resistance_ohm >= 400.0));
    }
    Attempt attempt(withResistor(1e9));
    Hand hand(attempt);
    measure(hand, MeterRange::Ohms, hand.terminal("R9", "in"), hand.terminal("R9", "out"));
    hand.wait(0.1);
    CHECK(meterReading(attempt).beyond);
}

TEST_CASE("resistance on a live circuit is said to be none") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.set("S4", 1);
    for (const bool turned : {false, true}) {
        const auto in = hand.terminal("E1", "in"), out = hand.terminal("E1", "out");
        measure(hand, MeterRange::Ohms, turned ? out : in, turned ? in : out);
        hand.wait(0.2);
        CHECK(meterReading(attempt).live);
        hand.does(bench::SetMeter{MeterRange::Tone});
        hand.wait(0.2);
        CHECK(meterReading(attempt).live);
        CHECK_FALSE(meterReading(attempt).tone);
    }
}

TEST_CASE("amperes in series with the lamp, as the lamp takes them") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    wireLamp(hand);
    hand.set("S4", 1);
    hand.wait(2.0);
    const double lamp_A = attempt.reading(hand.part("E1")).current_A;
    const auto lead = hand.cable("W-4").id; // from the lamp to the battery
    hand.does(bench::FreeEnd{lead, 1, {0.5, 0.9}});
    hand.wait(0.1);
    hand.does(bench::PlaceMeter{{0.7, 0.2}});
    hand.does(bench::SetMeter{MeterRange::Amperes});
    hand.does(bench::Probe{0, {{}, lead, 1}});
    hand.does(bench::Probe{1, {hand.terminal("B1", "minus"), {}, 0}});
    hand.wait(2.0);
    const MeterReading reading = meterReading(attempt);
    CHECK(reading.unit == MeterUnit::Ampere);
    CHECK(std::fabs(reading.value - lamp_A) < 0.01 * lamp_A + reading.uncertainty);
    CHECK_FALSE(reading.fuseOpen);
}

TEST_CASE("amperes across a battery melt the meter's own fuse, which stays so until a new one") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.3);
    measure(hand, MeterRange::Amperes, hand.terminal("B1", "plus"), hand.terminal("B1", "minus"));
    hand.wait(1.0);
    CHECK(meterReading(attempt).fuseOpen);
    CHECK(meterReading(attempt).value == 0.0);
    REQUIRE(attempt.bench().meter);
    CHECK(attempt.bench().meter->fuseOpen);
    bool told = false;
    for (const BenchEvent& event : attempt.events())
        told |= isOfMeter(event);
    CHECK(told);
    CHECK_FALSE(attempt.canRedo());
    hand.does(bench::SetMeter{MeterRange::Volts}); // its volts go past the fuse
    hand.wait(0.1);
    CHECK(meterReading(attempt).value == doctest::Approx(12.85).epsilon(0.01));
    hand.does(bench::FitMeterFuse{});
    CHECK_FALSE(attempt.bench().meter->fuseOpen);
    // What melted is in the record, as wear; and it is not for a hand to ask.
    CHECK(attempt.ask(bench::WearMeter{}));
    const auto replayed = replay(attempt.record());
    REQUIRE(replayed);
    CHECK(replayed.value().stateHash() == attempt.stateHash());
    const auto resumed = resume(attempt.record());
    REQUIRE(resumed);
    CHECK(sameThings(resumed.value().bench(), attempt.bench()));
}

TEST_CASE("both probes on one terminal, or on the two halves of one metal") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.3);
    hand.lay("X1", 0.8, 0.7);
    const auto plus = hand.terminal("B1", "plus");
    const auto upper = hand.terminal("X1", "3 upper"), lower = hand.terminal("X1", "3 lower");
    for (const auto& [red, black] : {std::pair(plus, plus), std::pair(upper, lower)}) {
        for (const MeterRange range : {MeterRange::Volts, MeterRange::Ohms, MeterRange::Amperes}) {
            measure(hand, range, red, black);
            hand.wait(0.2);
            CHECK(meterReading(attempt).value == 0.0);
            CHECK_FALSE(meterReading(attempt).beyond);
        }
        measure(hand, MeterRange::Tone, red, black);
        hand.wait(0.2);
        CHECK(meterReading(attempt).tone);
    }
    CHECK(attempt.diagnoses().empty());
}

TEST_CASE("what the meter does is no step; undo leaves it where it is, but off what is gone") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.3);
    hand.lay("S4", 0.6, 0.3);
    measure(hand, MeterRange::Volts, hand.terminal("B1", "plus"), hand.terminal("S4", "in"));
    hand.does(Undo{}); // the switch
    REQUIRE(attempt.bench().meter);
    CHECK(attempt.bench().meter->range == MeterRange::Volts);
    CHECK(attempt.bench().meter->probes[0].terminal);
    CHECK_FALSE(attempt.bench().meter->probes[1].terminal);
    hand.does(bench::HangMeter{});
    CHECK(attempt.canRedo());
    hand.does(Redo{});
    CHECK_FALSE(attempt.bench().meter);
}

TEST_CASE("measurements are counted each time one is set up and held") {
    Attempt attempt(builtInBench("free"));
    Hand hand(attempt);
    hand.lay("B1", 0.3, 0.3);
    const auto plus = hand.terminal("B1", "plus"), minus = hand.terminal("B1", "minus");
    CHECK(measurementsOf(attempt.record()) == 0);
    measure(hand, MeterRange::Volts, plus, minus);
    hand.wait(0.2); // too short
    CHECK(measurementsOf(attempt.record()) == 0);
    CHECK(isMeasuring(attempt));
    hand.wait(0.2);
    CHECK(measurementsOf(attempt.record()) == 1);
    CHECK_FALSE(isMeasuring(attempt));
    hand.does(bench::PlaceMeter{{0.9, 0.2}}); // moved, not set up again
    hand.wait(1.0);
    CHECK(measurementsOf(attempt.record()) == 1);
    hand.does(bench::Probe{1, {}});
    hand.wait(1.0);
    CHECK(measurementsOf(attempt.record()) == 1);
    hand.does(bench::Probe{1, {minus, {}, 0}}); // the same again
    hand.wait(0.3);
    CHECK(measurementsOf(attempt.record()) == 2);
    hand.does(bench::SetMeter{MeterRange::Tone});
    hand.wait(0.3);
    CHECK(measurementsOf(attempt.record()) == 3);
    hand.does(bench::SetMeter{MeterRange::Off});
    hand.wait(1.0);
    hand.does(bench::HangMeter{});
    CHECK(measurementsOf(attempt.record()) == 3);
}

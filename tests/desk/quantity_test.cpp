// SPDX-License-Identifier: MIT
#include "bench/catalogue.h"
#include "bench/file.h"
#include "desk/desk.h"
#include "desk/quantity.h"
#include "said.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace loom;
using namespace loom::desk;

namespace {

attempt::Attempt pippinDriving() {
    auto bench = bench::fromJson(run({"new", "pippin"}).out);
    REQUIRE(bench);
    attempt::Attempt attempt(bench.value());
    const std::pair<const char*, int> settings[] = {
        {"Q1", 1}, {"Q1", 2}, {"S1", 1}, {"S2", 2}, {"S3", 1}, {"S4", 1}};
    for (const auto& [ref, position] : settings) {
        const bench::PartId id = bench::findPart(attempt.bench(), std::string(ref))->id;
        REQUIRE_FALSE(attempt.ask(bench::Operate{id, position}));
    }
    attempt.advance(200);
    return attempt;
}

double valueOf(const char* text, const attempt::Attempt& attempt) {
    const auto quantity = quantityFrom(text);
    REQUIRE(quantity);
    const auto value = sample(quantity.value(), attempt);
    if (!value) FAIL(text, ": ", value.refusal().expected, ", found ", value.refusal().found);
    REQUIRE(value.value());
    return *value.value();
}

} // namespace

TEST_CASE("quantities of a driving Pippin") {
    const attempt::Attempt attempt = pippinDriving();

    struct Row {
        const char* text;
        double least, most;
        const char* why;
    };

    const Row rows[] = {
        {"X1/1-X1/10", 24.5, 25.8, "PIPPIN: 25.7 V less a few amperes through the loop"},
        {"X1/1-X1/10.voltage", 24.5, 25.8, "the same"},
        {"X1/10 lower-X1/1 upper", -25.8, -24.5, "the other way round"},
        {"K1/coil a-K1/coil b", 23.0, 25.8, "forward holds K1"},
        {"K1.voltage", 23.0, 25.8, "the same at the coil"},
        {"K1.current", 0.065, 0.085, "PIPPIN: 75 mA"},
        {"K1.pulled-in", 1, 1, ""},
        {"K2.pulled-in", 0, 0, ""},
        {"K1.normally-open-current", -20.0, 20.0, ""},
        {"M1.speed", 330.0, 375.0, "PIPPIN: about 365 rad/s off the ground"},
        {"M1.angle", 0.0, 6.2832, ""},
        {"E1.brightness", 0.5, 2.0, "24 V lamp at 25 V"},
        {"S1.lamp.current", 0.015, 0.030, "PIPPIN: 20 mA"},
        {"S1.contact.closed", 1, 1, ""},
        {"S2.forward.closed", 1, 1, ""},
        {"S2.reverse.closed", 0, 0, ""},
        {"F2.open", 0, 0, ""},
        {"F2.melting", 0, 0.5, ""},
        {"B1.charge", 0.9, 1.0, ""},
        {"P-06.temperature", 15.0, 60.0, ""},
        {"P-14#1.current", -0.5, 0.5, ""},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text);
        CAPTURE(row.why);
        const double value = valueOf(row.text, attempt);
        CHECK(value >= row.least);
        CHECK(value <= row.most);
    }
    CHECK(valueOf("M1.power", attempt) ==
          doctest::Approx(valueOf("M1.voltage", attempt) * valueOf("M1.current", attempt)));
}

TEST_CASE("what is no quantity is refused, as written or when it is read") {
    const attempt::Attempt attempt = pippinDriving();

    struct Row {
        const char *text, *found;
    };

    const Row asWritten[] = {
        {"K1", "K1"}, {"", ""}, {".speed", ".speed"}, {"K1.joy", "joy"}, {"X1/1", "X1/1"}};
    for (const Row& row : asWritten) {
        CAPTURE(row.text);
        const auto quantity = quantityFrom(row.text);
        REQUIRE_FALSE(quantity);
        CHECK(quantity.refusal().found == row.found);
    }
    const Row whenRead[] = {{"F2.speed", "speed"},
                            {"P-06.speed", "speed"},
                            {"X1.current", "current"},
                            {"B1.closed", "closed"},
                            {"K1.lamp.current", "lamp"},
                            {"S1.contact.brightness", "brightness"},
                            {"P-14.current", "P-14"},
                            {"X1/11-X1/10", "11"},
                            {"K1/plus-X1/10", "plus"}};
    for (const Row& row : whenRead) {
        CAPTURE(row.text);
        const auto quantity = quantityFrom(row.text);
        REQUIRE(quantity);
        const auto value = sample(quantity.value(), attempt);
        REQUIRE_FALSE(value);
        CHECK(value.refusal().found == row.found);
    }
}

TEST_CASE("the number on the hand meter can be read, while there is one") {
    attempt::Attempt attempt = pippinDriving();
    const auto quantity = quantityFrom("meter");
    REQUIRE(quantity);
    CHECK_FALSE(isThere(quantity.value(), attempt.bench()));
    const auto shown = [&] { return sample(quantity.value(), attempt).value(); };
    CHECK_FALSE(shown());
    attempt.ask(bench::PlaceMeter{{0.5, 0.1}});
    attempt.ask(bench::SetMeter{bench::MeterRange::Volts});
    attempt.ask(bench::Probe{0, {bench::findTerminal(attempt.bench(), "X1", "1 upper"), {}, 0}});
    attempt.ask(bench::Probe{1, {bench::findTerminal(attempt.bench(), "X1", "10 upper"), {}, 0}});
    attempt.advance(10);
    REQUIRE(shown());
    CHECK(*shown() == doctest::Approx(valueOf("X1/1-X1/10", attempt)).epsilon(0.001));
    attempt.ask(bench::SetMeter{bench::MeterRange::Ohms}); // on a live circuit
    attempt.advance(10);
    CHECK_FALSE(shown());
}

TEST_CASE("what is not on the bench has no value and is not refused") {
    const attempt::Attempt attempt = pippinDriving();
    for (const char* text : {"Z1.voltage", "Z1/plus-X1/10", "P-99.current"}) {
        const auto quantity = quantityFrom(text);
        REQUIRE(quantity);
        CHECK_FALSE(isThere(quantity.value(), attempt.bench()));
        const auto value = sample(quantity.value(), attempt);
        REQUIRE(value);
        CHECK_FALSE(value.value());
    }
}

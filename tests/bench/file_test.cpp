// SPDX-License-Identifier: MIT
// Benches to text and back.
#include "handmade.h"
#include "said.h"

#include <nlohmann/json.hpp>

namespace loom::bench {
namespace {

Bench readBack(const Bench& bench) {
    const Outcome<Bench> read = fromJson(toJson(bench));
    if (!read) FAIL(read.refusal().place << ": " << read.refusal().expected);
    return read.value();
}

// Awkward numbers that a decimal text must still bring back bit by bit.
Bench withAwkwardNumbers() {
    Bench bench = laid(laid(trayOnly(), "B1"), "R1", 1.0, 0.4);
    Part& battery = bench.parts[0];
    battery.at_m = {1.0 / 3.0, 0.1 + 0.2};
    battery.charge = 5e-324;
    bench.parts[1].rating = 123456789.12345678;
    bench.board_m = {1.5000000000000002, 9.999999999999998};
    bench.kit.blades_A = {0.1, 7.5, 499.99999999999994};
    bench = done(bench, TakeCable{"P-01", {0.0, 0.7}, {1e-17, 2.0 / 3.0}});
    bench.cables[0].length_m = 0.30000000000000004;
    bench.cables[0].ends[0].loose_m.x_m = -0.0;
    return bench;
}

// Something of everything that hands do.
Bench madeByHand() {
    Bench bench = handsOn();
    bench.kit.handmade = {"P-01", "Tŷ ☂", "*"};
    bench = cut(bench, terminal(bench, "X1", "3 upper"), terminal(bench, "B1", "plus"));
    bench = cut(bench, terminal(bench, "X1", "9 lower"), terminal(bench, "Q1", "in"), "W-2");
    bench = made(bench, 0, {1.0 / 120.0, 0.1 / 9.0, false});
    bench = made(bench, 0, {0.009, 0.010000000000000002, true, true, 1.0 / 3.0}, "W-2");
    bench = done(bench, TurnScrew{terminal(bench, "B1", "minus"), 40.0});
    bench = done(bench, TieCable{cable(bench).id, 1.0 / 3.0, cable(bench, "W-2").id, 0.7, {}});
    bench = done(bench, TieCable{cable(bench).id, 1.0, {}, 0.5, {0.1, 1.0 / 7.0}});
    bench = done(bench, PlaceMeter{{2.0 / 3.0, 0.1}});
    bench = done(bench, SetMeter{MeterRange::Tone});
    bench = done(bench, Probe{0, {terminal(bench, "K1", "coil a"), {}, 0}});
    bench = done(bench, Probe{1, {{}, cable(bench).id, 1}});
    bench = done(bench, WearMeter{});
    bench = done(bench, Operate{idOf(bench, "B1"), 1});
    bench = laid(bench, "M1", 1.2, 0.5);
    return done(bench, ObstructAxle{idOf(bench, "M1"), true, cable(bench).id});
}

} // namespace

TEST_CASE("benches read back in every bit, and are written again in every byte") {
    Bench worn = laid(laid(laid(trayOnly(), "K1"), "S2", 1.0, 0.5), "E1", 0.2, 0.2);
    worn = done(worn, WearPart{idOf(worn, "K1"), Condition::Welded});
    worn = done(worn, WearPart{idOf(worn, "E1"), Condition::Open});
    worn = done(worn, TurnPart{idOf(worn, "S2"), 3});
    worn = done(worn, Operate{idOf(worn, "S2"), 2});
    worn = done(worn,
                MakeCable{terminal(worn, "E1", "in"),
                          terminal(worn, "S2", "common"),
                          1e-6,
                          Sleeve::Red,
                          0.0,
                          "Tŷ \"\\ ☂"});
    worn = done(worn, WearCable{worn.cables[0].id, CableCondition::Parted});
    worn = done(worn, RemovePart{idOf(worn, "K1")});
    const Bench benches[] = {
        Bench{}, trayOnly(), worn, pippin(), withAwkwardNumbers(), madeByHand()};
    for (const Bench& bench : benches) {
        const Bench again = readBack(bench);
        CHECK(identical(bench, again));
        CHECK(toJson(bench) == toJson(again));
    }
}

TEST_CASE("the benches in assets are as the program would write them") {
    const std::string paths[] = {"assets/benches/pippin.loom.json",
                                 "assets/benches/free.loom.json"};
    for (const std::string& path : paths) {
        CAPTURE(path);
        const std::string text = repositoryFile(path);
        const Outcome<Bench> read = fromJson(text);
        REQUIRE(read);
        CHECK(toJson(read.value()) == text);
    }
}

TEST_CASE("what is written is JSON with format and version first") {
    const std::string text = toJson(pippin());
    const auto json = nlohmann::json::parse(text, nullptr, false);
    REQUIRE(json.is_object());
    CHECK(json["format"] == "loomwright bench");
    CHECK(json["version"] == 1);
    CHECK(text.rfind("{\n  \"format\": \"loomwright bench\",\n  \"version\": 1,", 0) == 0);
}

TEST_CASE("a stored file of version 1 still means what it meant") {
    const Outcome<Bench> read = fromJson(repositoryFile("tests/bench/files/version1.loom.json"));
    REQUIRE(read);
    const Bench& bench = read.value();
    CHECK(bench.board_m.x_m == 1.06);
    CHECK(bench.board_m.y_m == 0.7075);
    CHECK(bench.lastId == 90);
    REQUIRE(bench.kit.parts.size() == 4);
    CHECK(bench.kit.parts[0].charge == 0.25);
    CHECK(bench.kit.parts[1].charge == 1.0);
    CHECK(bench.kit.parts[3].rating == 100.0);
    CHECK(bench.kit.blades_A == std::vector<double>{3.0, 7.5});
    CHECK(bench.kit.readyMade[0].ends[1] == EndKind::Piggyback);
    CHECK(bench.kit.reels[0].area_m2 == 2.5e-6);
    CHECK(bench.kit.reels[0].sleeve == Sleeve::Blue);

    REQUIRE(bench.parts.size() == 5);
    CHECK(bench.parts[0].id.number == 3);
    CHECK(bench.parts[0].at_m.y_m == 0.55);
    CHECK(bench.parts[0].charge == 0.25);
    CHECK(bench.parts[1].kind == PartKind::Selector);
    CHECK(bench.parts[1].quarterTurns == 3);
    CHECK(bench.parts[1].position == 0);
    CHECK(bench.parts[2].condition == Condition::Welded);
    CHECK(bench.parts[3].rating == 0.0);
    CHECK(bench.parts[4].position == 0); // left out: at rest, key out

    REQUIRE(bench.cables.size() == 2);
    CHECK(bench.cables[0].condition == CableCondition::Charred);
    CHECK(bench.cables[0].area_m2 == 10e-6);
    CHECK(terminalName(bench, *bench.cables[0].ends[1].at) == "Q1 in");
    CHECK(bench.cables[1].label == "Tŷ ☂");
    CHECK(bench.cables[1].ends[0].loose_m.x_m == 0.125);
    CHECK(bench.cables[1].ends[1].kind == EndKind::Piggyback);
}

TEST_CASE("a file says only what it must; the rest is usual") {
    const Outcome<Bench> read = fromJson(R"({"format": "loomwright bench", "version": 1,
        "board": {"width": 1, "height": 1}, "cables": [],
        "parts": [{"id": 7, "kind": "selector", "ref": "S2", "at": [0.5, 0.5]}]})");
    REQUIRE(read);
    CHECK(read.value().lastId == 7);
    CHECK(read.value().kit.parts.empty());
    CHECK(read.value().parts[0].position == 1);
    CHECK(read.value().parts[0].quarterTurns == 0);
    CHECK(read.value().parts[0].condition == Condition::Sound);
    CHECK(toJson(read.value()).find("condition") == std::string::npos);
    CHECK(toJson(laid(trayOnly(), "B1")).find("\"position\"") == std::string::npos);
}

} // namespace loom::bench

// SPDX-License-Identifier: MIT
#include "bench/limits.h"
#include "sample_benches.h"

#include <cmath>
#include <set>

namespace loom::bench {

TEST_CASE("every kind of part is in the catalogue once, under its own word") {
    std::set<std::string> words;
    for (const PartKind kind : allKinds()) {
        CAPTURE(std::string(spec(kind).word));
        CHECK(spec(kind).kind == kind);
        CHECK(words.insert(spec(kind).word).second);
        REQUIRE(specFromWord(spec(kind).word));
        CHECK(specFromWord(spec(kind).word)->kind == kind);
    }
    CHECK(words.size() == 16);
    CHECK(specFromWord("anvil") == nullptr);
}

TEST_CASE("terminals lie on their part, bear words of their own and number the metals from 0") {
    for (const PartKind kind : allKinds()) {
        const PartSpec& row = spec(kind);
        CAPTURE(std::string(row.word));
        std::set<std::string> words;
        std::set<int> nodes;
        for (const TerminalSpec& terminal : row.terminals) {
            CAPTURE(std::string(terminal.word));
            CHECK(words.insert(terminal.word).second);
            nodes.insert(terminal.node);
            CHECK(std::fabs(terminal.x_m) <= row.width_m / 2);
            CHECK(std::fabs(terminal.y_m) <= row.height_m / 2);
        }
        CHECK(*nodes.begin() == 0);
        CHECK(*nodes.rbegin() == static_cast<int>(nodes.size()) - 1);
        const bool hasControl = !row.positions.empty();
        CHECK(row.restPosition < (hasControl ? static_cast<int>(row.positions.size()) : 1));
    }
}

// PIPPIN, Parts: ten ways, each one upper and one lower hole joined inside.
TEST_CASE("the connector block has ten ways of an upper and a lower hole, joined inside") {
    const PartSpec& block = spec(PartKind::Block);
    REQUIRE(block.terminals.size() == 20);
    for (int way = 1; way <= 10; ++way) {
        const TerminalSpec& upper = block.terminals[2 * way - 2];
        const TerminalSpec& lower = block.terminals[2 * way - 1];
        CHECK(upper.word == std::to_string(way) + " upper");
        CHECK(lower.word == std::to_string(way) + " lower");
        CHECK(upper.node == lower.node);
        CHECK(upper.y_m < lower.y_m);
        CHECK(upper.x_m == lower.x_m);
    }
}

TEST_CASE("words of ends and sleeves read back") {
    for (int i = 0; i < 6; ++i) {
        const auto kind = static_cast<EndKind>(i);
        CHECK(endFromWord(word(kind)) == kind);
    }
    for (int i = 0; i < 10; ++i) {
        const auto sleeve = static_cast<Sleeve>(i);
        CHECK(sleeveFromWord(word(sleeve)) == sleeve);
    }
    CHECK_FALSE(endFromWord("hook"));
    CHECK_FALSE(sleeveFromWord("Red"));
    CHECK_FALSE(sleeveFromWord(""));
}

// Common practice, no source: a ring goes over the stud of its size only.
TEST_CASE("each kind of end fits its own kinds of terminal only") {
    const TerminalKind all[] = {
        TerminalKind::StudM6, TerminalKind::StudM8, TerminalKind::Tab, TerminalKind::Clamp};

    const struct {
        EndKind end;
        TerminalKind only;
    } rows[] = {{EndKind::Bare, TerminalKind::Clamp},
                {EndKind::Ferrule, TerminalKind::Clamp},
                {EndKind::RingM6, TerminalKind::StudM6},
                {EndKind::RingM8, TerminalKind::StudM8},
                {EndKind::Spade, TerminalKind::Tab},
                {EndKind::Piggyback, TerminalKind::Tab}};

    for (const auto& row : rows) {
        for (const TerminalKind terminal : all) {
            CAPTURE(std::string(word(row.end)));
            CHECK(fits(row.end, terminal) == (terminal == row.only));
        }
    }
}

TEST_CASE("the usual end fits, and is a ferrule from 4 mm2 on") {
    for (const double area_m2 : {0.75e-6, 1e-6, 2.5e-6, 4e-6, 6e-6, 10e-6}) {
        for (const TerminalKind terminal :
             {TerminalKind::StudM6, TerminalKind::StudM8, TerminalKind::Tab, TerminalKind::Clamp})
            CHECK(fits(usualEnd(terminal, area_m2), terminal));
        CHECK((usualEnd(TerminalKind::Clamp, area_m2) == EndKind::Ferrule) == (area_m2 >= 4e-6));
    }
    CHECK(usualEnd(TerminalKind::Tab, 1e-6) == EndKind::Piggyback);
    CHECK(usualEnd(TerminalKind::Tab, 6e-6) == EndKind::Spade);
}

TEST_CASE("a quarter turn carries a terminal clockwise round the centre") {
    Bench bench = laid(trayOnly(), "F2", 0.7, 0.5);
    const TerminalRef in = terminal(bench, "F2", "in"); // 18 mm left of and 40 mm below the centre
    const Point expected[] = {{0.682, 0.54}, {0.66, 0.482}, {0.718, 0.46}, {0.74, 0.518}};
    for (int turns = 0; turns < 4; ++turns) {
        bench = done(bench, TurnPart{in.part, turns});
        CAPTURE(turns);
        CHECK(std::fabs(terminalAt(bench, in).x_m - expected[turns].x_m) < 1e-12);
        CHECK(std::fabs(terminalAt(bench, in).y_m - expected[turns].y_m) < 1e-12);
    }
}

TEST_CASE("terminals are called by reference and word") {
    const Bench bench = laid(trayOnly(), "K1");
    const TerminalRef open = terminal(bench, "K1", "normally open");
    CHECK(terminalName(bench, open) == "K1 normally open");
    CHECK_FALSE(findTerminal(bench, "K1", "plus"));
    CHECK_FALSE(findTerminal(bench, "K9", "common"));
    CHECK(terminalName(bench, {{77}, 0}) == "part 77");
    CHECK(terminalName(bench, {open.part, 200}) == "K1 terminal 200");
}

TEST_CASE("square millimetres and square metres name each other exactly") {
    for (int hundredths = 50; hundredths <= 2500; ++hundredths) {
        const double area_mm2 = hundredths / 100.0;
        const double area_m2 = area_m2FromMm2(area_mm2);
        CHECK(area_mm2FromM2(area_m2) == area_mm2);
        CHECK(wholeArea_m2(area_m2) == area_m2);
    }
    CHECK(area_m2FromMm2(0.75) == 0.75e-6);
    CHECK(area_m2FromMm2(6) == 6e-6);
    CHECK(area_m2FromMm2(10) == 10e-6);
}

} // namespace loom::bench

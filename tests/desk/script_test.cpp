// SPDX-License-Identifier: MIT
#include "attempt/attempt.h"
#include "bench/file.h"
#include "desk/desk.h"
#include "desk/script.h"
#include "said.h"

#include <doctest/doctest.h>

using namespace loom;
using namespace loom::desk;

namespace {

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += "[" + word + "]";
    return text;
}

bench::Bench pippin() {
    const auto outcome = bench::fromJson(run({"new", "pippin"}).out);
    REQUIRE(outcome);
    return outcome.value();
}

std::string described(const bench::Refusal& refusal) {
    return words::text(refusal.place) + " " + words::text(refusal.expected) + " | " +
           words::text(refusal.found);
}

std::string refusalOf(const std::string& text) {
    const auto lines = scriptFrom("s", text);
    if (!lines) return described(lines.refusal());
    REQUIRE(lines.value().size() == 1);
    const auto command = commandFrom(lines.value()[0], pippin());
    if (command) return "";
    return described(command.refusal());
}

} // namespace

TEST_CASE("a script is cut into timed lines of words") {
    const auto outcome = scriptFrom("s",
                                    "# start\n"
                                    "0.5 Q1 off; Q1 on   # turned\n"
                                    "\n"
                                    "  1 S3 held\r\n"
                                    "1.204\tjoin P-02 2 X1 \"10 upper\" ; free \"P-02\" 1");
    REQUIRE(outcome);

    struct Row {
        std::int64_t slice;
        const char *place, *words;
    };

    const Row rows[] = {{50, "s:2", "[Q1][off]"},
                        {50, "s:2", "[Q1][on]"},
                        {100, "s:4", "[S3][held]"},
                        {120, "s:5", "[join][P-02][2][X1][10 upper]"},
                        {120, "s:5", "[free][P-02][1]"}};
    REQUIRE(outcome.value().size() == std::size(rows));
    for (std::size_t i = 0; i < std::size(rows); ++i) {
        CAPTURE(rows[i].words);
        CHECK(outcome.value()[i].slice == rows[i].slice);
        CHECK(outcome.value()[i].place == rows[i].place);
        CHECK(joined(outcome.value()[i].words) == rows[i].words);
    }
}

TEST_CASE("an empty script is a script") {
    for (const char* text : {"", "\n\n", "# nothing", " ; ;"}) {
        const auto outcome = scriptFrom("s", text);
        REQUIRE(outcome);
        CHECK(outcome.value().empty());
    }
}

TEST_CASE("what a script cannot mean is refused with line, expectation and finding") {
    struct Row {
        const char *text, *refusal;
    };

    const Row rows[] = {
        {"2 Q1 off\n1 Q1 on", "s:2 a time from 2 s to 100 h | 1"},
        {"-1 Q1 off", "s:1 a time from 0 s to 100 h | -1"},
        {"1e9 Q1 off", "s:1 a time from 0 s to 100 h | 1e9"},
        {"\n3.5", "s:2 a command after the time | none"},
        {"join P-02 2 X1 \"10", "s:1 a closing \" | the end of the line"},
        {"join P-02 3 X1 10", "s:1 end 1 or 2 | 3"},
        {"join P-02", "s:1 end 1 or 2 | the end of the line"},
        {"join P-99 1 X1 10", "s:1 the label of a cable on the bench | P-99"},
        {"join P-14 1 X1 10", "s:1 P-14#1 to P-14#2, for several carry this label | P-14"},
        {"join P-02 2 B1 normally open", "s:1 one of its terminals: plus, minus | normally open"},
        {"join P-02 2 Z9 plus", "s:1 the reference of a part on the bench | Z9"},
        {"Q1 halfway", "s:1 Q1 and one of: key out, off, on | halfway"},
        {"E1 on", "s:1 E1 and one of: nothing to set | on"},
        {"F2 fit big", "s:1 a rating in A, or none | big"},
        {"turn E1 4", "s:1 0 to 3 quarter turns | 4"},
        {"move E1 0.5", "s:1 metres from the top edge | the end of the line"},
        {"cut B1 plus", "s:1 'to' and another terminal | the end of the line"},
        {"cut B1 plus to X1 3 sleeve pink", "s:1 a sleeve colour such as red or black | pink"},
        {"cut B1 plus to X1 3 mm2 thick", "s:1 a cross-section in mm2 | thick"},
        {"undo twice", "s:1 the end of the line | twice"},
        {"frobnicate",
         "s:1 a part's reference, or lay, move, turn, remove, take, cut, join, free, "
         "undo, redo, or another command of `loomwright --help` | frobnicate"},
        {"strip P-02 1 long", "s:1 millimetres | long"},
        {"press P-02 1 hook",
         "s:1 bare, ferrule, ring M6, ring M8, spade or piggyback spade | hook"},
        {"press P-02 1",
         "s:1 bare, ferrule, ring M6, ring M8, spade or piggyback spade | the end of the line"},
        {"screw X1 3 upper", "s:1 open, new, or 'to' and a torque in N m | the end of the line"},
        {"screw X1 11 open",
         "s:1 one of its terminals: 1 upper, 1 lower, 2 upper, 2 lower, 3 upper, 3 lower, 4 upper, "
         "4 lower, 5 upper, 5 lower, 6 upper, 6 lower, 7 upper, 7 lower, 8 upper, 8 lower, 9 "
         "upper, 9 lower, 10 upper, 10 lower | 11"},
        {"untie 1", "s:1 which of the ties, from 1 | 1"},
        {"meter up", "s:1 out, hung, fuse, off, volts, ohms, tone or amperes | up"},
        {"probe green B1 plus", "s:1 red or black | green"},
        {"axle M1 stuck", "s:1 blocked or clear | stuck"},
        {"mark P-02 maybe", "s:1 right, wrong or none | maybe"},
        {"look P-02 3", "s:1 end 1 or 2 | 3"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text);
        CHECK(refusalOf(row.text) == row.refusal);
    }
}

TEST_CASE("each command of a script does what it says") {
    attempt::Attempt attempt(pippin());
    const auto outcome =
        scriptFrom("s",
                   "Q1 off; Q1 on; S2 forward; F2 fit 10; F3 fit none\n"
                   "remove P-02; take P-02 0.1 0.1; join P-02 1 B1 minus\n"
                   "join P-02 2 X1 10; free P-14#2 2; remove M1; lay M1 1.6 1.0\n"
                   "move E1 1.5 0.3; turn E1 1\n"
                   "cut M1 lead 1 to K1 common mm2 6 sleeve black length 0.8 label "
                   "new\n"
                   "undo; redo; S3 held");
    REQUIRE(outcome);
    for (const ScriptLine& line : outcome.value()) {
        CAPTURE(line.place);
        CAPTURE(line.words[0]);
        const auto command = commandFrom(line, attempt.bench());
        REQUIRE(command);
        const auto refused = attempt.ask(command.value());
        if (refused) FAIL(refused->place, ": ", refused->expected, ", ", refused->found);
    }
    const bench::Bench& bench = attempt.bench();
    const auto part = [&](const char* ref) { return *bench::findPart(bench, std::string(ref)); };
    CHECK(part("Q1").position == 2);
    CHECK(part("S2").position == 2);
    CHECK(part("S3").position == 1);
    CHECK(part("F2").rating == 10.0);
    CHECK(part("F3").rating == 0.0);
    CHECK(part("E1").quarterTurns == 1);
    CHECK(part("E1").at_m.x_m == 1.5);
    CHECK(part("M1").at_m.y_m == 1.0);
    const bench::Cable& last = bench.cables.back();
    CHECK(last.label == "new");
    CHECK(last.area_m2 == 6e-6);
    CHECK(last.length_m == 0.8);
    CHECK(last.sleeve == bench::Sleeve::Black);
    int loose = 0;
    for (const bench::Cable& cable : bench.cables) {
        if (cable.label == "P-02") CHECK((cable.ends[0].at && cable.ends[1].at));
        if (cable.label == "P-14") loose += !cable.ends[0].at + !cable.ends[1].at;
    }
    CHECK(loose == 1);
}

TEST_CASE("a script makes an end, measures and cross-checks") {
    attempt::Attempt attempt(pippin());
    const auto outcome =
        scriptFrom("s",
                   "free P-02 2; screw X1 10 lower open; screw X1 10 upper open; "
                   "cut M1 lead 1 to K1 common mm2 6 sleeve black label N; free N 1\n"
                   "strip N 1 9; twist N 1; press N 1 ring M6; join N 1 M1 lead 1; finish N 2\n"
                   "meter out 1 0.1; meter volts; probe red B1 plus; probe black end P-02 2\n"
                   "tie P-06 0.5; tie P-06 0.25 with P-02 0.5 at 0.3 0.4; untie 1; tug P-06 1\n"
                   "screw B1 plus to 0.5; screw B1 plus new; B1 strapped\n"
                   "axle M1 blocked by P-06; axle M1 clear; axle M1 blocked\n"
                   "mark P-02 wrong; look P-02 2; look M1; hand-in; call-clear; fault P-02 2\n"
                   "probe red off; meter fuse; meter tone");
    REQUIRE(outcome);
    for (const ScriptLine& line : outcome.value()) {
        CAPTURE(line.place);
        CAPTURE(line.words[0]);
        const auto command = commandFrom(line, attempt.bench());
        if (!command) FAIL(command.refusal().expected, ", ", command.refusal().found);
        const auto refused = attempt.ask(command.value());
        if (refused) FAIL(refused->place, ": ", refused->expected, ", ", refused->found);
    }
    const bench::Bench& bench = attempt.bench();
    CHECK(bench::findPart(bench, std::string("B1"))->position == 1);
    CHECK(bench::findPart(bench, std::string("M1"))->obstructed);
    REQUIRE(bench.meter);
    CHECK(bench.meter->range == bench::MeterRange::Tone);
    CHECK_FALSE(bench.meter->probes[0].terminal);
    CHECK(bench.meter->probes[1].end == 1);
    REQUIRE(bench.ties.size() == 1);
    CHECK(bench.ties[0].otherAlong == 0.5);
    const auto& last = attempt.record().entries;
    int sheet = 0;
    for (const attempt::Entry& entry : last)
        sheet += std::holds_alternative<attempt::MarkOff>(entry.command) ||
                 std::holds_alternative<attempt::LookAt>(entry.command) ||
                 std::holds_alternative<attempt::HandInSheet>(entry.command) ||
                 std::holds_alternative<attempt::CallClear>(entry.command) ||
                 std::holds_alternative<attempt::NameFault>(entry.command);
    CHECK(sheet == 6);
}

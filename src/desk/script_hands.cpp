// SPDX-License-Identifier: MIT
// The lines of a script whose first word says all of what is asked. Lengths of an end are in
// millimetres, as they are read on a strip scale.
#include "bench/catalogue.h"
#include "bench/file_words.h"
#include "desk/line_reader.h"

namespace loom::desk {

namespace {

using attempt::Command;

bench::TerminalRef terminal(LineReader& words, std::initializer_list<const char*> stops) {
    const std::string ref = words.next("a part's reference");
    return words.take(terminalNamed(words.bench, ref, words.phrase(stops)));
}

namespace field = bench::field;

// What stands for a field, by its type and its tag.
void read(LineReader& words, bench::CableId& value) {
    value = words.cable();
}

void read(LineReader& words, bench::Point& value) {
    value = words.pointOrMiddle();
}

void read(LineReader& words, int& value, field::EndNumber) {
    value = words.end();
}

void read(LineReader& words, int& value, field::EndOrNone) {
    if (!words.ended()) value = words.end();
}

void read(LineReader& words, double& value, field::Millimetres) {
    value = words.number("millimetres") / 1000.0;
}

void read(LineReader& words, std::string& value, field::NameOrEmpty) {
    value = words.next("a cable's label");
}

void read(LineReader& words, std::string& value, field::Name) {
    value = words.next("a part's reference or a cable's label");
}

void read(LineReader& words, bench::EndKind& value) {
    const std::string word = words.phrase({});
    const auto kind = bench::endFromWord(word.c_str());
    if (!kind)
        words.refuse("bare, ferrule, ring M6, ring M8, spade or piggyback spade",
                     word.empty() ? words.peek() : word);
    value = kind.value_or(bench::EndKind::Bare);
}

void read(LineReader& words, attempt::SheetMark& value) {
    for (std::size_t i = 0; i < std::size(attempt::kSheetMarkWords); ++i) {
        if (!words.skip(attempt::kSheetMarkWords[i])) continue;
        value = static_cast<attempt::SheetMark>(i);
        return;
    }
    words.refuse("right, wrong or none", words.peek());
}

// A line that gives the fields of what it asks for one after the other: "strip P-06 1 10".
template <class Asked> Command plain(LineReader& words) {
    Asked asked;
    Asked::fields([&](const char*, auto of, auto... tag) { read(words, asked.*of, tag...); });
    return asked;
}

// "screw X1 3 upper open", "... new", "... to 0.5"
Command screw(LineReader& words) {
    const bench::TerminalRef at = terminal(words, {"open", "new", "to"});
    if (words.skip("new")) return bench::MendScrew{at};
    if (words.skip("open")) return bench::TurnScrew{at, 0.0};
    if (!words.skip("to")) words.refuse("open, new, or 'to' and a torque in N m", words.peek());
    return bench::TurnScrew{at, words.number("a torque in N m")};
}

// "tie P-01 0.5 at 0.3 0.4", "tie P-01 0.5 with P-02 0.4"
Command tie(LineReader& words) {
    bench::TieCable tie;
    tie.cable = words.cable();
    tie.along = words.number("a share of its length, 0 to 1");
    if (words.skip("with")) {
        tie.other = words.cable();
        tie.otherAlong = words.number("a share of its length, 0 to 1");
    }
    words.skip("at");
    tie.at_m = words.pointOrMiddle();
    return tie;
}

Command untie(LineReader& words) {
    const auto& ties = words.bench.ties;
    const int which = words.whole("which of the ties, from 1", 1, static_cast<int>(ties.size()));
    if (words.refusal()) return bench::CutTie{};
    return bench::CutTie{ties[static_cast<std::size_t>(which) - 1].id};
}

Command meter(LineReader& words) {
    if (words.skip("hung")) return bench::HangMeter{};
    if (words.skip("fuse")) return bench::FitMeterFuse{};
    if (words.skip("out")) return bench::PlaceMeter{words.pointOrMiddle()};
    for (std::size_t i = 0; i < std::size(bench::kRangeWords); ++i)
        if (words.skip(bench::kRangeWords[i]))
            return bench::SetMeter{static_cast<bench::MeterRange>(i)};
    words.refuse("out, hung, fuse, off, volts, ohms, tone or amperes", words.peek());
    return bench::HangMeter{};
}

// "probe red K1 coil a", "probe black end P-06 2", "probe red off"
Command probe(LineReader& words) {
    bench::Probe probe;
    if (words.skip("black"))
        probe.which = 1;
    else if (!words.skip("red"))
        words.refuse("red or black", words.peek());
    if (words.skip("off")) return probe;
    if (words.skip("end")) {
        probe.to.cable = words.cable();
        probe.to.end = words.end();
    } else {
        probe.to.terminal = terminal(words, {});
    }
    return probe;
}

// "axle M1 blocked by P-13", "axle M1 clear"
Command axle(LineReader& words) {
    bench::ObstructAxle found;
    found.motor = words.part();
    found.obstructed = words.skip("blocked");
    if (!found.obstructed && !words.skip("clear")) words.refuse("blocked or clear", words.peek());
    if (words.skip("by")) found.by = words.cable();
    return found;
}

struct Row {
    const char* word;
    Command (*read)(LineReader&);
};

constexpr Row kRows[] = {{"take", plain<bench::TakeCable>},
                         {"free", plain<bench::FreeEnd>},
                         {"strip", plain<bench::StripEnd>},
                         {"twist", plain<bench::TwistEnd>},
                         {"press", plain<bench::PressEnd>},
                         {"push", plain<bench::PushEnd>},
                         {"screw", screw},
                         {"tug", plain<bench::TugEnd>},
                         {"finish", plain<bench::MakeEndWell>},
                         {"tie", tie},
                         {"untie", untie},
                         {"meter", meter},
                         {"probe", probe},
                         {"axle", axle},
                         {"mark", plain<attempt::MarkOff>},
                         {"hand-in", plain<attempt::HandInSheet>},
                         {"look", plain<attempt::LookAt>},
                         {"call-clear", plain<attempt::CallClear>},
                         {"fault", plain<attempt::NameFault>},
                         {"undo", plain<attempt::Undo>},
                         {"redo", plain<attempt::Redo>}};

} // namespace

std::optional<Command> handsOnCommand(LineReader& reader) {
    for (const Row& row : kRows)
        if (reader.skip(row.word)) return row.read(reader);
    return std::nullopt;
}

} // namespace loom::desk

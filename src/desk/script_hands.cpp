// SPDX-License-Identifier: MIT
// The lines of a script that make ends, turn screws, tie, measure and cross-check. Lengths of an end
// are in millimetres, as they are read on a strip scale.
#include "bench/catalogue.h"
#include "desk/line_reader.h"

namespace loom::desk {

namespace {

using attempt::Command;

double millimetres(LineReader& words) {
    return words.number("millimetres") / 1000.0;
}

bench::TerminalRef terminal(LineReader& words, std::initializer_list<const char*> stops) {
    const std::string ref = words.next("a part's reference");
    return words.take(terminalNamed(words.bench, ref, words.phrase(stops)));
}

Command strip(LineReader& words) {
    const bench::CableId cable = words.cable();
    const int end = words.end();
    return bench::StripEnd{cable, end, millimetres(words)};
}

Command twist(LineReader& words) {
    const bench::CableId cable = words.cable();
    return bench::TwistEnd{cable, words.end()};
}

Command press(LineReader& words) {
    bench::PressEnd press;
    press.cable = words.cable();
    press.end = words.end();
    const std::string word = words.phrase({});
    const auto kind = bench::endFromWord(word.c_str());
    if (!kind)
        words.refuse("bare, ferrule, ring M6, ring M8, spade or piggyback spade",
                     word.empty() ? words.peek() : word);
    press.kind = kind.value_or(bench::EndKind::Bare);
    return press;
}

Command push(LineReader& words) {
    const bench::CableId cable = words.cable();
    const int end = words.end();
    return bench::PushEnd{cable, end, millimetres(words)};
}

Command tug(LineReader& words) {
    const bench::CableId cable = words.cable();
    return bench::TugEnd{cable, words.end()};
}

Command finish(LineReader& words) {
    const bench::CableId cable = words.cable();
    return bench::MakeEndWell{cable, words.end()};
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
    const std::pair<const char*, bench::MeterRange> ranges[] = {
        {"off", bench::MeterRange::Off},
        {"volts", bench::MeterRange::Volts},
        {"ohms", bench::MeterRange::Ohms},
        {"tone", bench::MeterRange::Tone},
        {"amperes", bench::MeterRange::Amperes}};
    for (const auto& [word, range] : ranges)
        if (words.skip(word)) return bench::SetMeter{range};
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

Command mark(LineReader& words) {
    attempt::MarkOff mark;
    mark.label = words.next("a cable's label");
    if (words.skip("right"))
        mark.mark = attempt::SheetMark::Right;
    else if (words.skip("wrong"))
        mark.mark = attempt::SheetMark::Wrong;
    else if (words.skip("none"))
        mark.mark = attempt::SheetMark::None;
    else
        words.refuse("right, wrong or none", words.peek());
    return mark;
}

Command look(LineReader& words) {
    attempt::LookAt look;
    look.name = words.next("a part's reference or a cable's label");
    if (!words.ended()) look.end = words.end();
    return look;
}

Command fault(LineReader& words) {
    attempt::NameFault fault;
    fault.name = words.next("a part's reference or a cable's label");
    if (!words.ended()) fault.end = words.end();
    return fault;
}

Command handIn(LineReader&) {
    return attempt::HandInSheet{};
}

Command call(LineReader&) {
    return attempt::CallClear{};
}

struct Row {
    const char* word;
    Command (*read)(LineReader&);
};

constexpr Row rows[] = {{"strip", strip},
                        {"twist", twist},
                        {"press", press},
                        {"push", push},
                        {"screw", screw},
                        {"tug", tug},
                        {"finish", finish},
                        {"tie", tie},
                        {"untie", untie},
                        {"meter", meter},
                        {"probe", probe},
                        {"axle", axle},
                        {"mark", mark},
                        {"hand-in", handIn},
                        {"look", look},
                        {"call-clear", call},
                        {"fault", fault}};

} // namespace

std::optional<Command> handsOnCommand(LineReader& reader) {
    for (const Row& row : rows)
        if (reader.skip(row.word)) return row.read(reader);
    return std::nullopt;
}

} // namespace loom::desk

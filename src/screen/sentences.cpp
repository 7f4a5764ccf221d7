// SPDX-License-Identifier: MIT
// One plain sentence for a refusal or an event. The keys are "refusal/<why>", "event/<word>".
#include "screen/sentences.h"

namespace loom::screen {
namespace {

const char* keyOf(bench::Why why) {
    using bench::Why;
    switch (why) {
    case Why::UnknownPart:
        return "refusal/unknown-part";
    case Why::UnknownCable:
        return "refusal/unknown-cable";
    case Why::UnknownTerminal:
        return "refusal/unknown-terminal";
    case Why::NotInTray:
        return "refusal/not-in-tray";
    case Why::WrongEnd:
        return "refusal/wrong-end";
    case Why::TerminalFull:
        return "refusal/terminal-full";
    case Why::SameTerminal:
        return "refusal/same-terminal";
    case Why::BladeBlocks:
        return "refusal/blade-blocks";
    case Why::NoSuchPosition:
        return "refusal/no-such-position";
    case Why::KeyNotIn:
        return "refusal/key-not-in";
    case Why::ScrewClosed:
        return "refusal/screw-closed";
    case Why::ScrewBroken:
        return "refusal/screw-broken";
    case Why::NotJoined:
        return "refusal/not-joined";
    case Why::NotStripped:
        return "refusal/not-stripped";
    case Why::UnknownTie:
        return "refusal/unknown-tie";
    case Why::MeterAway:
        return "refusal/meter-away";
    case Why::OutOfRange:
        return "refusal/out-of-range";
    case Why::NotANumber:
        return "refusal/not-a-number";
    case Why::TooMany:
        return "refusal/too-many";
    case Why::NothingToUndo:
        return "refusal/nothing-to-undo";
    case Why::NothingToRedo:
        return "refusal/nothing-to-redo";
    case Why::NotJson:
        return "refusal/not-json";
    case Why::WrongFormat:
        return "refusal/wrong-format";
    case Why::LaterVersion:
        return "refusal/later-version";
    case Why::Missing:
        return "refusal/missing";
    case Why::WrongType:
        return "refusal/wrong-type";
    case Why::Duplicate:
        return "refusal/duplicate";
    case Why::UnknownWord:
        return "refusal/unknown-word";
    }
    return "refusal/unknown-word";
}

std::string told(double number, circuit::Unit unit) {
    using circuit::Unit;
    switch (unit) {
    case Unit::Ampere:
        return amount(number, "A");
    case Unit::Volt:
        return amount(number, "V");
    case Unit::Second:
        return amount(number, "s");
    case Unit::Kelvin:
        return celsius(number);
    case Unit::Share:
        return amount(number * 100.0, "%");
    case Unit::None:
        break;
    }
    return "";
}

} // namespace

std::string sentence(const bench::Refusal& refusal) {
    return words(keyOf(refusal.why), {refusal.place, refusal.expected, refusal.found});
}

std::string sentence(const attempt::BenchEvent& event) {
    const circuit::EventRow& row = attempt::rowOf(event);
    return words(std::string("event/") + row.word,
                 {event.name, told(event.first, row.first), told(event.second, row.second)});
}

} // namespace loom::screen

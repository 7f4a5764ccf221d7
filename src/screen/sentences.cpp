// SPDX-License-Identifier: MIT
// One plain sentence for a refusal or an event. The keys are "refusal/<why>", "event/<kind>".
#include "screen/sentences.h"

#include <cstring>

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

// The key, and the units of the two numbers ("" for none; "K" is told in °C).
struct Telling {
    const char *key, *value, *second;
};

Telling tellingOf(circuit::EventKind kind) {
    using circuit::EventKind;
    switch (kind) {
    case EventKind::FuseMelted:
        return {"event/fuse-melted", "A", "s"};
    case EventKind::PulledIn:
        return {"event/pulled-in", "V", ""};
    case EventKind::DroppedOut:
        return {"event/dropped-out", "V", ""};
    case EventKind::CoilKicked:
        return {"event/coil-kicked", "V", ""};
    case EventKind::ContactWelded:
        return {"event/contact-welded", "A", ""};
    case EventKind::SleeveSoftened:
        return {"event/sleeve-softened", "A", "K"};
    case EventKind::SleeveSmoking:
        return {"event/sleeve-smoking", "A", "K"};
    case EventKind::SleeveBurning:
        return {"event/sleeve-burning", "A", "K"};
    case EventKind::CableParted:
        return {"event/cable-parted", "A", "K"};
    case EventKind::JointHot:
        return {"event/joint-hot", "A", "K"};
    case EventKind::LampFailed:
        return {"event/lamp-failed", "V", ""};
    case EventKind::BatteryAbused:
        return {"event/battery-abused", "A", ""};
    case EventKind::BatteryFlat:
        return {"event/battery-flat", "share", ""};
    case EventKind::BatteryCharged:
        return {"event/battery-charged", "A", ""};
    case EventKind::MotorStarted:
        return {"event/motor-started", "A", ""};
    case EventKind::MotorStopped:
        return {"event/motor-stopped", "A", ""};
    case EventKind::MotorStalled:
        return {"event/motor-stalled", "A", ""};
    case EventKind::BatteryGassing:
        return {"event/battery-gassing", "A", "V"};
    case EventKind::CableTouched:
        return {"event/cable-touched", "A", ""};
    }
    return {"event/pulled-in", "", ""};
}

// A strand that stood out, and the meter's fuse, are neither a part nor a cable.
Telling tellingOf(const attempt::BenchEvent& event) {
    if (event.strandEnd >= 0) return {"event/strand-burnt", "A", ""};
    if (attempt::isOfMeter(event)) return {"event/meter-fuse", "A", ""};
    return tellingOf(event.kind);
}

std::string told(double value, const char* unit) {
    if (std::strcmp(unit, "") == 0) return "";
    if (std::strcmp(unit, "K") == 0) return celsius(value);
    if (std::strcmp(unit, "share") == 0) return amount(value * 100.0, "%");
    return amount(value, unit);
}

} // namespace

std::string sentence(const bench::Refusal& refusal) {
    return words(keyOf(refusal.why), {refusal.place, refusal.expected, refusal.found});
}

std::string sentence(const attempt::BenchEvent& event) {
    const Telling telling = tellingOf(event);
    return words(
        telling.key,
        {event.name, told(event.value, telling.value), told(event.second, telling.second)});
}

} // namespace loom::screen

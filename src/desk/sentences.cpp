// SPDX-License-Identifier: MIT
#include "desk/sentences.h"

#include "bench/wiring.h"
#include "desk/numbers.h"

namespace loom::desk {

namespace {

using circuit::EventKind;
using circuit::DiagnosisKind;

std::string celsius(double temp_K) {
    return amount(temp_K - 273.15, "C");
}

std::string hot(const attempt::BenchEvent& h, const char* did) {
    return did + std::string(" at ") + celsius(h.second) + ", carrying " + amount(h.first, "A");
}

std::string deed(const attempt::BenchEvent& h) {
    switch (h.kind) {
    case EventKind::FuseMelted:
        return "opened at " + amount(h.first, "A") + ", " + amount(h.second, "s") +
               " after its current passed the rating";
    case EventKind::PulledIn:
        return "pulled in at " + amount(h.first, "V");
    case EventKind::DroppedOut:
        return "dropped out at " + amount(h.first, "V");
    case EventKind::CoilKicked:
        return "kicked up to " + amount(h.first, "V") + " at its coil";
    case EventKind::ContactWelded:
        return "welded its contact at " + amount(h.first, "A");
    case EventKind::SleeveSoftened:
        return hot(h, "softened its sleeve");
    case EventKind::SleeveSmoking:
        return hot(h, "began to smoke");
    case EventKind::SleeveBurning:
        return hot(h, "caught fire");
    case EventKind::CableParted:
        return hot(h, "burnt through");
    case EventKind::JointHot:
        return hot(h, "grew hot at a loose end");
    case EventKind::LampFailed:
        return "lost its filament at " + amount(h.first, "V");
    case EventKind::BatteryAbused:
        return "gave " + amount(h.first, "A") + ", more than it may";
    case EventKind::BatteryFlat:
        return "is flat, at " + amount(100.0 * h.first, "%") + " charge";
    case EventKind::BatteryCharged:
        return "is driven backwards by another with " + amount(h.first, "A");
    case EventKind::MotorStarted:
        return "began to turn at " + amount(h.first, "A");
    case EventKind::MotorStopped:
        return "came to rest at " + amount(h.first, "A");
    case EventKind::MotorStalled:
        return "is held still at " + amount(h.first, "A");
    case EventKind::BatteryGassing:
        return "gives off gas, charged with " + amount(h.first, "A");
    case EventKind::CableTouched:
        return "lies bare on the cable beside it at " + amount(h.first, "A");
    }
    return "";
}

std::string nameOf(circuit::Key key, const bench::Bench& bench) {
    if (const bench::Part* part = bench::findPart(bench, bench::partOf(key))) return part->ref;
    if (const bench::Cable* cable = bench::findCable(bench, bench::cableOf(key)))
        return cable->label;
    return "something";
}

const char* remark(DiagnosisKind kind) {
    switch (kind) {
    case DiagnosisKind::Floating:
        return nullptr;
    case DiagnosisKind::Contradictory:
        return "sources contradict one another at ";
    case DiagnosisKind::BadValue:
        return "a value out of range was left out at ";
    case DiagnosisKind::DidNotSettle:
        return "the numbers are approximate, they did not settle at ";
    }
    return nullptr;
}

} // namespace

std::string sentence(const attempt::BenchEvent& event) {
    if (event.strandEnd >= 0)
        return event.name + " burnt off the strand that stood out, with " +
               amount(event.first, "A");
    const std::string name = attempt::isOfMeter(event) ? "the meter's fuse" : event.name;
    return (name.empty() ? "something" : name) + " " + deed(event);
}

std::string sentence(const circuit::Diagnosis& diagnosis, const bench::Bench& bench) {
    const char* what = remark(diagnosis.kind);
    if (!what) return "";
    if (diagnosis.elements.empty()) return std::string(what) + "some moment";
    std::string text = what;
    for (std::size_t i = 0; i < diagnosis.elements.size(); ++i)
        text += (i ? ", " : "") + nameOf(diagnosis.elements[i], bench);
    return text;
}

} // namespace loom::desk

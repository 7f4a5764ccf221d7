// SPDX-License-Identifier: MIT
#include "lesson/procedure.h"

#include "bench/catalogue.h"
#include "lesson/energized.h"
#include "lesson/retrace.h"

#include <algorithm>

namespace loom::lesson {
namespace {

using bench::Bench;
using bench::PartClass;
using plan::kStepCount;
using plan::Step;

// Of Part::position.
constexpr int kStrapped = 1, kRockerOnPosition = 1, heldPosition = 1;
constexpr std::uint8_t kPlusTerminal = 0;

std::size_t indexOf(Step step) {
    return static_cast<std::size_t>(step);
}

// Steps that stand as long as the bench stands so, before the run.
constexpr Step kStates[] = {Step::Batteries,
                            Step::BatteryEnds,
                            Step::SeriesLink,
                            Step::AxleClear,
                            Step::KeyOn,
                            Step::RockerOn};

bool isState(Step step) {
    return step == Step::IsolatorOff || step == Step::AxleClear;
}

bool isPuttingAway(Step step) {
    return step >= Step::Off;
}

std::size_t countOf(const Bench& start, PartClass partClass) {
    std::size_t count = 0;
    for (const bench::PartSlot& slot : start.kit.parts)
        if (isA(slot.kind, partClass)) ++count;
    const auto inKit = [&](const bench::Part& part) {
        const auto& slots = start.kit.parts;
        return std::any_of(slots.begin(), slots.end(), [&](const bench::PartSlot& slot) {
            return slot.ref == part.ref;
        });
    };
    for (const bench::Part& part : start.parts)
        if (isA(part, partClass) && !inKit(part)) ++count;
    return count;
}

// Which steps there are for what the exercise has.
std::vector<Step> countingSteps(const Bench& start, bool plan) {
    const auto has = [&](PartClass partClass) { return countOf(start, partClass) > 0; };
    const bool isolator = has(PartClass::Isolator), battery = has(PartClass::Battery),
               rocker = has(PartClass::LampSwitch), run = has(PartClass::Button),
               link = countOf(start, PartClass::Battery) > 1;
    const bool counts[kStepCount] = {isolator,
                                     battery,
                                     battery,
                                     link,
                                     has(PartClass::Motor),
                                     plan,
                                     isolator,
                                     rocker,
                                     rocker,
                                     run,
                                     run,
                                     run && (isolator || rocker),
                                     run && isolator,
                                     run && battery};
    std::vector<Step> steps;
    for (int i = 0; i < kStepCount; ++i)
        if (counts[i]) steps.push_back(static_cast<Step>(i));
    return steps;
}

bool allAt(const Bench& bench, PartClass partClass, int position) {
    bool any = false;
    for (const bench::Part& part : bench.parts) {
        if (!isA(part, partClass)) continue;
        if (part.position != position) return false;
        any = true;
    }
    return any;
}

bool anyAt(const Bench& bench, PartClass partClass, int position) {
    return std::any_of(bench.parts.begin(), bench.parts.end(), [&](const bench::Part& part) {
        return isA(part, partClass) && part.position == position;
    });
}

const bench::Part* batteryAt(const Bench& bench, const bench::CableEnd& end) {
    const bench::Part* part = end.at ? bench::findPart(bench, end.at->part) : nullptr;
    return part && isA(*part, PartClass::Battery) ? part : nullptr;
}

} // namespace

Procedure::Procedure(const attempt::Attempt& attempt, const plan::Plan* plan)
    : Procedure(attempt.bench(), attempt.now_slices(), plan) {
    revision = attempt.revision();
}

Procedure::Procedure(const Bench& start, std::int64_t slice, const plan::Plan* plan)
    : batteries(countOf(start, PartClass::Battery)) {
    for (const Step step : countingSteps(start, plan != nullptr)) {
        StepSeen counted;
        counted.step = step;
        seen.push_back(counted);
    }
    if (plan)
        for (const plan::PlanCable& cable : plan->cables)
            toMark.insert(cable.label);
    look(start, slice, nullptr);
    for (StepSeen& step : seen) // what was so from the beginning came at no wrong moment
        step.early = false;
}

void Procedure::look(const attempt::Attempt& attempt, const attempt::Command* command) {
    if (!command && attempt.revision() == revision) return;
    revision = attempt.revision();
    look(attempt.bench(), attempt.now_slices(), command);
}

void Procedure::look(const Bench& bench, std::int64_t slice, const attempt::Command* command) {
    const Standing now = standingOn(bench);
    const auto begins = [&](Step step) { return now.so[indexOf(step)] && !was.so[indexOf(step)]; };
    const bool buildsUp = begins(Step::Batteries) || begins(Step::SeriesLink) ||
                          begins(Step::KeyOn) || now.batteryEnds > was.batteryEnds;
    if (isDone(Step::Run) && buildsUp) startOver(now);
    if (begins(Step::KeyOn)) clearFrom(Step::LampSeen);
    if (!isDone(Step::Run)) {
        followIsolator(now, slice);
        followStates(now, slice);
    }
    if (begins(Step::KeyOn) && was.so[indexOf(Step::RockerOn)]) rockerWasOn(slice);
    if (command) follow(*command, bench, slice);
    if (isDone(Step::Run)) followPuttingAway(now, slice);
    was = now;
}

StepSeen* Procedure::find(Step step) {
    for (StepSeen& counted : seen)
        if (counted.step == step) return &counted;
    return nullptr;
}

bool Procedure::isDone(Step step) const {
    return std::any_of(seen.begin(), seen.end(), [&](const StepSeen& counted) {
        return counted.step == step && counted.done;
    });
}

// Early when one before it, of powering up or of putting away, has not been done.
void Procedure::mark(Step step, std::int64_t slice) {
    StepSeen* done = find(step);
    if (!done) return;
    *done = {step, true, false, {}, slice};
    if (isState(step)) return;
    for (const StepSeen& other : seen) {
        if (other.step == step) return;
        if (other.done || isPuttingAway(other.step) != isPuttingAway(step)) continue;
        done->early = true;
        done->before = other.step;
        return;
    }
}

void Procedure::clear(Step step) {
    if (StepSeen* cleared = find(step)) *cleared = {step, false, false, {}, 0};
}

void Procedure::clearFrom(Step step) {
    for (int i = static_cast<int>(step); i < kStepCount; ++i)
        clear(static_cast<Step>(i));
    linkOnTooLong = false;
}

Procedure::Standing Procedure::standingOn(const Bench& bench) const {
    Standing now;
    const auto set = [&](Step step, bool so) { now.so[indexOf(step)] = so; };
    std::size_t in = 0, laid = 0;
    bool free = true;
    for (const bench::Part& part : bench.parts) {
        if (isA(part, PartClass::Battery)) ++laid;
        if (isA(part, PartClass::Battery) && part.position == kStrapped) ++in;
        if (isA(part, PartClass::Motor) && part.obstructed) free = false;
    }
    bool plus = false, minus = false, link = false;
    for (const bench::Cable& cable : bench.cables) {
        const bench::Part* on[] = {batteryAt(bench, cable.ends[0]),
                                   batteryAt(bench, cable.ends[1])};
        if (on[0] && on[1] && on[0] != on[1]) {
            link = true;
            continue;
        }
        for (std::size_t end = 0; end < 2; ++end) {
            if (!on[end] || !cable.ends[1 - end].at) continue; // half a link, or a cable half off
            ++now.batteryEnds;
            (cable.ends[end].at->terminal == kPlusTerminal ? plus : minus) = true;
        }
    }
    now.keyOut = !anyAt(bench, PartClass::Isolator, bench::kIsolatorOff) &&
                 !anyAt(bench, PartClass::Isolator, bench::kIsolatorOn);
    now.batteryOut = laid == 0;
    set(Step::Batteries, batteries > 0 && in == batteries);
    set(Step::BatteryEnds, plus && minus);
    set(Step::SeriesLink, link);
    set(Step::AxleClear, free && anyAt(bench, PartClass::Motor, 0));
    set(Step::KeyOn, allAt(bench, PartClass::Isolator, bench::kIsolatorOn));
    set(Step::RockerOn, allAt(bench, PartClass::LampSwitch, kRockerOnPosition));
    set(Step::Off,
        !anyAt(bench, PartClass::Isolator, bench::kIsolatorOn) &&
            !anyAt(bench, PartClass::LampSwitch, kRockerOnPosition));
    return now;
}

// Building up after a run begins a new one: what still stands is as it was marked.
void Procedure::startOver(const Standing& now) {
    clearFrom(Step::LampSeen);
    for (const Step step : kStates)
        if (!now.so[indexOf(step)]) clear(step);
}

// The key turned with the rocker on: live at once.
void Procedure::rockerWasOn(std::int64_t slice) {
    if (StepSeen* rocker = find(Step::RockerOn))
        *rocker = {Step::RockerOn, true, true, Step::KeyOn, slice};
}

void Procedure::followIsolator(const Standing& now, std::int64_t slice) {
    const bool built =
        isDone(Step::BatteryEnds) && (isDone(Step::SeriesLink) || !find(Step::SeriesLink));
    if (now.keyOut && !isDone(Step::IsolatorOff)) mark(Step::IsolatorOff, slice);
    if (!now.keyOut && !built) clear(Step::IsolatorOff);
}

void Procedure::followStates(const Standing& now, std::int64_t slice) {
    for (const Step step : kStates) {
        const bool so = now.so[indexOf(step)];
        if (so && !isDone(step)) mark(step, slice);
        if (!so) clear(step);
    }
}

void Procedure::followPuttingAway(const Standing& now, std::int64_t slice) {
    const bool linkStays = was.so[indexOf(Step::SeriesLink)];
    if (linkStays && now.batteryEnds < was.batteryEnds) linkOnTooLong = true;
    const auto stand = [&](Step step, bool so) {
        if (so && !isDone(step)) mark(step, slice);
        if (!so) clear(step);
    };
    stand(Step::Off, now.so[indexOf(Step::Off)]);
    stand(Step::KeyHung, now.keyOut);
    const bool outBefore = isDone(Step::BatteriesOut);
    stand(Step::BatteriesOut, now.batteryOut);
    StepSeen* out = find(Step::BatteriesOut);
    if (!out || !out->done || outBefore || out->early || !linkOnTooLong) return;
    out->early = true;
    out->before = Step::SeriesLink;
}

void Procedure::follow(const attempt::Command& command, const Bench& bench, std::int64_t slice) {
    if (const auto* mark = std::get_if<attempt::MarkOff>(&command)) {
        if (mark->mark != attempt::SheetMark::None)
            marked.insert(mark->label);
        else if (!handedIn)
            marked.erase(mark->label);
    }
    if (std::holds_alternative<attempt::HandInSheet>(command)) handedIn = true;
    const bool allMarked =
        std::includes(marked.begin(), marked.end(), toMark.begin(), toMark.end());
    const bool again = std::holds_alternative<attempt::HandInSheet>(command);
    if (handedIn && allMarked && (again || !isDone(Step::CrossCheck)))
        mark(Step::CrossCheck, slice);

    if (isDone(Step::Run)) return;
    if (const auto* look = std::get_if<attempt::LookAt>(&command)) {
        const bench::Part* part = bench::findPart(bench, look->name);
        if (part && look->end < 0 && isA(*part, PartClass::LampSwitch) &&
            isLampLit(bench, part->id))
            mark(Step::LampSeen, slice);
    }
    if (std::holds_alternative<attempt::CallClear>(command)) mark(Step::Call, slice);
    const auto* edit = std::get_if<bench::Edit>(&command);
    const auto* operate = edit ? std::get_if<bench::Operate>(edit) : nullptr;
    const bench::Part* button = operate ? bench::findPart(bench, operate->part) : nullptr;
    if (button && isA(*button, PartClass::Button) && button->position == heldPosition &&
        doesButtonRun(bench, button->id))
        mark(Step::Run, slice);
}

Procedure procedureOf(const attempt::Record& record, const plan::Plan* plan) {
    Procedure procedure(record.start, 0, plan);
    retrace(record, [&](const Turn& turn) {
        procedure.look(turn.after, turn.entry.slice, &turn.entry.command);
    });
    return procedure;
}

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
#include "screen/closeup/steps.h"

#include "bench/edit.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

using bench::EndFault;
using bench::EndKind;

constexpr double kGreatestReach_m = 0.03; // strip and push: edit.h

bool isRing(EndKind kind) {
    return kind == EndKind::RingM6 || kind == EndKind::RingM8;
}

bool isSpade(EndKind kind) {
    return kind == EndKind::Spade || kind == EndKind::Piggyback;
}

bool hasAny(const EndAtHand& at, std::initializer_list<EndFault> faults) {
    return std::any_of(faults.begin(), faults.end(), [&](EndFault f) { return hasFault(at, f); });
}

std::string millimetres(double length_m) {
    return amount(std::round(length_m * 1e4) / 10.0, "mm");
}

double torqueStep_Nm(const bench::TorqueTarget& torque) {
    return torque.right_Nm / 10.0;
}

void tellStrip(const EndAtHand& at, StepTile& tile) {
    tile.title = words("closeup/strip");
    tile.steps = tile.possible = !at.fitted;
    if (hasFault(at, EndFault::NotStripped) || at.make.strip_m <= 0.0) {
        tile.state = words("closeup/not-yet");
        return;
    }
    const std::string bare = millimetres(at.make.strip_m);
    tile.wrong = hasAny(at, {EndFault::StripTooShort, EndFault::StripTooLong});
    tile.state = hasFault(at, EndFault::StripTooShort)  ? words("closeup/short", {{"length", bare}})
                 : hasFault(at, EndFault::StripTooLong) ? words("closeup/long", {{"length", bare}})
                                                        : bare;
    tile.good = !tile.wrong;
}

void tellDone(StepTile& tile, bool done) {
    tile.good = done;
    tile.state = words(done ? "closeup/done-word" : "closeup/not-yet");
    tile.possible = !done;
}

void tellPush(const EndAtHand& at, StepTile& tile) {
    tile.title = words(isSpade(at.kind) ? "closeup/push-on" : "closeup/push-in");
    tile.steps = at.joined;
    tile.possible = at.joined || at.terminal.has_value();
    if (!at.joined || at.make.pushed_m <= 0.0) {
        tile.state = words("closeup/not-yet");
    } else if (hasFault(at, EndFault::NotPushedIn)) {
        tile.state = words("closeup/not-far");
        tile.wrong = true;
    } else if (hasFault(at, EndFault::OnSleeve)) {
        tile.state = words("closeup/too-far");
        tile.wrong = true;
    } else {
        tile.state = words(isSpade(at.kind) ? "closeup/home" : "closeup/to-the-stop");
        tile.good = true;
    }
}

void tellTighten(const EndAtHand& at, StepTile& tile) {
    tile.title = words("closeup/tighten");
    tile.steps = tile.possible =
        at.terminal.has_value() && (at.joined || at.cable == nullptr) && !at.screw.broken;
    if (!tile.possible && !at.screw.broken) {
        tile.state = words("closeup/not-yet");
        return;
    }
    tile.state = tightnessWords(at, at.screw.torque_Nm, at.screw.broken);
    const double torque_Nm = at.screw.torque_Nm;
    const bool right = torque_Nm >= at.torque.least_Nm && torque_Nm <= at.torque.most_Nm;
    tile.good = !at.screw.broken && right;
    tile.wrong = at.screw.broken || (!right && torque_Nm > 0.0);
    if (tile.good) tile.state = valueWords(MakingStep::Tighten, torque_Nm);
}

const char* itemOf(MakingStep step) {
    switch (step) {
    case MakingStep::Strip:
        return "closeup/strip";
    case MakingStep::Twist:
        return "closeup/twist";
    case MakingStep::Press:
        return "closeup/press";
    case MakingStep::Push:
        return "closeup/push";
    case MakingStep::PutOver:
        return "closeup/put-over";
    case MakingStep::Tighten:
        return "closeup/tighten";
    case MakingStep::Tug:
        break;
    }
    return "closeup/tug";
}

StepTile tileOf(const EndAtHand& at, MakingStep step) {
    StepTile tile;
    tile.step = step;
    tile.item = itemOf(step);
    switch (step) {
    case MakingStep::Strip:
        tellStrip(at, tile);
        break;
    case MakingStep::Twist:
        tile.title = words("closeup/twist");
        tellDone(tile, at.make.twisted);
        break;
    case MakingStep::Press:
        tile.title = words("closeup/press-on");
        tellDone(tile, at.make.pressed);
        break;
    case MakingStep::Push:
        tellPush(at, tile);
        break;
    case MakingStep::PutOver:
        tile.title = words("closeup/put-over");
        tellDone(tile, at.joined);
        tile.possible = !at.joined && at.terminal;
        break;
    case MakingStep::Tighten:
        tellTighten(at, tile);
        break;
    case MakingStep::Tug: {
        const bool held = at.joined && at.cable->ends[static_cast<std::size_t>(at.end)].tugged;
        tile.title = words("closeup/tug");
        tile.good = held;
        tile.state = words(held ? "closeup/holds" : "closeup/not-yet");
        tile.possible = at.joined;
        break;
    }
    }
    return tile;
}

std::vector<MakingStep> stepsOf(const EndAtHand& at) {
    if (at.cable == nullptr) return {MakingStep::Tighten};
    std::vector<MakingStep> steps{MakingStep::Strip, MakingStep::Twist};
    if (at.kind != EndKind::Bare) steps.push_back(MakingStep::Press);
    steps.push_back(isRing(at.kind) ? MakingStep::PutOver : MakingStep::Push);
    if (!isSpade(at.kind)) steps.push_back(MakingStep::Tighten);
    steps.push_back(MakingStep::Tug);
    return steps;
}

} // namespace

std::optional<EndAtHand> endAtHand(const bench::Bench& bench, const CloseupOf& of) {
    EndAtHand at;
    at.bench = &bench;
    at.end = of.end;
    at.terminal = of.terminal;
    if (of.cable) {
        at.cable = bench::findCable(bench, of.cable);
        if (at.cable == nullptr || of.end < 0 || of.end > 1) return std::nullopt;
        const bench::CableEnd& end = at.cable->ends[static_cast<std::size_t>(of.end)];
        at.kind = end.kind;
        at.joined = end.at.has_value();
        const auto& ready = bench.kit.readyMade;
        at.fitted = end.kind != EndKind::Bare &&
                    std::any_of(ready.begin(), ready.end(), [&](const bench::CableSlot& slot) {
                        return slot.label == at.cable->label;
                    });
        if (at.joined) at.terminal = end.at;
        at.target = bench::targetFor(at.kind, at.cable->area_m2);
        at.make =
            end.make.value_or(bench::wellMade(at.kind, at.cable->area_m2, end.at.has_value()));
        at.state = bench::stateOf(bench, *at.cable, of.end);
    }
    const bench::Part* part = at.terminal ? bench::findPart(bench, at.terminal->part) : nullptr;
    if (part == nullptr || at.terminal->terminal >= bench::spec(part->kind).terminals.size()) {
        if (at.cable == nullptr) return std::nullopt;
        at.terminal.reset();
        return at;
    }
    at.terminalKind = bench::spec(part->kind).terminals[at.terminal->terminal].kind;
    at.torque = bench::torqueFor(bench, *at.terminal);
    at.screw = bench::screwAt(bench, *at.terminal);
    if (at.cable == nullptr && !at.tightens()) return std::nullopt;
    return at;
}

bool hasFault(const EndAtHand& at, EndFault fault) {
    const auto& faults = at.state.faults;
    return std::find(faults.begin(), faults.end(), fault) != faults.end();
}

std::vector<StepTile> tilesOf(const EndAtHand& at) {
    std::vector<StepTile> tiles;
    for (const MakingStep step : stepsOf(at))
        tiles.push_back(tileOf(at, step));
    return tiles;
}

StepRange rangeOf(const EndAtHand& at, MakingStep step) {
    switch (step) {
    case MakingStep::Strip:
        return {at.make.strip_m, kGreatestReach_m, 0.001};
    case MakingStep::Push: // a clamp is so deep, a tab so long
        return {at.joined ? at.make.pushed_m : 0.0, isSpade(at.kind) ? 0.008 : 0.014, 0.001};
    case MakingStep::Tighten:
        return {at.screw.torque_Nm, at.torque.breaks_Nm * 1.15, torqueStep_Nm(at.torque)};
    default:
        return {};
    }
}

std::string valueWords(MakingStep step, double value) {
    if (step == MakingStep::Tighten) return amount(std::round(value * 100.0) / 100.0, "N·m");
    return millimetres(value);
}

std::string tightnessWords(const EndAtHand& at, double torque_Nm, bool broken) {
    if (broken || torque_Nm > at.torque.breaks_Nm) return words("closeup/broken");
    if (torque_Nm <= 0.0) return words("closeup/open");
    if (torque_Nm < at.torque.least_Nm) return words("closeup/loose");
    if (torque_Nm > at.torque.most_Nm) return words("closeup/too-tight");
    return words("closeup/right");
}

double rightValue(const EndAtHand& at, MakingStep step) {
    switch (step) {
    case MakingStep::Strip:
        return at.target.strip_m;
    case MakingStep::Push:
        return at.target.pushed_m;
    case MakingStep::Tighten:
        return at.torque.right_Nm;
    default:
        return 0.0;
    }
}

std::optional<bench::Edit> editOf(const EndAtHand& at, MakingStep step, double value) {
    if (step == MakingStep::Tighten)
        return at.terminal && at.tightens() && !at.screw.broken
                   ? std::optional<bench::Edit>(bench::TurnScrew{*at.terminal, value})
                   : std::nullopt;
    if (at.cable == nullptr) return std::nullopt;
    const bench::CableId cable = at.cable->id;
    switch (step) {
    case MakingStep::Strip:
        return bench::StripEnd{cable, at.end, value};
    case MakingStep::Twist:
        return bench::TwistEnd{cable, at.end};
    case MakingStep::Press:
        return bench::PressEnd{cable, at.end, at.kind};
    case MakingStep::Push:
        if (at.joined) return bench::PushEnd{cable, at.end, value};
        [[fallthrough]];
    case MakingStep::PutOver:
        if (at.joined || !at.terminal) return std::nullopt;
        return bench::JoinEnd{cable, at.end, *at.terminal};
    case MakingStep::Tug:
        if (!at.joined) return std::nullopt;
        return bench::TugEnd{cable, at.end};
    default:
        return std::nullopt;
    }
}

FaultWords faultWords(const EndAtHand& at, EndFault fault) {
    const bool tab = isSpade(at.kind);
    switch (fault) {
    case EndFault::NotStripped:
        return {words("closeup/fault/not-stripped"), words("closeup/why/not-stripped")};
    case EndFault::StripTooShort:
        return {words("closeup/fault/strip-short"),
                words(at.kind == EndKind::Bare ? "closeup/why/strip-short"
                                               : "closeup/why/strip-short-fitting")};
    case EndFault::StripTooLong:
        return {
            at.state.copperShows_m > 0.0
                ? words("closeup/fault/copper", {{"length", millimetres(at.state.copperShows_m)}})
                : words("closeup/fault/strip-long"),
            at.state.copperOn ? words("closeup/why/copper-on",
                                      {{"place", terminalWords(*at.bench, *at.state.copperOn)}})
                              : words("closeup/why/strip-long")};
    case EndFault::StrandOut:
        return {words("closeup/fault/strand"),
                at.state.strandOn ? words("closeup/why/strand-on",
                                          {{"place", terminalWords(*at.bench, *at.state.strandOn)}})
                                  : words("closeup/why/strand")};
    case EndFault::NotPressed:
        return {words("closeup/fault/not-pressed"), words("closeup/why/not-pressed")};
    case EndFault::NotPushedIn:
        return {words("closeup/fault/not-pushed"),
                words(tab ? "closeup/why/not-home" : "closeup/why/not-pushed")};
    case EndFault::OnSleeve:
        return {words("closeup/fault/on-sleeve"), words("closeup/why/on-sleeve")};
    case EndFault::ScrewOpen:
        return {words("closeup/fault/screw-open"), words("closeup/why/screw-open")};
    case EndFault::ScrewLoose:
        return {words("closeup/fault/screw-loose"), words("closeup/why/screw-loose")};
    case EndFault::ScrewTight:
        return {words("closeup/fault/screw-tight"), words("closeup/why/screw-tight")};
    case EndFault::ScrewBroken:
        break;
    }
    return {words("closeup/fault/screw-broken"), words("closeup/why/screw-broken")};
}

bool isUndone(const EndAtHand& at, EndFault fault) {
    switch (fault) {
    case EndFault::NotStripped:
    case EndFault::NotPressed:
    case EndFault::ScrewOpen:
        return true;
    case EndFault::StrandOut: // it only matters once there are strands
        return at.make.strip_m <= 0.0;
    case EndFault::NotPushedIn:
        return !at.joined || at.make.pushed_m <= 0.0;
    case EndFault::StripTooLong: // all of a bare end shows until it is pushed in
        return at.kind == EndKind::Bare && (!at.joined || at.make.pushed_m <= 0.0);
    default:
        return false;
    }
}

std::string faultSentence(const EndAtHand& at, EndFault fault) {
    const FaultWords said = faultWords(at, fault);
    return words("closeup/fault-sentence", {{"fault", said.heading}, {"clause", said.clause}});
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// Making ends by hand: strip, twist, press, push in, tighten, tug; and the quick way.
#include "bench/catalogue.h"
#include "bench/edit_rules.h"
#include "bench/ends.h"
#include "bench/joining.h"
#include "bench/limits.h"
#include "bench/terminal_phrase.h"

#include <algorithm>
#include <cmath>

namespace loom::bench {
namespace {

// How far beside its terminal an end lies that was pulled out.
constexpr double kPulledOut_m = 0.02;

TerminalKind kindAt(const Bench& bench, TerminalRef at) {
    return spec(findPart(bench, at.part)->kind).terminals[at.terminal].kind;
}

// The end's making, in figures also where it was made well.
EndMake makeOf(const Cable& cable, int end) {
    const CableEnd& made = cable.ends[end];
    return made.make ? *made.make : wellMade(made.kind, cable.area_m2, made.at.has_value());
}

void remake(CableEnd& end, const EndMake& make) {
    end.make = make;
    end.tugged = false;
}

// The end came with a fitting from the tray. Of slots that share a label any may be the cable's.
std::optional<Refusal> whyFitted(const Bench& bench, const Cable& cable, int end) {
    const auto& slots = bench.kit.readyMade;
    const auto bareThere = [&](const CableSlot& slot) {
        return slot.label == cable.label && slot.ends[end] == EndKind::Bare;
    };
    if (!isReadyMade(bench, cable.label) || std::any_of(slots.begin(), slots.end(), bareThere))
        return std::nullopt;
    return Refusal{
        Why::WrongEnd, cable.label, phrase("bare"), wordPhrase(word(cable.ends[end].kind))};
}

std::optional<Refusal> whyNotStripped(const Cable& cable, int end) {
    if (makeOf(cable, end).strip_m > 0.0) return std::nullopt;
    return Refusal{
        Why::NotStripped, cable.label, phrase("bare-strands"), phrase("the-sleeve-still-on")};
}

std::optional<Refusal> whyNoScrew(const Bench& bench, TerminalRef at) {
    if (auto why = whyNotTerminal(bench, at)) return why;
    if (kindAt(bench, at) != TerminalKind::Tab) return std::nullopt;
    return Refusal{Why::WrongEnd, terminalPhrase(bench, at), phrase("screw"), phrase("tab")};
}

void mend(Bench& bench, TerminalRef at) {
    auto& screws = bench.screws;
    screws.erase(std::remove_if(screws.begin(),
                                screws.end(),
                                [&](const Screw& screw) { return screw.at == at; }),
                 screws.end());
}

void untug(Bench& bench, TerminalRef at) {
    for (Cable& cable : bench.cables)
        for (CableEnd& end : cable.ends)
            if (end.at == at) end.tugged = false;
}

// One that is tight as it should be is not noted.
void turn(Bench& bench, TerminalRef at, double torque_Nm) {
    mend(bench, at);
    untug(bench, at);
    const TorqueTarget target = torqueFor(bench, at);
    if (torque_Nm >= target.least_Nm && torque_Nm <= target.most_Nm) return;
    const bool broken = torque_Nm > target.breaks_Nm;
    bench.screws.push_back({at, broken ? 0.0 : std::fabs(torque_Nm), broken}); // never -0
}

bool isThere(const Bench& bench, TerminalRef at) {
    const Part* part = findPart(bench, at.part);
    return part && at.terminal < spec(part->kind).terminals.size();
}

// Away from its part's middle, so that it is seen to be off.
Point beside(const Bench& bench, TerminalRef at) {
    const Point from = terminalAt(bench, at);
    const Point middle = findPart(bench, at.part)->at_m;
    const double dx_m = from.x_m - middle.x_m, dy_m = from.y_m - middle.y_m;
    const double away_m = std::sqrt(dx_m * dx_m + dy_m * dy_m);
    if (away_m == 0.0) return {from.x_m, from.y_m + kPulledOut_m};
    return {from.x_m + dx_m / away_m * kPulledOut_m, from.y_m + dy_m / away_m * kPulledOut_m};
}

} // namespace

void joinMade(Bench& bench, Cable& cable, int end, TerminalRef to) {
    CableEnd& made = cable.ends[end];
    made.tugged = false;
    if (kindAt(bench, to) != TerminalKind::Tab && !isHandmade(bench, cable.label)) mend(bench, to);
    if (!isHandmade(bench, cable.label)) {
        made.make.reset();
        return;
    }
    EndMake make = makeOf(cable, end);
    make.pushed_m = 0.0;
    made.make = make;
    const TerminalKind kind = kindAt(bench, to);
    const bool stud = kind == TerminalKind::StudM6 || kind == TerminalKind::StudM8;
    if (stud && !screwAt(bench, to).broken) turn(bench, to, 0.0);
}

void takeOff(const Bench& bench, CableEnd& end, Point at_m) {
    end.at.reset();
    end.loose_m = ontoBoard(bench, at_m);
    end.tugged = false;
    if (end.make) end.make->pushed_m = 0.0;
}

void forgetWhatIsGone(Bench& bench) {
    auto& ties = bench.ties;
    ties.erase(std::remove_if(ties.begin(),
                              ties.end(),
                              [&](const Tie& tie) {
                                  return !findCable(bench, tie.cable) ||
                                         (tie.other && !findCable(bench, tie.other));
                              }),
               ties.end());
    auto& screws = bench.screws;
    screws.erase(std::remove_if(screws.begin(),
                                screws.end(),
                                [&](const Screw& screw) { return !isThere(bench, screw.at); }),
                 screws.end());
    dropLostProbes(bench);
}

Outcome<Bench> edited(Bench bench, const StripEnd& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    Cable& cable = *cableIn(bench, edit.cable);
    if (auto why = whyNotWithin(cable.label, edit.strip_m, 0.0, kMakeMost_m)) return *why;
    if (auto why = whyFitted(bench, cable, edit.end)) return *why;
    EndMake make = makeOf(cable, edit.end);
    const bool freshCut = make.pressed || edit.strip_m < make.strip_m;
    make.strip_m = std::fabs(edit.strip_m); // never -0
    make.pressed = false;
    if (freshCut) make.twisted = false;
    remake(cable.ends[edit.end], make);
    return bench;
}

Outcome<Bench> edited(Bench bench, const TwistEnd& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    Cable& cable = *cableIn(bench, edit.cable);
    if (auto why = whyNotStripped(cable, edit.end)) return *why;
    EndMake make = makeOf(cable, edit.end);
    if (make.twisted) return bench;
    make.twisted = true;
    remake(cable.ends[edit.end], make);
    return bench;
}

Outcome<Bench> edited(Bench bench, const PressEnd& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    Cable& cable = *cableIn(bench, edit.cable);
    if (auto why = whyFitted(bench, cable, edit.end)) return *why;
    if (auto why = whyNotStripped(cable, edit.end)) return *why;
    CableEnd& end = cable.ends[edit.end];
    if (end.at) {
        if (auto why = whyNotJoinCable(bench, cable, edit.end, edit.kind, *end.at)) return *why;
    }
    EndMake make = makeOf(cable, edit.end);
    make.pressed = edit.kind != EndKind::Bare;
    if (end.kind == edit.kind && makeOf(cable, edit.end).pressed == make.pressed) return bench;
    end.kind = edit.kind;
    remake(end, make);
    return bench;
}

Outcome<Bench> edited(Bench bench, const PushEnd& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    Cable& cable = *cableIn(bench, edit.cable);
    CableEnd& end = cable.ends[edit.end];
    if (!end.at)
        return Refusal{
            Why::NotJoined, cable.label, phrase("an-end-at-a-terminal"), phrase("loose")};
    if (auto why = whyNotWithin(cable.label, edit.pushed_m, 0.0, kMakeMost_m)) return *why;
    const TerminalKind kind = kindAt(bench, *end.at);
    if (kind == TerminalKind::StudM6 || kind == TerminalKind::StudM8)
        return Refusal{
            Why::WrongEnd, terminalPhrase(bench, *end.at), phrase("clamp-or-tab"), phrase("stud")};
    EndMake make = makeOf(cable, edit.end);
    if (make.pushed_m == edit.pushed_m) return bench;
    if (auto why = whyClampClosed(bench, *end.at)) return *why;
    make.pushed_m = std::fabs(edit.pushed_m);
    remake(end, make);
    return bench;
}

Outcome<Bench> edited(Bench bench, const TurnScrew& edit) {
    if (auto why = whyNoScrew(bench, edit.at)) return *why;
    const Phrase place = terminalPhrase(bench, edit.at);
    if (auto why = whyNotWithin(place, edit.torque_Nm, 0.0, kTorqueMost_Nm)) return *why;
    const Screw now = screwAt(bench, edit.at);
    if (now.broken)
        return Refusal{Why::ScrewBroken, place, phrase("a-sound-screw"), phrase("a-broken-one")};
    if (now.torque_Nm != edit.torque_Nm) turn(bench, edit.at, edit.torque_Nm);
    return bench;
}

Outcome<Bench> edited(Bench bench, const MendScrew& edit) {
    if (auto why = whyNoScrew(bench, edit.at)) return *why;
    mend(bench, edit.at);
    return bench;
}

Outcome<Bench> edited(Bench bench, const TugEnd& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    Cable& cable = *cableIn(bench, edit.cable);
    CableEnd& end = cable.ends[edit.end];
    if (!end.at)
        return Refusal{
            Why::NotJoined, cable.label, phrase("an-end-at-a-terminal"), phrase("loose")};
    if (stateOf(bench, cable, edit.end).holds)
        end.tugged = true;
    else
        takeOff(bench, end, beside(bench, *end.at));
    return bench;
}

Outcome<Bench> edited(Bench bench, const MakeEndWell& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    CableEnd& end = cableIn(bench, edit.cable)->ends[edit.end];
    if (end.make) end.tugged = false;
    end.make.reset();
    if (end.at) mend(bench, *end.at);
    return bench;
}

Outcome<Bench> edited(Bench bench, const WearEnd& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    Cable& cable = *cableIn(bench, edit.cable);
    EndMake make = makeOf(cable, edit.end);
    make.twisted = true;
    cable.ends[edit.end].make = make;
    return bench;
}

} // namespace loom::bench

// SPDX-License-Identifier: MIT
// Cutting, taking, joining, freeing and changing cables.
#include "bench/catalogue.h"
#include "bench/edit_rules.h"
#include "bench/ends.h"
#include "bench/joining.h"
#include "bench/limits.h"

#include <algorithm>
#include <cmath>

namespace loom::bench {
namespace {

std::optional<Refusal> whyNoMoreCables(const Bench& bench) {
    if (bench.cables.size() < kCablesMost) return std::nullopt;
    return Refusal{Why::TooMany,
                   phrase("cables"),
                   phrase("n-cables-at-most", {{"n", numeral(kCablesMost)}}),
                   numeral(bench.cables.size() + 1)};
}

bool hasReel(const Bench& bench, double area_m2, Sleeve sleeve) {
    const std::vector<Reel>& reels = bench.kit.reels;
    return std::any_of(reels.begin(), reels.end(), [&](const Reel& reel) {
        return wholeArea_m2(reel.area_m2) == area_m2 && reel.sleeve == sleeve;
    });
}

std::optional<Refusal>
whyNotReel(const Bench& bench, const Phrase& place, double area_m2, Sleeve sleeve) {
    if (hasReel(bench, area_m2, sleeve)) return std::nullopt;
    return Refusal{
        Why::NotInTray,
        place,
        phrase("a-reel-of",
               {{"n", numeral(area_mm2FromM2(area_m2))}, {"colour", wordPhrase(word(sleeve))}}),
        phrase("none")};
}

// A ready-made cable's label stays its own: its slot in the tray goes by it.
std::optional<Refusal> whyNotOwnLabel(const Bench& bench, const std::string& label) {
    if (auto why = whyNotName(phrase("label"), label)) return why;
    if (!isReadyMade(bench, label)) return std::nullopt;
    return Refusal{
        Why::Duplicate, phrase("label"), phrase("a-label-no-ready-made-cable-has"), label};
}

std::string nextLabel(const Bench& bench) {
    for (int number = 1;; ++number) {
        std::string label = "W-" + std::to_string(number);
        const bool taken = std::any_of(bench.cables.begin(),
                                       bench.cables.end(),
                                       [&](const Cable& cable) { return cable.label == label; });
        if (!taken && !isReadyMade(bench, label)) return label;
    }
}

// A quarter more than the straight way and 5 cm for the ends, in steps of 5 cm; the least bit is
// taken off first so that rounding noise does not cost a step.
double askedLength_m(Point from, Point to) {
    const double dx_m = to.x_m - from.x_m, dy_m = to.y_m - from.y_m;
    const double length_m = 1.25 * std::sqrt(dx_m * dx_m + dy_m * dy_m) + 0.05;
    return std::min(std::ceil(length_m * 20.0 - 1e-9) / 20.0, kLengthMost_m);
}

std::optional<Refusal> whyNotMake(const Bench& bench, const MakeCable& edit) {
    if (auto why = whyNotTerminal(bench, edit.from)) return why;
    if (auto why = whyNotTerminal(bench, edit.to)) return why;
    if (auto why = whyNoMoreCables(bench)) return why;
    if (auto why = whyNotArea(phrase("area"), edit.area_m2)) return why;
    if (auto why = whyNotReel(bench, phrase("reels"), wholeArea_m2(edit.area_m2), edit.sleeve))
        return why;
    if (edit.length_m != 0.0) {
        if (auto why = whyNotLength(phrase("length"), edit.length_m)) return why;
    }
    return edit.label.empty() ? std::nullopt : whyNotOwnLabel(bench, edit.label);
}

} // namespace

Outcome<Bench> edited(Bench bench, const MakeCable& edit) {
    if (auto why = whyNotMake(bench, edit)) return *why;
    Cable cable;
    cable.id = {++bench.lastId};
    cable.label = edit.label.empty() ? nextLabel(bench) : edit.label;
    cable.area_m2 = wholeArea_m2(edit.area_m2);
    cable.sleeve = edit.sleeve;
    cable.length_m = edit.length_m != 0.0
                         ? edit.length_m
                         : askedLength_m(terminalAt(bench, edit.from), terminalAt(bench, edit.to));
    const TerminalRef terminals[] = {edit.from, edit.to};
    for (int end = 0; end < 2; ++end) {
        const TerminalRef to = terminals[end];
        const EndKind kind = endMadeFor(bench, to, cable.area_m2);
        if (auto why = whyNotJoinCable(bench, cable, end, kind, to)) return *why;
        if (auto why = whyScrewClosed(bench, cable.label, to)) return *why;
        cable.ends[end].kind = kind;
        if (isHandmade(bench, cable.label)) cable.ends[end].make = EndMake{};
        cable.ends[end].at = to;
    }
    for (int end = 0; end < 2; ++end)
        joinMade(bench, cable, end, terminals[end]);
    bench.cables.push_back(cable);
    return bench;
}

Outcome<Bench> edited(Bench bench, const TakeCable& edit) {
    const std::vector<CableSlot>& slots = bench.kit.readyMade;
    const auto slot = std::find_if(slots.begin(), slots.end(), [&](const CableSlot& ready) {
        return ready.label == edit.label && !isOut(bench, ready);
    });
    if (slot == slots.end())
        return Refusal{Why::NotInTray,
                       edit.label,
                       phrase("a-ready-made-cable-in-the-tray"),
                       isReadyMade(bench, edit.label) ? phrase("already-on-the-bench")
                                                      : phrase("none")};
    if (auto why = whyNoMoreCables(bench)) return *why;
    if (auto why = whyNotPoint(edit.label, edit.first_m)) return *why;
    if (auto why = whyNotPoint(edit.label, edit.second_m)) return *why;
    Cable cable;
    cable.id = {++bench.lastId};
    cable.label = slot->label;
    cable.length_m = slot->length_m;
    cable.area_m2 = wholeArea_m2(slot->area_m2);
    cable.sleeve = slot->sleeve;
    const Point places[] = {edit.first_m, edit.second_m};
    for (int end = 0; end < 2; ++end) {
        CableEnd& made = cable.ends[end];
        made.kind = slot->ends[end];
        made.loose_m = ontoBoard(bench, places[end]);
        if (made.kind == EndKind::Bare && isHandmade(bench, cable.label)) made.make = EndMake{};
    }
    bench.cables.push_back(cable);
    return bench;
}

// A cable that came with the bench, from no reel and no slot, gets a slot, so that it is not lost.
Outcome<Bench> edited(Bench bench, const RemoveCable& edit) {
    const Cable* cable = findCable(bench, edit.cable);
    if (!cable) return noSuchCable(edit.cable);
    if (!isReadyMade(bench, cable->label) && !hasReel(bench, cable->area_m2, cable->sleeve)) {
        bench.kit.readyMade.push_back({cable->label,
                                       cable->length_m,
                                       cable->area_m2,
                                       cable->sleeve,
                                       {cable->ends[0].kind, cable->ends[1].kind}});
    }
    bench.cables.erase(bench.cables.begin() + (cable - bench.cables.data()));
    forgetWhatIsGone(bench);
    return bench;
}

Outcome<Bench> edited(Bench bench, const JoinEnd& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    Cable& cable = *cableIn(bench, edit.cable);
    CableEnd& end = cable.ends[edit.end];
    if (auto why = whyNotJoinCable(bench, cable, edit.end, end.kind, edit.to)) return *why;
    if (end.at == edit.to) return bench;
    if (auto why = whyScrewClosed(bench, cable.label, edit.to)) return *why;
    end.at = edit.to;
    end.loose_m = {};
    joinMade(bench, cable, edit.end, edit.to);
    return bench;
}

Outcome<Bench> edited(Bench bench, const FreeEnd& edit) {
    if (auto why = whyNotEnd(bench, edit.cable, edit.end)) return *why;
    Cable& cable = *cableIn(bench, edit.cable);
    if (auto why = whyNotPoint(cable.label, edit.at_m)) return *why;
    takeOff(bench, cable.ends[edit.end], edit.at_m);
    return bench;
}

// Another length, cross-section or colour is another piece of cable, so it is sound; its ends stay
// where they are, those in a clamp of the kind that suits; made by hand, they are yet to be made. An
// empty label keeps the old one.
Outcome<Bench> edited(Bench bench, const ChangeCable& edit) {
    Cable* cable = cableIn(bench, edit.cable);
    if (!cable) return noSuchCable(edit.cable);
    if (isReadyMade(bench, cable->label))
        return Refusal{Why::NotInTray,
                       cable->label,
                       phrase("a-cable-cut-from-a-reel"),
                       phrase("a-ready-made-one")};
    if (auto why = whyNotLength(phrase("length"), edit.length_m)) return *why;
    if (auto why = whyNotArea(phrase("area"), edit.area_m2)) return *why;
    const bool byHand = isHandmade(bench, cable->label);
    const bool relabel = !edit.label.empty() && edit.label != cable->label;
    if (relabel) {
        if (auto why = whyNotOwnLabel(bench, edit.label)) return *why;
        cable->label = edit.label;
    }
    const double area_m2 = wholeArea_m2(edit.area_m2);
    const bool otherReel = area_m2 != cable->area_m2 || edit.sleeve != cable->sleeve;
    if (otherReel) {
        if (auto why = whyNotReel(bench, cable->label, area_m2, edit.sleeve)) return *why;
    }
    const bool anew = otherReel || edit.length_m != cable->length_m;
    if (anew) cable->condition = CableCondition::Sound;
    cable->area_m2 = area_m2;
    cable->sleeve = edit.sleeve;
    cable->length_m = edit.length_m;
    for (int end = 0; end < 2; ++end) {
        CableEnd& made = cable->ends[end];
        if (isHandmade(bench, cable->label) && (anew || !byHand)) {
            made.make = EndMake{};
            made.tugged = false;
        }
        if (!made.at || !fits(made.kind, TerminalKind::Clamp)) continue;
        made.kind = usualEnd(TerminalKind::Clamp, area_m2);
        if (auto why = whyNotJoinCable(bench, *cable, end, made.kind, *made.at)) return *why;
    }
    return bench;
}

Outcome<Bench> edited(Bench bench, const WearCable& edit) {
    Cable* cable = cableIn(bench, edit.cable);
    if (!cable) return noSuchCable(edit.cable);
    cable->condition = edit.condition;
    return bench;
}

} // namespace loom::bench

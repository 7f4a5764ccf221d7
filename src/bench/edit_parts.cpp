// SPDX-License-Identifier: MIT
// Laying, moving, turning and removing parts; fuses and controls.
#include "bench/catalogue.h"
#include "bench/edit_rules.h"
#include "bench/limits.h"

#include <algorithm>
#include <cmath>

namespace loom::bench {
namespace {

std::optional<Refusal> whyNotTurns(const std::string& place, int quarterTurns) {
    if (quarterTurns >= 0 && quarterTurns <= 3) return std::nullopt;
    return Refusal{Why::OutOfRange, place, phrase("0-to-3-quarter-turns"), numeral(quarterTurns)};
}

// One coordinate of a centre, so that the whole width stays within the board.
double keptWithin(double centre_m, double width_m, double board_m) {
    if (width_m >= board_m) return board_m / 2;
    return std::clamp(centre_m, width_m / 2, board_m - width_m / 2);
}

void keepOnBoard(const Bench& bench, Part& part) {
    const PartSpec& kind = spec(part.kind);
    const bool onEdge = part.quarterTurns % 2 != 0;
    const double width_m = onEdge ? kind.height_m : kind.width_m;
    const double height_m = onEdge ? kind.width_m : kind.height_m;
    part.at_m = {keptWithin(part.at_m.x_m, width_m, bench.board_m.x_m),
                 keptWithin(part.at_m.y_m, height_m, bench.board_m.y_m)};
}

const PartSlot* slotOf(const Bench& bench, const std::string& ref) {
    const auto found = std::find_if(bench.kit.parts.begin(),
                                    bench.kit.parts.end(),
                                    [&](const PartSlot& slot) { return slot.ref == ref; });
    return found == bench.kit.parts.end() ? nullptr : &*found;
}

Part freshPart(const PartSlot& slot, PartId id) {
    Part part;
    part.id = id;
    part.kind = slot.kind;
    part.ref = slot.ref;
    part.rating = slot.rating;
    part.position = spec(slot.kind).restPosition;
    part.charge = slot.charge;
    return part;
}

void takeEndsOff(Bench& bench, PartId part) {
    for (Cable& cable : bench.cables) {
        for (CableEnd& end : cable.ends) {
            if (end.at && end.at->part == part) takeOff(bench, end, terminalAt(bench, *end.at));
        }
    }
}

} // namespace

std::vector<double> ratingsAtHand(const Bench& bench, PartId id) {
    const Part* part = findPart(bench, id);
    if (!part) return {};
    const std::optional<FuseSpec>& fuse = spec(part->kind).fuse;
    if (!fuse) return {};
    std::vector<double> ratings_A = fuse->stock_A.empty() ? bench.kit.blades_A : fuse->stock_A;
    const PartSlot* slot = slotOf(bench, part->ref);
    if (slot && slot->rating > 0.0) ratings_A.push_back(slot->rating);
    std::sort(ratings_A.begin(), ratings_A.end());
    ratings_A.erase(std::unique(ratings_A.begin(), ratings_A.end()), ratings_A.end());
    return ratings_A;
}

Outcome<Bench> edited(Bench bench, const LayPart& edit) {
    const PartSlot* slot = slotOf(bench, edit.ref);
    if (!slot)
        return Refusal{Why::NotInTray,
                       edit.ref,
                       phrase("a-part-of-the-kit"),
                       phrase("none-called-name", {{"name", edit.ref}})};
    if (isOut(bench, *slot))
        return Refusal{
            Why::NotInTray, edit.ref, phrase("a-part-in-the-tray"), phrase("already-on-the-bench")};
    if (bench.parts.size() >= kPartsMost)
        return Refusal{Why::TooMany,
                       edit.ref,
                       phrase("n-parts-at-most", {{"n", numeral(kPartsMost)}}),
                       numeral(bench.parts.size() + 1)};
    if (auto why = whyNotPoint(edit.ref, edit.at_m)) return *why;
    if (auto why = whyNotTurns(edit.ref, edit.quarterTurns)) return *why;
    Part part = freshPart(*slot, {++bench.lastId});
    part.at_m = edit.at_m;
    part.quarterTurns = edit.quarterTurns;
    keepOnBoard(bench, part);
    bench.parts.push_back(part);
    return bench;
}

Outcome<Bench> edited(Bench bench, const MovePart& edit) {
    Part* part = partIn(bench, edit.part);
    if (!part) return noSuchPart(edit.part);
    if (auto why = whyNotPoint(part->ref, edit.at_m)) return *why;
    part->at_m = edit.at_m;
    keepOnBoard(bench, *part);
    return bench;
}

Outcome<Bench> edited(Bench bench, const TurnPart& edit) {
    Part* part = partIn(bench, edit.part);
    if (!part) return noSuchPart(edit.part);
    if (auto why = whyNotTurns(part->ref, edit.quarterTurns)) return *why;
    part->quarterTurns = edit.quarterTurns;
    keepOnBoard(bench, *part);
    return bench;
}

// A part that came with the bench and has no slot gets one, so that it can be laid again.
Outcome<Bench> edited(Bench bench, const RemovePart& edit) {
    const Part* part = findPart(bench, edit.part);
    if (!part) return noSuchPart(edit.part);
    if (!slotOf(bench, part->ref))
        bench.kit.parts.push_back({part->kind, part->ref, part->rating, part->charge});
    takeEndsOff(bench, edit.part);
    bench.parts.erase(bench.parts.begin() + (part - bench.parts.data()));
    forgetWhatIsGone(bench);
    return bench;
}

Outcome<Bench> edited(Bench bench, const FitFuse& edit) {
    Part* part = partIn(bench, edit.part);
    if (!part) return noSuchPart(edit.part);
    if (!isA(*part, PartClass::Fuse))
        return Refusal{
            Why::BladeBlocks, part->ref, phrase("a-fuse"), wordPhrase(spec(part->kind).word)};
    if (!std::isfinite(edit.rating_A))
        return Refusal{Why::NotANumber, part->ref, phrase("a-rating-in-a"), numeral(edit.rating_A)};
    const std::vector<double> atHand_A = ratingsAtHand(bench, edit.part);
    const bool known = std::find(atHand_A.begin(), atHand_A.end(), edit.rating_A) != atHand_A.end();
    if (edit.rating_A != 0.0 && !known) {
        Phrase::List ratings;
        for (const double rating_A : atHand_A)
            ratings.items.push_back(numeral(rating_A));
        return Refusal{Why::NotInTray,
                       part->ref,
                       ratings.items.empty() ? phrase("0-for-none")
                                             : phrase("ratings-or-0", {{"ratings", ratings}}),
                       phrase("n-a", {{"n", numeral(edit.rating_A)}})};
    }
    part->rating = edit.rating_A == 0.0 ? 0.0 : edit.rating_A; // never -0
    part->condition = Condition::Sound;
    return bench;
}

// Turning the isolator off and drawing its key is one move; putting the key in and turning it on
// is two, because a hand that only pushes the key in must not start anything.
Outcome<Bench> edited(Bench bench, const Operate& edit) {
    Part* part = partIn(bench, edit.part);
    if (!part) return noSuchPart(edit.part);
    const int count = static_cast<int>(spec(part->kind).positions.size());
    if (edit.position < 0 || edit.position >= count) {
        const Phrase expected = count ? phrase("position-0-to-n", {{"n", numeral(count - 1)}})
                                      : phrase("a-part-with-a-control");
        return Refusal{Why::NoSuchPosition, part->ref, expected, numeral(edit.position)};
    }
    const bool key = spec(part->kind).control == ControlKind::Key;
    if (key && part->position == 0 && edit.position == 2)
        return Refusal{Why::KeyNotIn, part->ref, phrase("the-key-in"), phrase("key-out")};
    part->position = edit.position;
    return bench;
}

Outcome<Bench> edited(Bench bench, const WearPart& edit) {
    Part* part = partIn(bench, edit.part);
    if (!part) return noSuchPart(edit.part);
    const std::optional<int> opensTo = spec(part->kind).opensTo;
    if (opensTo && edit.condition == Condition::Open) {
        part->position = *opensTo;
        return bench;
    }
    if (!canBe(part->kind, edit.condition))
        return Refusal{
            Why::OutOfRange, part->ref, phrase("a-relay"), wordPhrase(spec(part->kind).word)};
    part->condition = edit.condition;
    return bench;
}

} // namespace loom::bench

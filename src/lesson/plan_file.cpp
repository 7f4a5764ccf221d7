// SPDX-License-Identifier: MIT
#include "lesson/plan_file.h"

#include "bench/catalogue.h"
#include "bench/limits.h"

#include <algorithm>

namespace loom::lesson {
namespace {

using bench::JsonPlace;
using bench::numeral;
using bench::phrase;
using bench::Why;

constexpr double kLeastFrame_m = 0.2, kGreatestFrame_m = 10.0;
constexpr std::size_t kMostParts = 100, kMostCables = 200;

class PlanReader {
public:
    PlanReader(const KnownMembers& members, const bench::Bench& exerciseStart)
        : only(members), known(exerciseStart) {}

    plan::Plan read(const JsonPlace& place) {
        only(place, {"frame", "parts", "cables"});
        const JsonPlace frame = place.member("frame");
        only(frame, {"width", "length"});
        plan.frame_m.x_m = frame.member("width").number(kLeastFrame_m, kGreatestFrame_m);
        plan.frame_m.y_m = frame.member("length").number(kLeastFrame_m, kGreatestFrame_m);
        for (const JsonPlace& item : place.member("parts").items(kMostParts))
            if (item.ok()) part(item);
        for (const JsonPlace& item : place.member("cables").items(kMostCables))
            if (item.ok()) cable(item);
        if (place.ok() && plan.cables.empty())
            place.member("cables").refuse(Why::Missing, phrase("a-cable-at-least"), phrase("none"));
        return std::move(plan);
    }

private:
    const KnownMembers& only;
    KnownParts known;
    plan::Plan plan;

    const plan::PlanPart* planned(const std::string& ref) const {
        for (const plan::PlanPart& part : plan.parts)
            if (part.ref == ref) return &part;
        return nullptr;
    }

    void part(const JsonPlace& place) {
        only(place, {"kind", "ref", "at", "turns", "rating"});
        plan::PlanPart part;
        part.kind = partKind(place.member("kind"));
        const JsonPlace named = place.member("ref");
        part.ref = name(named);
        const auto kind = known.kindOf(named, part.ref);
        if (kind && *kind != part.kind)
            named.refuse(Why::WrongType, bench::spec(*kind).word, bench::spec(part.kind).word);
        if (place.ok() && planned(part.ref))
            named.refuse(Why::Duplicate, phrase("a-part-of-its-own"), part.ref);
        part.at_m = point(place.member("at"), kGreatestFrame_m);
        if (place.has("turns"))
            part.quarterTurns = static_cast<int>(place.member("turns").whole(0, 3));
        if (place.has("rating")) {
            const JsonPlace rating = place.member("rating");
            part.rating = rating.number(0.0, 1e9);
            if (place.ok())
                rating.refuse(bench::whyNotRating(rating.pointer(), part.kind, part.rating));
        }
        plan.parts.push_back(std::move(part));
    }

    void cable(const JsonPlace& place) {
        only(place, {"label", "from", "to", "length", "mm2", "sleeve", "ends", "note"});
        plan::PlanCable cable;
        cable.label = name(place.member("label"));
        cable.from = spot(place.member("from"));
        cable.to = spot(place.member("to"));
        const JsonPlace length = place.member("length"), mm2 = place.member("mm2");
        cable.length_m = length.number(-1e9, 1e9);
        if (place.ok()) length.refuse(bench::whyNotLength(length.pointer(), cable.length_m));
        cable.area_m2 = bench::area_m2FromMm2(mm2.number(-1e9, 1e9));
        if (place.ok()) mm2.refuse(bench::whyNotArea(mm2.pointer(), cable.area_m2));
        cable.sleeve = sleeve(place.member("sleeve"));
        ends(place.member("ends"), cable);
        if (place.has("note")) cable.note = sentence(place.member("note"), only);
        plan.cables.push_back(std::move(cable));
    }

    plan::Spot spot(const JsonPlace& place) const {
        plan::Spot spot = known.spot(place);
        if (place.ok() && !planned(spot.ref))
            place.refuse(Why::UnknownPart, phrase("a-part-of-the-plan"), spot.ref);
        return spot;
    }

    void ends(const JsonPlace& place, plan::PlanCable& cable) const {
        const std::vector<JsonPlace> items = place.items(2);
        if (place.ok() && items.size() != 2)
            place.refuse(Why::OutOfRange, phrase("2-items"), numeral(items.size()));
        for (std::size_t end = 0; place.ok() && end < 2; ++end) {
            cable.ends[end] = endKind(items[end]);
            if (!place.ok()) return;
            const auto kind = terminalKind(end == 0 ? cable.from : cable.to);
            if (kind && !bench::fits(cable.ends[end], *kind))
                items[end].refuse(Why::WrongEnd,
                                  phrase("an-end-that-fits-its-terminal"),
                                  bench::word(cable.ends[end]));
        }
    }

    std::optional<bench::TerminalKind> terminalKind(const plan::Spot& spot) const {
        const plan::PlanPart* part = planned(spot.ref);
        if (!part) return std::nullopt;
        for (const bench::TerminalSpec& terminal : bench::spec(part->kind).terminals)
            if (spot.terminal == terminal.word) return terminal.kind;
        return std::nullopt;
    }
};

} // namespace

plan::Plan readPlan(const JsonPlace& place, const KnownMembers& only, const bench::Bench& start) {
    return PlanReader(only, start).read(place);
}

} // namespace loom::lesson

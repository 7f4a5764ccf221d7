// SPDX-License-Identifier: MIT
#include "lesson/hidden_fault_file.h"

#include "bench/catalogue.h"
#include "bench/limits.h"

#include <algorithm>

namespace loom::lesson {
namespace {

using bench::JsonPlace;
using bench::PartClass;
using bench::phrase;
using bench::Why;

constexpr std::size_t kAlterationsMost = 8;

class AlterationReader {
public:
    AlterationReader(const KnownMembers& members, const bench::Bench& exerciseStart)
        : only(members), start(exerciseStart), known(exerciseStart) {}

    Alteration read(const JsonPlace& place) const {
        static const std::vector<const char*> words = {"fuse open",
                                                       "cable gone",
                                                       "end moved",
                                                       "end unmade",
                                                       "contact welded",
                                                       "turned round",
                                                       "flat"};
        switch (place.member("alter").oneOf(words)) {
        case 0:
            only(place, {"alter", "part"});
            return FuseOpen{partFor(place, {PartClass::Fuse})};
        case 1:
            only(place, {"alter", "cable"});
            return CableGone{label(place)};
        case 2:
            return moved(place);
        case 3:
            return unmade(place);
        case 4:
            only(place, {"alter", "part"});
            return ContactWelded{partFor(place, {PartClass::Relay})};
        case 5:
            only(place, {"alter", "part"});
            return TurnedRound{partFor(place, {PartClass::Diode, PartClass::Motor})};
        default:
            return flat(place);
        }
    }

private:
    const KnownMembers& only;
    const bench::Bench& start;
    KnownParts known;

    // The reference of a part that lies on the bench at the start and is of one of these classes.
    std::string partFor(const JsonPlace& place, const std::vector<PartClass>& classes) const {
        const JsonPlace named = place.member("part");
        const std::string ref = named.text();
        const bench::Part* part = bench::findPart(start, ref);
        if (place.ok() && !part)
            named.refuse(
                Why::UnknownPart, bench::phrase("a-part-that-lies-on-the-bench-at-the-start"), ref);
        if (place.ok() &&
            std::find(classes.begin(), classes.end(), bench::spec(part->kind).partClass) ==
                classes.end())
            named.refuse(
                Why::WrongType, bench::word(classes.front()), bench::spec(part->kind).word);
        return ref;
    }

    std::string label(const JsonPlace& place) const {
        const JsonPlace named = place.member("cable");
        const std::string label = named.text();
        const bool there = std::any_of(start.cables.begin(),
                                       start.cables.end(),
                                       [&](const auto& cable) { return cable.label == label; });
        if (place.ok() && !there)
            named.refuse(
                Why::UnknownCable, phrase("a-cable-that-is-on-the-bench-at-the-start"), label);
        return label;
    }

    AlteredEnd end(const JsonPlace& place) const {
        AlteredEnd end{label(place), known.spot(place.member("at"))};
        if (!place.ok()) return end;
        const auto at = bench::findTerminal(start, end.at.ref, end.at.terminal);
        for (const bench::Cable& cable : start.cables)
            for (const bench::CableEnd& joined : cable.ends)
                if (cable.label == end.label && at && joined.at == at) return end;
        place.member("at").refuse(
            Why::UnknownTerminal,
            phrase("a-terminal-where-the-cable-is-joined-at-the-start"),
            phrase("name-other", {{"name", end.at.ref}, {"other", end.at.terminal}}));
        return end;
    }

    EndMoved moved(const JsonPlace& place) const {
        only(place, {"alter", "cable", "at", "to"});
        return {end(place), known.spot(place.member("to"))};
    }

    EndUnmade unmade(const JsonPlace& place) const {
        only(place,
             {"alter", "cable", "at", "strip_mm", "pushed_mm", "twisted", "pressed", "screw_Nm"});
        EndUnmade fault;
        fault.end = end(place);
        fault.strip_m = millimetres(place, "strip_mm");
        fault.pushed_m = millimetres(place, "pushed_mm");
        fault.twisted = yesOrNo(place, "twisted", true);
        fault.pressed = yesOrNo(place, "pressed", true);
        if (place.has("screw_Nm"))
            fault.torque_Nm = place.member("screw_Nm").number(0.0, bench::kTorqueMost_Nm);
        return fault;
    }

    static std::optional<double> millimetres(const JsonPlace& place, const char* member) {
        if (!place.has(member)) return std::nullopt;
        return place.member(member).number(0.0, bench::kMakeMost_m * 1e3) * 1e-3;
    }

    Flat flat(const JsonPlace& place) const {
        only(place, {"alter", "part", "charge"});
        return {partFor(place, {PartClass::Battery}), place.member("charge").number(0.0, 1.0)};
    }
};

} // namespace

HiddenFault readFault(const JsonPlace& place, const KnownMembers& only, const bench::Bench& start) {
    only(place, {"id", "title", "alterations"});
    HiddenFault fault;
    fault.id = idOf(place.member("id"));
    fault.title = sentence(place.member("title"), only);
    const JsonPlace alterations = place.member("alterations");
    for (const JsonPlace& item : alterations.items(kAlterationsMost))
        if (item.ok()) fault.alterations.push_back(AlterationReader(only, start).read(item));
    if (place.ok() && fault.alterations.empty())
        alterations.refuse(Why::Missing, phrase("an-alteration-at-least"), phrase("none"));
    if (place.ok() && !withFault(start, fault))
        alterations.refuse(Why::OutOfRange,
                           phrase("what-can-be-done-to-the-start"),
                           phrase("a-terminal-that-does-not-take-it"));
    return fault;
}

} // namespace loom::lesson

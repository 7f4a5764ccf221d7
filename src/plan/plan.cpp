// SPDX-License-Identifier: MIT
#include "plan/plan.h"

#include "bench/catalogue.h"
#include "bench/limits.h"
#include "bench/terminal_phrase.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

namespace loom::plan {
namespace {

using bench::Bench;
using bench::Cable;
using bench::Phrase;
using bench::phrase;

// A cable this much longer or shorter is another one: a tenth, at least 2 cm.
constexpr double kLengthShare = 0.1, kLeastLengthStep_m = 0.02;

// One end's place by the part and its terminal's word; nothing for an end that lies loose.
using Place = std::optional<Spot>;

const bench::PartSpec* specOf(const Plan& plan, const std::string& ref) {
    for (const PlanPart& part : plan.parts)
        if (part.ref == ref) return &bench::spec(part.kind);
    return nullptr;
}

std::string otherTerminal(const bench::PartSpec& kind, const std::string& word) {
    return word == kind.terminals[0].word ? kind.terminals[1].word : kind.terminals[0].word;
}

class Comparison {
public:
    Comparison(const Plan& wanted, const Bench& made) : plan(wanted), bench(made) {
        for (const PlanPart& part : plan.parts)
            if (isTurned(part)) turned.insert(part.ref);
    }

    std::vector<Difference> find() {
        for (std::size_t row = 0; row < plan.cables.size(); ++row)
            matched.push_back(nullptr);
        std::set<std::string> labels;
        for (const PlanCable& row : plan.cables)
            if (labels.insert(row.label).second) match(row.label);
        std::vector<Difference> all;
        for (std::size_t row = 0; row < plan.cables.size(); ++row) {
            const auto found = compared(plan.cables[row], matched[row]);
            all.insert(all.end(), found.begin(), found.end());
        }
        addExtras(all);
        addFuses(all);
        return all;
    }

private:
    const Plan& plan;
    const Bench& bench;
    std::set<std::string> turned;      // parts that are alike both ways and lie the other way
    std::vector<const Cable*> matched; // for each row
    std::set<bench::CableId> taken;

    const bench::PartSpec* kindOf(const std::string& ref) const {
        const bench::Part* part = bench::findPart(bench, ref);
        return part ? &bench::spec(part->kind) : nullptr;
    }

    Place rawPlace(const bench::CableEnd& end) const {
        const bench::Part* part = end.at ? bench::findPart(bench, end.at->part) : nullptr;
        if (!part) return std::nullopt;
        return Spot{part->ref, bench::spec(part->kind).terminals[end.at->terminal].word};
    }

    Place place(const bench::CableEnd& end) const {
        Place place = rawPlace(end);
        if (place && turned.count(place->ref))
            place->terminal = otherTerminal(*kindOf(place->ref), place->terminal);
        return place;
    }

    bool isAt(const Place& place, const Spot& wanted) const {
        if (!place || place->ref != wanted.ref) return false;
        const bench::PartSpec* kind = kindOf(wanted.ref);
        const int metal = bench::metalOf(*kind, wanted.terminal);
        return metal >= 0 && metal == bench::metalOf(*kind, place->terminal);
    }

    // More cables fit when the part is taken the other way round.
    bool isTurned(const PlanPart& part) const {
        const bench::PartSpec& kind = bench::spec(part.kind);
        if (!bench::isEitherWay(kind) || kindOf(part.ref) != &kind) return false;
        int as = 0, turnedRound = 0;
        for (const PlanCable& row : plan.cables)
            for (const Cable& cable : bench.cables) {
                if (cable.label != row.label) continue;
                vote(part.ref, row.from, row.to, cable, as, turnedRound);
                vote(part.ref, row.to, row.from, cable, as, turnedRound);
            }
        return turnedRound > as;
    }

    // One cable's word on how the part `ref` lies, when its far end is at the right part.
    void vote(const std::string& ref,
              const Spot& here,
              const Spot& far,
              const Cable& cable,
              int& as,
              int& turnedRound) const {
        if (here.ref != ref) return;
        for (int end = 0; end < 2; ++end) {
            const Place at = rawPlace(cable.ends[end]), other = rawPlace(cable.ends[1 - end]);
            if (!at || at->ref != ref || !other || other->ref != far.ref) continue;
            const bench::PartSpec* kind = kindOf(far.ref);
            if (!bench::isEitherWay(*kind) && !isAt(other, far)) continue;
            ++(at->terminal == here.terminal ? as : turnedRound);
        }
    }

    // The cables of one label go to the rows of that label so that least differs. As many as a
    // label has are few; from six on they are taken in order.
    void match(const std::string& label) {
        std::vector<std::size_t> rows;
        for (std::size_t row = 0; row < plan.cables.size(); ++row)
            if (plan.cables[row].label == label) rows.push_back(row);
        std::vector<const Cable*> cables;
        for (const Cable& cable : bench.cables)
            if (cable.label == label && isJoined(cable)) cables.push_back(&cable);
        while (cables.size() < rows.size())
            cables.push_back(nullptr);
        std::vector<std::size_t> order(cables.size());
        for (std::size_t i = 0; i < order.size(); ++i)
            order[i] = i;
        std::vector<std::size_t> best = order;
        std::size_t least = worth(rows, cables, order);
        const bool few = order.size() < 6;
        while (few && std::next_permutation(order.begin(), order.end())) {
            const std::size_t differing = worth(rows, cables, order);
            if (differing >= least) continue;
            least = differing;
            best = order;
        }
        for (std::size_t i = 0; i < rows.size(); ++i) {
            matched[rows[i]] = cables[best[i]];
            if (cables[best[i]]) taken.insert(cables[best[i]]->id);
        }
    }

    std::size_t worth(const std::vector<std::size_t>& rows,
                      const std::vector<const Cable*>& cables,
                      const std::vector<std::size_t>& order) const {
        std::size_t differing = 0;
        for (std::size_t i = 0; i < rows.size(); ++i)
            differing += compared(plan.cables[rows[i]], cables[order[i]]).size();
        return differing;
    }

    static bool isJoined(const Cable& cable) { return cable.ends[0].at || cable.ends[1].at; }

    std::vector<Difference> compared(const PlanCable& row, const Cable* cable) const {
        if (!cable)
            return {{DifferenceKind::Missing, row.label, -1, placesOf(row), phrase("nothing")}};
        std::vector<Difference> as = endsCompared(row, *cable, 0);
        const std::vector<Difference> crosswise = endsCompared(row, *cable, 1);
        if (crosswise.size() < as.size()) as = crosswise;
        compareBody(row, *cable, as);
        return as;
    }

    // `first`: which end of the cable lies where the row begins.
    std::vector<Difference>
    endsCompared(const PlanCable& row, const Cable& cable, int first) const {
        std::vector<Difference> all;
        for (int end = 0; end < 2; ++end) {
            const Spot& wanted = end == 0 ? row.from : row.to;
            const bench::CableEnd& made = cable.ends[end == 0 ? first : 1 - first];
            const Place at = place(made);
            if (!isAt(at, wanted))
                all.push_back({DifferenceKind::WrongEnd,
                               row.label,
                               end,
                               named(wanted),
                               namedWrong(at, wanted)});
            else if (made.kind != row.ends[end])
                all.push_back({DifferenceKind::WrongFitting,
                               row.label,
                               end,
                               bench::wordPhrase(bench::word(row.ends[end])),
                               bench::wordPhrase(bench::word(made.kind))});
        }
        return all;
    }

    static void
    compareBody(const PlanCable& row, const Cable& cable, std::vector<Difference>& all) {
        const auto add = [&](DifferenceKind kind, Phrase expected, Phrase found) {
            all.push_back({kind, row.label, -1, std::move(expected), std::move(found)});
        };
        if (bench::wholeArea_m2(cable.area_m2) != bench::wholeArea_m2(row.area_m2))
            add(DifferenceKind::WrongSize, inMm2(row.area_m2), inMm2(cable.area_m2));
        if (cable.sleeve != row.sleeve)
            add(DifferenceKind::WrongColour,
                bench::wordPhrase(bench::word(row.sleeve)),
                bench::wordPhrase(bench::word(cable.sleeve)));
        const double allowed_m = std::max(kLengthShare * row.length_m, kLeastLengthStep_m);
        if (std::fabs(cable.length_m - row.length_m) > allowed_m + 1e-9)
            add(DifferenceKind::WrongLength, inMetres(row.length_m), inMetres(cable.length_m));
    }

    // A cable is extra when it is joined to a part of the plan; what belongs to other parts, such
    // as the leads of a coil's diode, is none of the plan's business.
    void addExtras(std::vector<Difference>& all) const {
        for (const Cable& cable : bench.cables) {
            if (taken.count(cable.id) || !isJoined(cable)) continue;
            const Place from = place(cable.ends[0]), to = place(cable.ends[1]);
            const auto isForeign = [&](const Place& at) { return at && !specOf(plan, at->ref); };
            if (isForeign(from) || isForeign(to)) continue;
            all.push_back({DifferenceKind::Extra,
                           cable.label,
                           -1,
                           phrase("no-such-cable"),
                           fromTo(named(from), named(to))});
        }
    }

    void addFuses(std::vector<Difference>& all) const {
        for (const PlanPart& wanted : plan.parts) {
            const bench::Part* part = bench::findPart(bench, wanted.ref);
            if (!part || wanted.rating <= 0.0 || part->rating == wanted.rating) continue;
            all.push_back({DifferenceKind::WrongFuse,
                           wanted.ref,
                           -1,
                           inAmperes(wanted.rating),
                           inAmperes(part->rating)});
        }
    }

    static Phrase inAmperes(double rating_A) {
        return rating_A > 0.0 ? Phrase(Phrase::Amount{rating_A, "A"}) : phrase("no-fuse");
    }

    Phrase named(const Spot& spot) const {
        const bench::PartSpec* kind = specOf(plan, spot.ref);
        return kind ? placeName(kind->kind, spot) : bench::terminalPhrase(spot.ref, spot.terminal);
    }

    Phrase named(const Place& place) const { return place ? named(*place) : phrase("loose"); }

    // Where a wrong end is; two terminals that look alike are told apart by what is joined there.
    Phrase namedWrong(const Place& place, const Spot& wanted) const {
        const Phrase found = named(place);
        return found == named(wanted) ? phrase("the-other-terminal-of", {{"place", found}}) : found;
    }

    Phrase placesOf(const PlanCable& row) const { return fromTo(named(row.from), named(row.to)); }

    static Phrase fromTo(const Phrase& from, const Phrase& to) {
        return phrase("from-to", {{"from", from}, {"to", to}});
    }

    static Phrase inMm2(double area_m2) {
        const double area_mm2 = bench::area_mm2FromM2(bench::wholeArea_m2(area_m2));
        return phrase("n-sq-mm", {{"n", bench::numeral(area_mm2)}});
    }

    static Phrase inMetres(double length_m) {
        return phrase("n-metres", {{"n", bench::numeral(length_m)}});
    }
};

} // namespace

Phrase placeName(bench::PartKind kind, const Spot& spot) {
    if (bench::isA(kind, bench::PartClass::Block))
        return spot.ref + "/" + spot.terminal.substr(0, spot.terminal.find(' '));
    return bench::isEitherWay(bench::spec(kind)) ? Phrase(spot.ref)
                                                 : bench::terminalPhrase(spot.ref, spot.terminal);
}

Phrase placeName(const bench::Bench& bench, bench::TerminalRef terminal) {
    const bench::Part* part = bench::findPart(bench, terminal.part);
    if (!part) return phrase("nothing");
    return placeName(part->kind,
                     {part->ref, bench::spec(part->kind).terminals[terminal.terminal].word});
}

std::vector<Difference> differences(const Plan& plan, const bench::Bench& bench) {
    return Comparison(plan, bench).find();
}

Phrase describe(const Difference& difference) {
    const bool loose = difference.found == phrase("loose");
    const char* key = "";
    switch (difference.kind) {
    case DifferenceKind::Missing:
        key = "difference/missing";
        break;
    case DifferenceKind::Extra:
        key = "difference/extra";
        break;
    case DifferenceKind::WrongEnd:
        key = loose ? "difference/loose" : "difference/wrong-end";
        break;
    case DifferenceKind::WrongSize:
        key = "difference/wrong-size";
        break;
    case DifferenceKind::WrongColour:
        key = "difference/wrong-colour";
        break;
    case DifferenceKind::WrongLength:
        key = "difference/wrong-length";
        break;
    case DifferenceKind::WrongFitting:
        key = "difference/wrong-fitting";
        break;
    case DifferenceKind::WrongFuse:
        key = "difference/wrong-fuse";
        break;
    }
    return phrase(key, {{"label", difference.label}, {"found", difference.found}});
}

} // namespace loom::plan

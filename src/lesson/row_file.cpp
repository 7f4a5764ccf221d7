// SPDX-License-Identifier: MIT
#include "lesson/row_file.h"

#include "bench/catalogue.h"
#include "bench/limits.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <tuple>

namespace loom::lesson {
namespace {

using bench::JsonPlace;
using bench::numeral;
using bench::phrase;
using bench::Why;

constexpr std::size_t kMostNames = 40, kMostFaults = 6, kMostLabels = 100;
constexpr std::int64_t kMostCount = 1000;
constexpr double kGreatestRun_s = 120.0;
constexpr double kAnyValue = 1e9; // beyond every limit that means something

// In the order of Quantity, Through and Order::Rule.
constexpr const char* kQuantityWords[] = {
    "voltage", "current", "power", "speed", "pulled in", "brightness", "hottest cable"};
constexpr const char* kThroughWords[] = {"cables", "closed", "anything"};
constexpr const char* kRuleWords[] = {
    "battery last",
    "link last",
    "isolator off while joining",
    "key out while joining",
    "dead while working"};

constexpr const char* kPartsWords[] = {"fresh", "as they are"}; // a bool's false and true

double run_s(const JsonPlace& owner, const char* member, double otherwise_s) {
    return owner.has(member) ? owner.member(member).number(0.001, kGreatestRun_s) : otherwise_s;
}

// The only kind of part that has this quantity, if it takes a particular one.
std::optional<bench::PartClass> ownerOf(Quantity quantity) {
    switch (quantity) {
    case Quantity::Speed_rad_s:
        return bench::PartClass::Motor;
    case Quantity::PulledIn:
        return bench::PartClass::Relay;
    case Quantity::Brightness:
        return bench::PartClass::Lamp;
    default:
        return std::nullopt;
    }
}

} // namespace

Row RowReader::read(const JsonPlace& place) const {
    Row row;
    const JsonPlace look = place.member("look");
    const std::string word = look.text();
    row.say = sentence(place.member("say"), only);
    if (word == "present")
        row.look = Present{parts(place)};
    else if (word == "wired")
        row.look = Wired{parts(place)};
    else if (word == "passed")
        row.look = passed(place);
    else if (word == "joined")
        row.look = path<Joined>(place);
    else if (word == "apart")
        row.look = path<Apart>(place);
    else if (word == "behaves")
        row.look = behaves(place);
    else if (word == "unharmed")
        row.look = unharmed(place);
    else if (word == "survives")
        row.look = survives(place);
    else if (word == "protected")
        row.look = isProtected(place);
    else if (word == "isolated")
        row.look = isolated(place);
    else if (word == "done")
        row.look = done(place);
    else if (word == "order")
        row.look = order(place);
    else if (word == "follows plan")
        row.look = followsPlan(place);
    else if (word == "well made")
        row.look = wellMade(place);
    else if (word == "in order")
        row.look = inOrder(place);
    else if (word == "cross-checked")
        row.look = crossChecked(place);
    else if (word == "found")
        row.look = found(place);
    else if (word == "sound")
        row.look = sound(place);
    else
        look.refuse(Why::UnknownWord, phrase("a-kind-of-row"), word);
    return row;
}

std::vector<std::string> RowReader::parts(const JsonPlace& place) const {
    only(place, {"look", "say", "parts"});
    std::vector<std::string> refs;
    for (const JsonPlace& item : place.member("parts").items(kMostNames))
        refs.push_back(known.ref(item));
    if (place.ok() && refs.empty())
        place.member("parts").refuse(Why::Missing, phrase("a-part-at-least"), phrase("none"));
    return refs;
}

Passed RowReader::passed(const JsonPlace& place) const {
    only(place, {"look", "say", "check"});
    const JsonPlace check = place.member("check");
    const std::string id = check.text();
    const auto& earlier = exercise.checks;
    const auto is = [&](const Check& other) { return other.id == id; };
    if (std::none_of(earlier.begin(), earlier.end(), is))
        check.refuse(Why::UnknownWord, phrase("the-id-of-an-earlier-check"), id);
    return {id};
}

template <class Look> Look RowReader::path(const JsonPlace& place) const {
    only(place, {"look", "say", "between", "through", "set"});
    Look look;
    std::tie(look.a, look.b) = between(place);
    if (place.has("through"))
        look.through = static_cast<Through>(place.member("through").oneOf(kThroughWords));
    look.set = positions(place, "set");
    return look;
}

Behaves RowReader::behaves(const JsonPlace& place) const {
    only(place,
         {"look",
          "say",
          "set",
          "parts",
          "after_s",
          "then",
          "thenAfter_s",
          "of",
          "between",
          "quantity",
          "least",
          "most"});
    Behaves behaves;
    behaves.set = positions(place, "set");
    behaves.asItIs = partsAsTheyAre(place);
    behaves.after_s = run_s(place, "after_s", behaves.after_s);
    behaves.thenSet = positions(place, "then");
    if (place.has("then")) behaves.thenAfter_s = run_s(place, "thenAfter_s", 0.5);
    if (place.has("thenAfter_s")) place.member("then");
    behaves.quantity = static_cast<Quantity>(place.member("quantity").oneOf(kQuantityWords));
    if (place.has("of")) behaves.of = known.ref(place.member("of"));
    if (place.has("between")) std::tie(behaves.a, behaves.b) = between(place);
    checkOwner(place, behaves);
    std::tie(behaves.least, behaves.most) = limits(place);
    return behaves;
}

std::pair<double, double> RowReader::limits(const JsonPlace& place) {
    const bool least = place.has("least"), most = place.has("most");
    const double from = least ? place.member("least").number(-kAnyValue, kAnyValue) : -kAnyValue;
    const double to = most ? place.member("most").number(from, kAnyValue) : kAnyValue;
    if (!least && !most)
        place.refuse(Why::Missing, phrase("least-most-or-both"), phrase("neither"));
    return {from, to};
}

bool RowReader::partsAsTheyAre(const JsonPlace& place) {
    return place.has("parts") && place.member("parts").oneOf(kPartsWords) == 1;
}

Done RowReader::done(const JsonPlace& place) const {
    only(place,
         {"look", "say", "set", "for_s", "then", "thenFor_s", "of", "quantity", "least", "most"});
    Done done;
    done.set = positions(place, "set");
    done.for_s = run_s(place, "for_s", done.for_s);
    done.thenSet = positions(place, "then");
    if (place.has("then")) done.thenFor_s = run_s(place, "thenFor_s", 0.5);
    if (place.has("thenFor_s")) place.member("then");
    done.quantity = static_cast<Quantity>(place.member("quantity").oneOf(kQuantityWords));
    done.of = known.ref(place.member("of"));
    checkKind(place, done.of, done.quantity);
    std::tie(done.least, done.most) = limits(place);
    return done;
}

// Voltage is of a part or between two spots, the hottest cable of neither, all else of a part.
void RowReader::checkOwner(const JsonPlace& place, const Behaves& behaves) const {
    const bool of = !behaves.of.empty(), between = !behaves.a.ref.empty();
    const bool wantsNeither = behaves.quantity == Quantity::CableTemp_K;
    const bool mayBeBetween = behaves.quantity == Quantity::Voltage_V;
    if (wantsNeither ? of || between : of == between || (between && !mayBeBetween))
        return place.refuse(Why::Missing,
                            wantsNeither   ? phrase("neither-of-nor-between")
                            : mayBeBetween ? phrase("either-of-or-between")
                                           : "of",
                            of        ? "of"
                            : between ? "between"
                                      : phrase("neither"));
    checkKind(place, behaves.of, behaves.quantity);
}

void RowReader::checkKind(const JsonPlace& place,
                          const std::string& of,
                          Quantity quantity) const {
    const auto owner = ownerOf(quantity);
    if (!owner || !place.ok()) return;
    const JsonPlace named = place.member("of");
    const auto kind = known.kindOf(named, of);
    if (kind && !bench::isA(*kind, *owner))
        named.refuse(Why::WrongType, bench::firstOf(*owner).word, bench::spec(*kind).word);
}

Unharmed RowReader::unharmed(const JsonPlace& place) const {
    only(place, {"look", "say", "set", "parts", "for_s"});
    Unharmed unharmed;
    unharmed.set = positions(place, "set");
    unharmed.asItIs = partsAsTheyAre(place);
    unharmed.for_s = run_s(place, "for_s", unharmed.for_s);
    return unharmed;
}

Survives RowReader::survives(const JsonPlace& place) const {
    only(place, {"look", "say", "set", "between", "fault_ohm", "for_s"});
    Survives survives;
    survives.set = positions(place, "set");
    std::tie(survives.a, survives.b) = between(place);
    survives.for_s = run_s(place, "for_s", survives.for_s);
    if (!place.has("fault_ohm")) return survives;
    survives.fault_ohm.clear();
    for (const JsonPlace& item : place.member("fault_ohm").items(kMostFaults))
        survives.fault_ohm.push_back(item.number(1e-6, 1e6));
    if (place.ok() && survives.fault_ohm.empty())
        place.member("fault_ohm")
            .refuse(Why::Missing, phrase("a-resistance-at-least"), phrase("none"));
    return survives;
}

// "named" by places and size, "cables" by the plan's labels.
Protected RowReader::isProtected(const JsonPlace& place) const {
    only(place, {"look", "say", "common", "named", "cables", "thinReturns"});
    Protected wanted;
    wanted.asked.thinReturns = yesOrNo(place, "thinReturns", false);
    wanted.asked.common = known.spot(place.member("common"));
    if (place.has("named"))
        for (const JsonPlace& item : place.member("named").items(kMostNames))
            wanted.asked.unprotected.push_back(namedCable(item));
    if (!place.has("cables")) return wanted;
    needPlan(place);
    if (!place.ok()) return wanted;
    for (const std::string& label : labels(place))
        for (const plan::PlanCable& row : exercise.plan->cables)
            if (row.label == label)
                wanted.asked.unprotected.push_back({row.from, row.to, row.area_m2});
    return wanted;
}

NamedCable RowReader::namedCable(const JsonPlace& place) const {
    only(place, {"between", "mm2"});
    NamedCable named;
    std::tie(named.a, named.b) = between(place);
    named.least_m2 = bench::area_m2FromMm2(place.member("mm2").number(0.0, 1000.0));
    return named;
}

Isolated RowReader::isolated(const JsonPlace& place) const {
    only(place, {"look", "say", "common", "before"});
    Isolated isolated;
    isolated.common = known.spot(place.member("common"));
    for (const JsonPlace& item : place.member("before").items(kMostNames))
        isolated.before.push_back(known.ref(item));
    return isolated;
}

Order RowReader::order(const JsonPlace& place) const {
    only(place, {"look", "say", "rule", "common"});
    Order order;
    order.rule = static_cast<Order::Rule>(place.member("rule").oneOf(kRuleWords));
    if (order.rule == Order::Rule::DeadWhileWorking)
        order.common = known.spot(place.member("common"));
    return order;
}

FollowsPlan RowReader::followsPlan(const JsonPlace& place) const {
    only(place, {"look", "say", "cables"});
    needPlan(place);
    return {labels(place)};
}

WellMade RowReader::wellMade(const JsonPlace& place) const {
    only(place, {"look", "say", "cables"});
    return {labels(place)};
}

InOrder RowReader::inOrder(const JsonPlace& place) const {
    only(place, {"look", "say", "steps", "least"});
    InOrder inOrder;
    if (place.has("steps"))
        for (const JsonPlace& item : place.member("steps").items(plan::kStepCount))
            inOrder.steps.push_back(static_cast<plan::Step>(item.oneOf(plan::kStepWords)));
    if (place.ok() && place.has("steps") && inOrder.steps.empty())
        place.member("steps").refuse(Why::Missing, phrase("a-step-at-least"), phrase("none"));
    if (place.has("least"))
        inOrder.least = static_cast<int>(place.member("least").whole(1, plan::kStepCount));
    return inOrder;
}

CrossChecked RowReader::crossChecked(const JsonPlace& place) const {
    only(place, {"look", "say", "everyCable", "bothEnds", "noneMissed", "noFalseAlarm"});
    needPlan(place);
    CrossChecked wanted;
    wanted.everyCable = yesOrNo(place, "everyCable", wanted.everyCable);
    wanted.bothEnds = yesOrNo(place, "bothEnds", wanted.bothEnds);
    wanted.noneMissed = yesOrNo(place, "noneMissed", wanted.noneMissed);
    wanted.noFalseAlarm = yesOrNo(place, "noFalseAlarm", wanted.noFalseAlarm);
    return wanted;
}

Found RowReader::found(const JsonPlace& place) const {
    only(place, {"look", "say", "mostMeasurements", "mostNamings", "shown"});
    if (place.ok() && exercise.faults.empty())
        place.refuse(Why::Missing, phrase("an-exercise-with-faults"), phrase("none"));
    Found found;
    if (place.has("mostMeasurements"))
        found.mostMeasurements =
            static_cast<int>(place.member("mostMeasurements").whole(1, kMostCount));
    if (place.has("mostNamings"))
        found.mostNamings = static_cast<int>(place.member("mostNamings").whole(1, kMostCount));
    found.shown = yesOrNo(place, "shown", found.shown);
    return found;
}

Sound RowReader::sound(const JsonPlace& place) const {
    only(place, {"look", "say", "leastCharge"});
    Sound sound;
    if (place.has("leastCharge")) sound.leastCharge = place.member("leastCharge").number(0.0, 1.0);
    return sound;
}

void RowReader::needPlan(const JsonPlace& place) const {
    if (place.ok() && !exercise.plan)
        place.refuse(Why::Missing, phrase("an-exercise-with-a-plan"), phrase("none"));
}

// Those of the plan; where there is none, of the kit or the start.
std::vector<std::string> RowReader::labels(const JsonPlace& place) const {
    std::vector<std::string> labels;
    if (!place.has("cables")) return labels;
    const JsonPlace list = place.member("cables");
    for (const JsonPlace& item : list.items(kMostLabels)) {
        labels.push_back(item.text());
        if (item.ok() && !isKnown(labels.back()))
            item.refuse(Why::UnknownCable,
                        phrase("a-cable-of-the-plan-the-kit-or-the-start"),
                        labels.back());
    }
    if (place.ok() && labels.empty())
        list.refuse(Why::Missing, phrase("a-cable-at-least"), phrase("none"));
    return labels;
}

bool RowReader::isKnown(const std::string& label) const {
    const auto is = [&](const auto& cable) { return cable.label == label; };
    const auto in = [&](const auto& cables) {
        return std::any_of(cables.begin(), cables.end(), is);
    };
    return (exercise.plan && in(exercise.plan->cables)) || in(exercise.start.cables) ||
           in(exercise.start.kit.readyMade);
}

std::pair<plan::Spot, plan::Spot> RowReader::between(const JsonPlace& place) const {
    const JsonPlace pair = place.member("between");
    const std::vector<JsonPlace> items = pair.items(2);
    if (pair.ok() && items.size() != 2)
        pair.refuse(Why::OutOfRange, phrase("2-items"), numeral(items.size()));
    if (!pair.ok()) return {};
    return {known.spot(items[0]), known.spot(items[1])};
}

Positions RowReader::positions(const JsonPlace& owner, const char* member) const {
    if (!owner.has(member)) return {};
    const JsonPlace place = owner.member(member);
    if (!place.isObject()) {
        place.refuse(Why::WrongType, phrase("an-object"), phrase("something-else"));
        return {};
    }
    Positions set;
    const nlohmann::json::json_pointer pointer(place.pointer());
    for (const auto& [ref, value] : only.document[pointer].items()) {
        const JsonPlace control = place.member(ref.c_str());
        set[ref] = control.text();
        checkPosition(control, ref);
    }
    return set;
}

void RowReader::checkPosition(const JsonPlace& place, const std::string& ref) const {
    const auto kind = known.kindOf(place, ref);
    if (!kind) return;
    const std::string word = place.text();
    if (bench::isA(*kind, bench::PartClass::Fuse) && word == "open") return;
    const auto& words = bench::spec(*kind).positions;
    if (std::find(words.begin(), words.end(), word) != words.end()) return;
    bench::Phrase::List expected;
    if (bench::isA(*kind, bench::PartClass::Fuse)) expected.items.emplace_back("open");
    expected.items.insert(expected.items.end(), words.begin(), words.end());
    place.refuse(Why::NoSuchPosition,
                 expected.items.empty() ? phrase("no-control") : bench::Phrase(expected),
                 word);
}

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
#include "lesson/row_file.h"

#include "bench/catalogue.h"

#include <algorithm>
#include <tuple>

namespace loom::lesson {
namespace {

using bench::JsonPlace;
using bench::Why;

constexpr std::size_t greatestSentence_bytes = 400, mostNames = 40, mostFaults = 6;
constexpr double greatestRun_s = 120.0;
constexpr double anyValue = 1e9; // beyond every limit that means something

// In the order of Quantity, Through and Order::Rule.
constexpr const char* quantityWords[] = {
    "voltage", "current", "power", "speed", "pulled in", "brightness", "hottest cable"};
constexpr const char* throughWords[] = {"cables", "closed", "anything"};
constexpr const char* ruleWords[] = {
    "battery last", "link last", "isolator off while joining", "key out while joining"};

// The value whose word this is; refused and the first when it is none of them.
template <class Value, std::size_t count>
Value oneOf(const JsonPlace& place, const char* const (&words)[count]) {
    const std::string text = place.text();
    std::string expected;
    for (std::size_t i = 0; i < count; ++i) {
        if (text == words[i]) return static_cast<Value>(i);
        expected += (i ? ", " : "") + std::string(words[i]);
    }
    place.refuse(Why::UnknownWord, expected, text);
    return static_cast<Value>(0);
}

double run_s(const JsonPlace& owner, const char* member, double otherwise_s) {
    return owner.has(member) ? owner.member(member).number(0.001, greatestRun_s) : otherwise_s;
}

bool isFuse(bench::PartKind kind) {
    return kind == bench::PartKind::BladeHolder || kind == bench::PartKind::StripFuse;
}

// The only kind of part that has this quantity, if it takes a particular one.
std::optional<bench::PartKind> ownerOf(Quantity quantity) {
    switch (quantity) {
    case Quantity::Speed_rad_s:
        return bench::PartKind::Motor;
    case Quantity::PulledIn:
        return bench::PartKind::Relay;
    case Quantity::Brightness:
        return bench::PartKind::Headlamp;
    default:
        return std::nullopt;
    }
}

} // namespace

std::string sentence(const JsonPlace& place) {
    const std::string text = place.text();
    if (!place.ok()) return text;
    if (text.empty() || text.size() > greatestSentence_bytes)
        place.refuse(Why::OutOfRange,
                     "1 to " + std::to_string(greatestSentence_bytes) + " bytes",
                     std::to_string(text.size()));
    const auto isControl = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; };
    if (std::any_of(text.begin(), text.end(), isControl))
        place.refuse(Why::OutOfRange, "no control characters", "one");
    return text;
}

void KnownMembers::operator()(const JsonPlace& place,
                              std::initializer_list<const char*> names) const {
    if (!place.isObject()) return;
    const nlohmann::json::json_pointer pointer(place.pointer());
    if (!document.contains(pointer)) return;
    for (const auto& [member, value] : document[pointer].items()) {
        const auto is = [&, &found = member](const char* name) { return found == name; };
        if (std::any_of(names.begin(), names.end(), is)) continue;
        std::string expected = "one of";
        for (const char* name : names)
            expected += " " + std::string(name);
        place.refuse(Why::UnknownWord, expected, member);
    }
}

Row RowReader::read(const JsonPlace& place) const {
    Row row;
    const JsonPlace look = place.member("look");
    const std::string word = look.text();
    row.say = sentence(place.member("say"));
    if (word == "present")
        row.look = present(place);
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
    else if (word == "order")
        row.look = order(place);
    else
        look.refuse(Why::UnknownWord,
                    "present, passed, joined, apart, behaves, unharmed, survives or order",
                    word);
    return row;
}

Present RowReader::present(const JsonPlace& place) const {
    only(place, {"look", "say", "parts"});
    Present present;
    for (const JsonPlace& item : place.member("parts").items(mostNames))
        present.refs.push_back(ref(item));
    if (place.ok() && present.refs.empty())
        place.member("parts").refuse(Why::Missing, "a part at least", "none");
    return present;
}

Passed RowReader::passed(const JsonPlace& place) const {
    only(place, {"look", "say", "check"});
    const JsonPlace check = place.member("check");
    const std::string id = check.text();
    const auto& earlier = exercise.checks;
    const auto is = [&](const Check& other) { return other.id == id; };
    if (std::none_of(earlier.begin(), earlier.end(), is))
        check.refuse(Why::UnknownWord, "the id of an earlier check", id);
    return {id};
}

template <class Look> Look RowReader::path(const JsonPlace& place) const {
    only(place, {"look", "say", "between", "through", "set"});
    Look look;
    std::tie(look.a, look.b) = between(place);
    if (place.has("through")) look.through = oneOf<Through>(place.member("through"), throughWords);
    look.set = positions(place, "set");
    return look;
}

Behaves RowReader::behaves(const JsonPlace& place) const {
    only(place,
         {"look",
          "say",
          "set",
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
    behaves.after_s = run_s(place, "after_s", behaves.after_s);
    behaves.thenSet = positions(place, "then");
    if (place.has("then")) behaves.thenAfter_s = run_s(place, "thenAfter_s", 0.5);
    if (place.has("thenAfter_s")) place.member("then");
    behaves.quantity = oneOf<Quantity>(place.member("quantity"), quantityWords);
    if (place.has("of")) behaves.of = ref(place.member("of"));
    if (place.has("between")) std::tie(behaves.a, behaves.b) = between(place);
    checkOwner(place, behaves);
    const bool least = place.has("least"), most = place.has("most");
    behaves.least = least ? place.member("least").number(-anyValue, anyValue) : -anyValue;
    behaves.most = most ? place.member("most").number(behaves.least, anyValue) : anyValue;
    if (!least && !most) place.refuse(Why::Missing, "least, most or both", "neither");
    return behaves;
}

// Voltage is of a part or between two spots, the hottest cable of neither, all else of a part.
void RowReader::checkOwner(const JsonPlace& place, const Behaves& behaves) const {
    const bool of = !behaves.of.empty(), between = !behaves.a.ref.empty();
    const bool wantsNeither = behaves.quantity == Quantity::CableTemp_K;
    const bool mayBeBetween = behaves.quantity == Quantity::Voltage_V;
    if (wantsNeither ? of || between : of == between || (between && !mayBeBetween))
        return place.refuse(Why::Missing,
                            wantsNeither   ? "neither of nor between"
                            : mayBeBetween ? "either of or between"
                                           : "of",
                            of        ? "of"
                            : between ? "between"
                                      : "neither");
    const auto owner = ownerOf(behaves.quantity);
    if (!owner || !place.ok()) return;
    const JsonPlace named = place.member("of");
    const auto kind = kindOf(named, behaves.of);
    if (kind && kind != owner)
        named.refuse(Why::WrongType, bench::spec(*owner).word, bench::spec(*kind).word);
}

Unharmed RowReader::unharmed(const JsonPlace& place) const {
    only(place, {"look", "say", "set", "for_s"});
    Unharmed unharmed;
    unharmed.set = positions(place, "set");
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
    for (const JsonPlace& item : place.member("fault_ohm").items(mostFaults))
        survives.fault_ohm.push_back(item.number(1e-6, 1e6));
    if (place.ok() && survives.fault_ohm.empty())
        place.member("fault_ohm").refuse(Why::Missing, "a resistance at least", "none");
    return survives;
}

Order RowReader::order(const JsonPlace& place) const {
    only(place, {"look", "say", "rule"});
    return {oneOf<Order::Rule>(place.member("rule"), ruleWords)};
}

std::optional<bench::PartKind> RowReader::kindOf(const JsonPlace& place,
                                                 const std::string& ref) const {
    if (!place.ok()) return std::nullopt;
    if (const bench::Part* laid = bench::findPart(exercise.start, ref)) return laid->kind;
    for (const bench::PartSlot& slot : exercise.start.kit.parts)
        if (slot.ref == ref) return slot.kind;
    place.refuse(Why::UnknownPart, "a part of the start or its kit", ref);
    return std::nullopt;
}

std::string RowReader::ref(const JsonPlace& place) const {
    const std::string ref = place.text();
    kindOf(place, ref);
    return ref;
}

// "K1 normally open": the reference, a space, the terminal's word.
Spot RowReader::spot(const JsonPlace& place) const {
    const std::string text = place.text();
    const std::size_t space = text.find(' ');
    if (place.ok() && space == std::string::npos)
        place.refuse(Why::UnknownTerminal, "a part and a terminal, such as K1 coil a", text);
    if (!place.ok()) return {};
    Spot spot{text.substr(0, space), text.substr(space + 1)};
    const auto kind = kindOf(place, spot.ref);
    if (!kind) return spot;
    const auto& terminals = bench::spec(*kind).terminals;
    const auto is = [&](const bench::TerminalSpec& terminal) {
        return spot.terminal == terminal.word;
    };
    if (std::none_of(terminals.begin(), terminals.end(), is))
        place.refuse(Why::UnknownTerminal,
                     "a terminal of the " + std::string(bench::spec(*kind).word),
                     spot.terminal);
    return spot;
}

std::pair<Spot, Spot> RowReader::between(const JsonPlace& place) const {
    const JsonPlace pair = place.member("between");
    const std::vector<JsonPlace> items = pair.items(2);
    if (pair.ok() && items.size() != 2)
        pair.refuse(Why::OutOfRange, "2 items", std::to_string(items.size()));
    if (!pair.ok()) return {};
    return {spot(items[0]), spot(items[1])};
}

Positions RowReader::positions(const JsonPlace& owner, const char* member) const {
    if (!owner.has(member)) return {};
    const JsonPlace place = owner.member(member);
    if (!place.isObject()) {
        place.refuse(Why::WrongType, "an object", "something else");
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
    const auto kind = kindOf(place, ref);
    if (!kind) return;
    const std::string word = place.text();
    if (isFuse(*kind) && word == "open") return;
    const auto& words = bench::spec(*kind).positions;
    std::string expected = isFuse(*kind) ? "open" : "";
    for (const char* known : words) {
        if (word == known) return;
        expected += (expected.empty() ? "" : ", ") + std::string(known);
    }
    place.refuse(Why::NoSuchPosition, expected.empty() ? "no control" : expected, word);
}

} // namespace loom::lesson

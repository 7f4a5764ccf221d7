// SPDX-License-Identifier: MIT
#include "lesson/names_file.h"

#include "bench/catalogue.h"
#include "bench/limits.h"

#include <algorithm>
#include <cstring>
#include <nlohmann/json.hpp>

namespace loom::lesson {

using bench::JsonPlace;
using bench::numeral;
using bench::phrase;
using bench::Why;

namespace {

constexpr std::size_t kGreatestSentence_bytes = 400;
constexpr const char* kEnglish = "en";

// Words by the catalogue, in the order of the enumeration, which ends with `last`.
template <class Value> std::vector<const char*> wordsUpTo(Value last) {
    std::vector<const char*> words;
    for (int i = 0; i <= static_cast<int>(last); ++i)
        words.push_back(bench::word(static_cast<Value>(i)));
    return words;
}

std::string plainText(const JsonPlace& place) {
    const std::string text = place.text();
    if (!place.ok()) return text;
    if (text.empty() || text.size() > kGreatestSentence_bytes)
        place.refuse(Why::OutOfRange,
                     phrase("1-to-n-bytes", {{"n", numeral(kGreatestSentence_bytes)}}),
                     numeral(text.size()));
    const auto isControl = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; };
    if (std::any_of(text.begin(), text.end(), isControl))
        place.refuse(Why::OutOfRange, phrase("no-control-characters"), phrase("one"));
    return text;
}

} // namespace

void KnownMembers::operator()(const JsonPlace& place,
                              std::initializer_list<const char*> names) const {
    if (!place.isObject()) return;
    const nlohmann::json::json_pointer pointer(place.pointer());
    if (!document.contains(pointer)) return;
    for (const auto& [member, value] : document[pointer].items()) {
        const auto is = [&, &found = member](const char* name) { return found == name; };
        if (std::any_of(names.begin(), names.end(), is)) continue;
        place.refuse(Why::UnknownWord, bench::Phrase::List{{names.begin(), names.end()}}, member);
    }
}

bench::Phrase sentence(const JsonPlace& place, const KnownMembers& members) {
    if (!place.isObject()) return bench::Phrase::Text{{{kEnglish, plainText(place)}}, {}};
    bench::Phrase::Text text;
    const nlohmann::json::json_pointer pointer(place.pointer());
    if (!place.has(kEnglish)) place.member(kEnglish);
    if (place.ok())
        for (const auto& [language, value] : members.document[pointer].items())
            text.byLanguage[language] = plainText(place.member(language.c_str()));
    return text;
}

bench::PartKind partKind(const JsonPlace& place) {
    std::vector<const char*> words;
    for (const bench::PartKind kind : bench::allKinds())
        words.push_back(bench::spec(kind).word);
    return static_cast<bench::PartKind>(place.oneOf(words));
}

bench::EndKind endKind(const JsonPlace& place) {
    return static_cast<bench::EndKind>(place.oneOf(wordsUpTo(bench::EndKind::Piggyback)));
}

bench::Sleeve sleeve(const JsonPlace& place) {
    return static_cast<bench::Sleeve>(place.oneOf(wordsUpTo(bench::Sleeve::Brown)));
}

std::string idOf(const JsonPlace& place) {
    const std::string id = place.text();
    const bool plain = std::all_of(id.begin(), id.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
    if (place.ok() && (!plain || id.empty() || id.size() > 64))
        place.refuse(Why::OutOfRange, phrase("1-to-64-of-a-z-0-9-and"), id);
    return id;
}

bool yesOrNo(const JsonPlace& owner, const char* member, bool otherwise) {
    return owner.has(member) ? owner.member(member).truth() : otherwise;
}

std::string name(const JsonPlace& place) {
    std::string text = place.text();
    if (place.ok()) place.refuse(bench::whyNotName(place.pointer(), text));
    return text;
}

bench::Point point(const JsonPlace& place, double greatest_m) {
    const std::vector<JsonPlace> items = place.items(2);
    if (place.ok() && items.size() != 2)
        place.refuse(Why::OutOfRange, phrase("2-numbers"), numeral(items.size()));
    if (!place.ok()) return {};
    return {items[0].number(0.0, greatest_m), items[1].number(0.0, greatest_m)};
}

std::optional<bench::PartKind> KnownParts::kindOf(const JsonPlace& place,
                                                  const std::string& ref) const {
    if (!place.ok()) return std::nullopt;
    if (const bench::Part* laid = bench::findPart(start, ref)) return laid->kind;
    for (const bench::PartSlot& slot : start.kit.parts)
        if (slot.ref == ref) return slot.kind;
    place.refuse(Why::UnknownPart, phrase("a-part-of-the-start-or-its-kit"), ref);
    return std::nullopt;
}

std::string KnownParts::ref(const JsonPlace& place) const {
    const std::string ref = place.text();
    kindOf(place, ref);
    return ref;
}

// "K1 normally open": the reference, a space, the terminal's word.
plan::Spot KnownParts::spot(const JsonPlace& place) const {
    const std::string text = place.text();
    const std::size_t space = text.find(' ');
    if (place.ok() && space == std::string::npos)
        place.refuse(Why::UnknownTerminal, phrase("a-part-and-a-terminal-such-as-k1-coil-a"), text);
    if (!place.ok()) return {};
    plan::Spot spot{text.substr(0, space), text.substr(space + 1)};
    const auto kind = kindOf(place, spot.ref);
    if (!kind) return spot;
    const auto& terminals = bench::spec(*kind).terminals;
    const auto is = [&](const bench::TerminalSpec& terminal) {
        return spot.terminal == terminal.word;
    };
    if (std::none_of(terminals.begin(), terminals.end(), is))
        place.refuse(Why::UnknownTerminal,
                     phrase("a-terminal-of-the-name", {{"name", bench::spec(*kind).word}}),
                     spot.terminal);
    return spot;
}

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
#include "bench/checked_json.h"

#include "bench/limits.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace loom::bench {
namespace {

using nlohmann::json;

std::string escaped(const std::string& member) {
    std::string out;
    for (const char c : member) {
        if (c == '~')
            out += "~0";
        else if (c == '/')
            out += "~1";
        else
            out += c;
    }
    return out;
}

Phrase lineAndColumn(std::string_view text, std::size_t position) {
    const std::string_view before = text.substr(0, std::min(position, text.size()));
    const auto lines = std::count(before.begin(), before.end(), '\n');
    const std::size_t lineStart = before.rfind('\n');
    const std::size_t column =
        lineStart == std::string_view::npos ? before.size() : before.size() - lineStart - 1;
    return phrase(
        "line-column",
        {{"line", numeral(lines + 1)}, {"column", numeral(std::max<std::size_t>(column, 1))}});
}

// The token the parser stumbled on, short and printable.
Phrase printable(const std::string& token) {
    std::string out;
    for (const char c : token.substr(0, 24))
        out += c >= ' ' && c <= '~' ? c : '?';
    return out.empty() ? phrase("the-end") : out;
}

// Builds the document as the parser goes, in one pass, and stops it at what is not allowed. The
// parser calls the members by these names. Its own builder would neither say where it stopped nor
// how deep it is, and comes with a second parser in the page.
class Builder {
public:
    explicit Builder(std::string_view source) : text(source) {}

    json root;
    std::optional<Refusal> refusal;

    bool null() { return add(nullptr); }

    bool boolean(bool value) { return add(value); }

    bool number_integer(json::number_integer_t value) { return add(value); }

    bool number_unsigned(json::number_unsigned_t value) { return add(value); }

    bool number_float(json::number_float_t value, const json::string_t&) { return add(value); }

    bool string(json::string_t& value) { return add(std::move(value)); }

    bool binary(json::binary_t&) { return false; } // not in text

    bool start_object(std::size_t) { return enter(json::value_t::object); }

    bool start_array(std::size_t) { return enter(json::value_t::array); }

    bool end_object() { return leave(); }

    bool end_array() { return leave(); }

    bool key(json::string_t& name) {
        Level& level = open.back();
        level.member = std::move(name);
        if (level.container->find(level.member) == level.container->end()) return true;
        refusal = Refusal{Why::Duplicate, pointer(), phrase("each-member-once"), phrase("twice")};
        return false;
    }

    bool parse_error(std::size_t position,
                     const std::string& token,
                     const nlohmann::detail::exception& error) {
        constexpr int kNumberOverflow = 406;
        const bool overflow = error.id == kNumberOverflow;
        refusal = Refusal{overflow ? Why::NotANumber : Why::NotJson,
                          lineAndColumn(text, position),
                          overflow ? phrase("a-number-of-at-most-1e308") : phrase("json"),
                          printable(token)};
        return false;
    }

private:
    // An object or list that is not finished. It is the last item of the one before it, which does
    // not grow meanwhile, so the pointer stays good.
    struct Level {
        json* container;
        std::string member;
    };

    std::string_view text;
    std::vector<Level> open;

    bool add(json value) {
        put(std::move(value));
        return true;
    }

    json* put(json value) {
        if (open.empty()) {
            root = std::move(value);
            return &root;
        }
        Level& level = open.back();
        if (level.container->is_array()) {
            level.container->push_back(std::move(value));
            return &level.container->back();
        }
        return &((*level.container)[level.member] = std::move(value));
    }

    bool enter(json::value_t type) {
        if (open.size() >= kGreatestJsonDepth) {
            refusal = Refusal{Why::TooMany,
                              pointer(),
                              phrase("n-levels-at-most", {{"n", numeral(kGreatestJsonDepth)}}),
                              phrase("more")};
            return false;
        }
        open.push_back({put(json(type)), {}});
        return true;
    }

    bool leave() {
        open.pop_back();
        return true;
    }

    // Of the member or item being read; of a list that is open its last item is.
    std::string pointer() const {
        std::string out;
        for (const Level& level : open) {
            const bool reading = &level == &open.back();
            const std::size_t index = level.container->size() - (reading ? 0 : 1);
            out += "/" +
                   (level.container->is_object() ? escaped(level.member) : std::to_string(index));
        }
        return out;
    }
};

Phrase describe(const json& value) {
    if (value.is_object()) return phrase("an-object");
    if (value.is_array()) return phrase("a-list");
    return printable(value.dump(-1, ' ', true));
}

} // namespace

Outcome<json> parseJson(std::string_view text, std::size_t greatest_bytes) {
    if (text.size() > greatest_bytes)
        return Refusal{Why::TooMany,
                       phrase("file"),
                       phrase("n-bytes-at-most", {{"n", numeral(greatest_bytes)}}),
                       numeral(text.size())};
    Builder builder(text);
    if (json::sax_parse(text.begin(), text.end(), &builder)) return std::move(builder.root);
    if (builder.refusal) return *builder.refusal;
    return Refusal{Why::NotJson, lineAndColumn(text, 0), phrase("json"), phrase("something-else")};
}

JsonPlace::JsonPlace(const json& value, std::optional<Refusal>& first, std::string pointer)
    : JsonPlace(&value, &first, std::move(pointer)) {}

JsonPlace::JsonPlace(const json* value, std::optional<Refusal>* first, std::string pointer)
    : node(value), trouble(first), at(std::move(pointer)) {}

void JsonPlace::refuse(Why why, Phrase expected, Phrase found) const {
    if (ok()) *trouble = Refusal{why, at, std::move(expected), std::move(found)};
}

void JsonPlace::refuse(const std::optional<Refusal>& refusal) const {
    if (refusal) refuse(refusal->why, refusal->expected, refusal->found);
}

void JsonPlace::wrongType(const char* expected) const {
    if (node) refuse(Why::WrongType, phrase(expected), describe(*node));
}

bool JsonPlace::isObject() const {
    return node && node->is_object();
}

bool JsonPlace::has(const char* name) const {
    return isObject() && node->find(name) != node->end();
}

JsonPlace JsonPlace::member(const char* name) const {
    const std::string pointer = at + "/" + escaped(name);
    if (!isObject()) {
        wrongType("an-object");
        return {nullptr, trouble, pointer};
    }
    const auto found = node->find(name);
    if (found != node->end()) return {&*found, trouble, pointer};
    JsonPlace missing(nullptr, trouble, pointer);
    missing.refuse(Why::Missing, phrase("this-member"), phrase("none"));
    return missing;
}

std::vector<JsonPlace> JsonPlace::items(std::size_t greatest) const {
    std::vector<JsonPlace> places;
    if (!node || !node->is_array()) {
        wrongType("a-list");
        return places;
    }
    if (node->size() > greatest) {
        refuse(
            Why::TooMany, phrase("n-at-most", {{"n", numeral(greatest)}}), numeral(node->size()));
        return places;
    }
    for (std::size_t i = 0; i < node->size(); ++i)
        places.push_back({&(*node)[i], trouble, at + "/" + std::to_string(i)});
    return places;
}

std::string JsonPlace::text() const {
    if (node && node->is_string()) return node->get<std::string>();
    wrongType("a-text");
    return {};
}

std::size_t JsonPlace::oneOf(const char* const* words, std::size_t count) const {
    const std::string asked = text();
    for (std::size_t i = 0; i < count; ++i)
        if (asked == words[i]) return i;
    Phrase::List expected;
    expected.items.assign(words, words + count);
    refuse(Why::UnknownWord, count ? Phrase(expected) : phrase("nothing"), asked);
    return 0;
}

bool JsonPlace::truth() const {
    if (node && node->is_boolean()) return node->get<bool>();
    wrongType("true-or-false");
    return false;
}

double JsonPlace::number(double least, double most) const {
    if (!node || !node->is_number()) {
        wrongType("a-number");
        return least;
    }
    const double value = node->get<double>();
    refuse(whyNotWithin(at, value, least, most));
    return ok() ? value : least;
}

std::int64_t JsonPlace::whole(std::int64_t least, std::int64_t most) const {
    const double value = number(static_cast<double>(least), static_cast<double>(most));
    if (ok() && value != std::floor(value)) wrongType("a-whole-number");
    return ok() ? static_cast<std::int64_t>(value) : least;
}

} // namespace loom::bench

// SPDX-License-Identifier: MIT
#include "bench/checked_json.h"

#include "bench/limits.h"

#include <algorithm>
#include <cmath>
#include <set>

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

std::string lineAndColumn(std::string_view text, std::size_t position) {
    const std::string_view before = text.substr(0, std::min(position, text.size()));
    const auto lines = std::count(before.begin(), before.end(), '\n');
    const std::size_t lineStart = before.rfind('\n');
    const std::size_t column =
        lineStart == std::string_view::npos ? before.size() : before.size() - lineStart - 1;
    return "line " + std::to_string(lines + 1) + ", column " +
           std::to_string(std::max<std::size_t>(column, 1));
}

// The token the parser stumbled on, short and printable.
std::string printable(const std::string& token) {
    std::string out;
    for (const char c : token.substr(0, 24))
        out += c >= ' ' && c <= '~' ? c : '?';
    return out.empty() ? "the end" : out;
}

// Looks the text over before anything is built from it. The parser calls these by name.
class Inspector {
public:
    explicit Inspector(std::string_view inspected) : text(inspected) {}

    std::optional<Refusal> refusal;

    bool null() { return count(); }

    bool boolean(bool) { return count(); }

    bool number_integer(json::number_integer_t) { return count(); }

    bool number_unsigned(json::number_unsigned_t) { return count(); }

    bool number_float(json::number_float_t, const json::string_t&) { return count(); }

    bool string(json::string_t&) { return count(); }

    bool binary(json::binary_t&) { return count(); }

    bool start_object(std::size_t) { return enter(true); }

    bool start_array(std::size_t) { return enter(false); }

    bool end_object() { return leave(); }

    bool end_array() { return leave(); }

    bool key(json::string_t& name) {
        Level& level = levels.back();
        level.member = name;
        if (level.members.insert(name).second) return true;
        refusal = Refusal{Why::Duplicate, pointer(), "each member once", "twice"};
        return false;
    }

    bool parse_error(std::size_t position,
                     const std::string& token,
                     const nlohmann::detail::exception& error) {
        constexpr int numberOverflow = 406;
        const bool overflow = error.id == numberOverflow;
        refusal = Refusal{overflow ? Why::NotANumber : Why::NotJson,
                          lineAndColumn(text, position),
                          overflow ? "a number of at most 1e308" : "JSON",
                          printable(token)};
        return false;
    }

private:
    struct Level {
        bool object = false;
        std::size_t index = 0;
        std::string member;
        std::set<std::string> members;
    };

    std::string_view text;
    std::vector<Level> levels;

    bool count() {
        if (!levels.empty()) ++levels.back().index;
        return true;
    }

    bool enter(bool object) {
        if (levels.size() >= greatestJsonDepth) {
            refusal = Refusal{Why::TooMany,
                              pointer(),
                              std::to_string(greatestJsonDepth) + " levels at most",
                              "more"};
            return false;
        }
        levels.push_back({object, 0, {}, {}});
        return true;
    }

    bool leave() {
        levels.pop_back();
        return count();
    }

    std::string pointer() const {
        std::string out;
        for (const Level& level : levels)
            out += "/" + (level.object ? escaped(level.member) : std::to_string(level.index));
        return out;
    }
};

std::string describe(const json& value) {
    if (value.is_object()) return "an object";
    if (value.is_array()) return "a list";
    return printable(value.dump(-1, ' ', true));
}

} // namespace

Outcome<json> parseJson(std::string_view text, std::size_t greatest_bytes) {
    if (text.size() > greatest_bytes)
        return Refusal{Why::TooMany,
                       "file",
                       std::to_string(greatest_bytes) + " bytes at most",
                       std::to_string(text.size())};
    Inspector inspector(text);
    if (!json::sax_parse(text.begin(), text.end(), &inspector)) {
        if (inspector.refusal) return *inspector.refusal;
        return Refusal{Why::NotJson, "line 1, column 1", "JSON", "something else"};
    }
    return json::parse(text.begin(), text.end(), nullptr, false);
}

JsonPlace::JsonPlace(const json& value, std::optional<Refusal>& first, std::string pointer)
    : JsonPlace(&value, &first, std::move(pointer)) {}

JsonPlace::JsonPlace(const json* value, std::optional<Refusal>* first, std::string pointer)
    : node(value), trouble(first), at(std::move(pointer)) {}

void JsonPlace::refuse(Why why, std::string expected, std::string found) const {
    if (ok()) *trouble = Refusal{why, at, std::move(expected), std::move(found)};
}

void JsonPlace::refuse(const std::optional<Refusal>& refusal) const {
    if (refusal) refuse(refusal->why, refusal->expected, refusal->found);
}

void JsonPlace::wrongType(const char* expected) const {
    if (node) refuse(Why::WrongType, expected, describe(*node));
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
        wrongType("an object");
        return {nullptr, trouble, pointer};
    }
    const auto found = node->find(name);
    if (found != node->end()) return {&*found, trouble, pointer};
    JsonPlace missing(nullptr, trouble, pointer);
    missing.refuse(Why::Missing, "this member", "none");
    return missing;
}

std::vector<JsonPlace> JsonPlace::items(std::size_t greatest) const {
    std::vector<JsonPlace> places;
    if (!node || !node->is_array()) {
        wrongType("a list");
        return places;
    }
    if (node->size() > greatest) {
        refuse(Why::TooMany, std::to_string(greatest) + " at most", std::to_string(node->size()));
        return places;
    }
    for (std::size_t i = 0; i < node->size(); ++i)
        places.push_back({&(*node)[i], trouble, at + "/" + std::to_string(i)});
    return places;
}

std::string JsonPlace::text() const {
    if (node && node->is_string()) return node->get<std::string>();
    wrongType("a text");
    return {};
}

double JsonPlace::number(double least, double most) const {
    if (!node || !node->is_number()) {
        wrongType("a number");
        return least;
    }
    const double value = node->get<double>();
    refuse(whyNotWithin(at, value, least, most));
    return ok() ? value : least;
}

std::int64_t JsonPlace::whole(std::int64_t least, std::int64_t most) const {
    const double value = number(static_cast<double>(least), static_cast<double>(most));
    if (ok() && value != std::floor(value)) wrongType("a whole number");
    return ok() ? static_cast<std::int64_t>(value) : least;
}

} // namespace loom::bench

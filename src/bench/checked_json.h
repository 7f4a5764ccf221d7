// SPDX-License-Identifier: MIT
// Reading JSON that may be damaged or hostile, without exceptions: parseJson() refuses what is not
// JSON, JsonPlace walks what is and keeps the first thing that is wrong, with its place. After
// that every question gets a harmless default, so a reader is a plain list of questions.
#pragma once

#include "bench/refusal.h"

#include <cstddef>
#include <cstdint>
#include <iterator>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loom::bench {

inline constexpr std::size_t kGreatestJsonDepth = 16;

// TooMany for more bytes or deeper nesting than allowed, NotJson with line and column, NotANumber
// for a number too large for a double, Duplicate for a member that stands twice in an object.
Outcome<nlohmann::json> parseJson(std::string_view text, std::size_t greatest_bytes);

class JsonPlace {
public:
    // The root; `first` outlives all places and takes the first refusal.
    JsonPlace(const nlohmann::json& value, std::optional<Refusal>& first, std::string pointer = "");

    const std::string& pointer() const { return at; }

    // Nothing has been wrong so far, here or elsewhere.
    bool ok() const { return !*trouble; }

    bool has(const char* name) const; // an object with this member
    bool isObject() const;
    JsonPlace member(const char* name) const; // Missing, or WrongType when this is no object
    // The list's items; WrongType when it is none, TooMany when longer.
    std::vector<JsonPlace> items(std::size_t greatest) const;
    std::string text() const;
    // Index of the text in a list of words; UnknownWord and 0 when it is none of them.
    std::size_t oneOf(const char* const* words, std::size_t count) const;

    template <class Words> std::size_t oneOf(const Words& words) const {
        return oneOf(std::data(words), std::size(words));
    }

    bool truth() const;
    double number(double least, double most) const;
    std::int64_t whole(std::int64_t least, std::int64_t most) const;

    void refuse(Why why, Phrase expected, Phrase found) const;
    void refuse(const std::optional<Refusal>& refusal) const; // nothing: nothing is refused

private:
    JsonPlace(const nlohmann::json* value, std::optional<Refusal>* first, std::string pointer);
    void wrongType(const char* expected) const; // a key of phrases

    const nlohmann::json* node; // null once something is wrong
    std::optional<Refusal>* trouble;
    std::string at;
};

} // namespace loom::bench

// SPDX-License-Identifier: MIT
// A piece of a sentence as a value: a name, a number, a number with its unit, a key of
// assets/strings with its slots filled, or several of these. No text of any language is in it;
// src/words makes that. Start with phrase().
#pragma once

#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace loom::bench {

struct Slot;

struct Phrase {
    // As exactly as it takes, nine digits: a limit, a count, what a file says.
    struct Number {
        double value = 0.0;
    };

    // To read: three figures. Units: words/numbers.h.
    struct Amount {
        double value = 0.0;
        const char* unit = "";
    };

    // Of assets/strings, below "phrase/".
    struct Key {
        std::string key;
        std::vector<Slot> slots;
    };

    struct List {
        std::vector<Phrase> items;
    };

    // What a file says in one language or several, by their names; slots as with a key.
    struct Text {
        std::map<std::string, std::string> byLanguage;
        std::vector<Slot> slots;
    };

    // A name: of a part, a terminal, a cable, a member of a file; shown as it is. Empty: nothing.
    std::variant<std::string, Number, Amount, Key, List, Text> content;

    Phrase() = default;

    Phrase(std::string name) : content(std::move(name)) {}

    Phrase(const char* name) : content(std::string(name)) {}

    Phrase(Number number) : content(number) {}

    Phrase(Amount amount) : content(amount) {}

    Phrase(Key key) : content(std::move(key)) {}

    Phrase(List list) : content(std::move(list)) {}

    Phrase(Text text) : content(std::move(text)) {}

    bool empty() const {
        const auto* name = std::get_if<std::string>(&content);
        return name && name->empty();
    }
};

bool operator==(const Phrase& l, const Phrase& r);

inline bool operator!=(const Phrase& l, const Phrase& r) {
    return !(l == r);
}

// What stands for {name} in the text under a key.
struct Slot {
    std::string name;
    Phrase value;
};

// phrase("n-at-most", {{"n", numeral(20)}})
inline Phrase phrase(std::string key, std::vector<Slot> slots = {}) {
    return Phrase::Key{std::move(key), std::move(slots)};
}

template <class Value> Phrase numeral(Value value) {
    return Phrase::Number{static_cast<double>(value)};
}

// A word of the catalogue or of a file: "word/ferrule".
inline Phrase wordPhrase(const std::string& word) {
    return phrase("word/" + word);
}

} // namespace loom::bench

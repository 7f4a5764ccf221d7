// SPDX-License-Identifier: MIT
// The texts of assets/strings/<language>.json, looked up by key. Start with words(); setLanguage()
// chooses. Sentences from outcomes are made in sentences.h.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace loom::words {

// The language made from English by code, each word lengthened by two fifths and in brackets: what
// is not bracketed on a screen was not taken from assets/strings.
inline constexpr const char* kPseudo = "pseudo";

// Those of assets/strings, in order of their names; kPseudo is not among them.
std::vector<std::string> languages();
// One language a program: English until another is set. False, and nothing changes, for one that
// there is not.
bool setLanguage(std::string_view name);
const std::string& language();
// What a language calls itself: "English". Empty for one that there is not.
std::string languageTitle(std::string_view name);

// What stands for {name} in a text: {{"name", "K1"}}.
using Slots = std::vector<std::pair<std::string, std::string>>;

// The words under a key, its slots filled. With a slot "count" the plural form that the language has
// for it is taken: the words under "<key>/one" where they are there and it asks for them, else those
// under the key. An unknown key gives the key itself, so that it is seen.
std::string words(std::string_view key, const Slots& slots = {});
bool hasWords(std::string_view key);

// The same with a text instead of a key.
std::string filledText(const std::string& text, const Slots& slots);

// Takes other words, a flat JSON object of strings. False, and nothing changes, when the text is not
// one.
bool setStrings(std::string_view json);

// A text as the pseudo-language has it; slots stay as they are.
std::string lengthened(std::string_view text);

} // namespace loom::words

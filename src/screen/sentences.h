// SPDX-License-Identifier: MIT
// Sentences for people, made from kinds and numbers with the words of assets/strings. Nothing else
// in the project puts words together for the screen.
#pragma once

#include "attempt/attempt.h"
#include "bench/refusal.h"

#include <initializer_list>
#include <string>
#include <string_view>

namespace loom::screen {

// The words under a key of assets/strings/<language>.json, {0}, {1}, … filled in. An unknown key
// gives the key itself, so that it is seen.
std::string words(std::string_view key, std::initializer_list<std::string> fill = {});
// Takes other words, a flat JSON object of strings; until then it is the English built in. False,
// and nothing changes, when the text is not one.
bool setStrings(std::string_view json);
bool hasWords(std::string_view key);

std::string sentence(const bench::Refusal& refusal);
std::string sentence(const attempt::BenchEvent& event);

// A number with its unit at a readable precision: "25.1 V", "18.4 A", "75 mA", "43 °C", "0.9 W".
// Three figures at most; thousandths and thousands by their prefix where people use one; U+2212 before
// a negative one; "no reading" for what is not a number. "ohm" is written Ω.
std::string amount(double value, const char* unit);
// A plain number, as on a blade: "7.5", "30".
std::string plainNumber(double value);
// Of the simulation: "12.4 s", "3 min 05 s".
std::string timeOf(double seconds);
std::string celsius(double temp_K);
std::string squareMillimetres(double area_m2);

} // namespace loom::screen

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

std::string sentence(const bench::Refusal& refusal);
std::string sentence(const attempt::Happening& happening);

// A number with its unit at a readable precision: "25.1 V", "18.4 A", "75 mA", "43 °C", "0.9 W".
std::string amount(double value, const char* unit);

} // namespace loom::screen

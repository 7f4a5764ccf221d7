// SPDX-License-Identifier: MIT
// Numbers typed by people and printed for them, the same in every locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace loom::desk {

// The whole text as a finite decimal number, or nothing.
std::optional<double> numberFrom(std::string_view text);

// Six significant digits, as short as they go; never "-0", and 0 for less than 1e-12: rounding in
// the solver, not something to read.
std::string inDigits(double value);

// Three significant digits and a unit: "38.1 A", "0.2 s", "945 A".
std::string amount(double value, const char* unit);

} // namespace loom::desk

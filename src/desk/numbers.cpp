// SPDX-License-Identifier: MIT
#include "desk/numbers.h"

#include <charconv>
#include <cmath>
#include <cstdio>

namespace loom::desk {

namespace {

std::string printed(const char* format, double value) {
    char text[64];
    std::snprintf(text, sizeof text, format, value == 0.0 ? 0.0 : value);
    return text;
}

} // namespace

std::optional<double> numberFrom(std::string_view text) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = error == std::errc() && end == text.data() + text.size();
    return whole && std::isfinite(value) ? std::optional<double>(value) : std::nullopt;
}

std::string inDigits(double value) {
    return printed("%.6g", std::fabs(value) < 1e-12 ? 0.0 : value);
}

// Above 1000 "%.3g" would go over to powers of ten.
std::string amount(double value, const char* unit) {
    return printed(std::fabs(value) < 999.5 ? "%.3g" : "%.0f", value) + " " + unit;
}

} // namespace loom::desk

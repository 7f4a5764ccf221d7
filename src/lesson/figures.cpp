// SPDX-License-Identifier: MIT
#include "lesson/figures.h"

#include <cmath>
#include <cstdio>

namespace loom::lesson {
namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double zeroCelsius_K = 273.15;

std::string rounded(double value, int decimals) {
    if (!std::isfinite(value)) return "?";
    char digits[400]; // the greatest double has 309 digits
    std::snprintf(digits, sizeof digits, "%.*f", decimals, std::fabs(value));
    bool zero = true;
    for (const char* at = digits; *at; ++at)
        zero = zero && (*at == '0' || *at == '.');
    if (zero) return "0";
    return (value < 0.0 ? "\u2212" : "") + std::string(digits);
}

// Thousandths below a tenth; 2 decimals below 10, 1 below 100, none above.
std::string withUnit(double value, const std::string& unit) {
    const double size = std::fabs(value);
    if (size < 0.0005) return "0 " + unit;
    if (size < 0.0995) return rounded(value * 1000.0, size < 0.00995 ? 1 : 0) + " m" + unit;
    return rounded(value, size < 9.995 ? 2 : size < 99.95 ? 1 : 0) + " " + unit;
}

} // namespace

std::string amperes(double current_A) {
    return withUnit(current_A, "A");
}

std::string celsius(double temp_K) {
    return rounded(temp_K - zeroCelsius_K, 0) + " \u00b0C";
}

std::string seconds(double time_s) {
    if (time_s < 0.0995) return rounded(time_s * 1000.0, 0) + " ms";
    return rounded(time_s, 1) + " s";
}

std::string figure(double value, Quantity quantity) {
    switch (quantity) {
    case Quantity::Voltage_V:
        return withUnit(value, "V");
    case Quantity::Current_A:
        return withUnit(value, "A");
    case Quantity::Power_W:
        return withUnit(value, "W");
    case Quantity::Speed_rad_s:
        return rounded(value * 30.0 / pi, 0) + " rev/min";
    case Quantity::PulledIn:
        return value > 0.5 ? "1" : "0";
    case Quantity::Brightness:
        return rounded(value * 100.0, 0) + " %";
    case Quantity::CableTemp_K:
        return celsius(value);
    }
    return "?";
}

} // namespace loom::lesson

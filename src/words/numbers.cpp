// SPDX-License-Identifier: MIT
#include "words/numbers.h"

#include "words/strings.h"

#include <cmath>
#include <cstdio>
#include <cstring>

namespace loom::words {
namespace {

constexpr double kZeroCelsius_K = 273.15, kTurn_rad = 2.0 * 3.14159265358979323846;

// As the language writes it.
std::string marked(std::string digits) {
    const std::size_t point = digits.find('.');
    return point == std::string::npos ? digits
                                      : digits.replace(point, 1, words("language/decimal"));
}

// At most this many places, trailing zeros gone, a proper minus sign.
std::string number(double value, int places) {
    char text[32];
    std::snprintf(text, sizeof text, "%.*f", places, std::fabs(value));
    std::string out = text;
    if (out.find('.') != std::string::npos) {
        while (out.back() == '0')
            out.pop_back();
        if (out.back() == '.') out.pop_back();
    }
    return value < 0.0 && out != "0" ? "−" + marked(out) : marked(out);
}

// Places after the point that give three figures, counting from what rounding makes of it.
int placesFor(double size) {
    if (size >= 99.95) return 0;
    return size >= 9.995 ? 1 : 2;
}

// Whole hundreds and tens beyond three figures: 1234 is 1230.
double threeFigures(double value) {
    if (std::fabs(value) < 999.5) return value;
    double step = 1.0;
    while (std::fabs(value) / step >= 999.5)
        step *= 10.0;
    return std::round(value / step) * step;
}

struct Habit {
    const char* unit;
    bool thousandths, thousands; // whether people say milli and kilo of it
    bool whole;                  // no places at all
};

constexpr Habit kHabits[] = {
    {"V", true, false, false},
    {"A", true, false, false},
    {"W", true, true, false},
    {"Ω", true, true, false},
    {"s", true, false, false},
    {"°C", false, false, true},
    {"%", false, false, true},
};

Habit habitOf(const char* unit) {
    if (std::strcmp(unit, "ohm") == 0) return {"Ω", true, true, false};
    for (const Habit& habit : kHabits)
        if (std::strcmp(habit.unit, unit) == 0) return habit;
    return {unit, false, false, false};
}

} // namespace

std::string amount(double value, const char* unit) {
    if (!std::isfinite(value)) return words("amount/none");
    if (std::strcmp(unit, "K") == 0) return celsius(value);
    if (std::strcmp(unit, "share") == 0) return amount(100.0 * value, "%");
    if (std::strcmp(unit, "turns") == 0)
        return amount(60.0 / kTurn_rad * value, words("unit/rpm").c_str());
    const Habit habit = habitOf(unit);
    const double size = std::fabs(value);
    if (habit.whole) return number(value, 0) + " " + habit.unit;
    if (habit.thousands && size >= 999.5)
        return number(value / 1000.0, placesFor(size / 1000.0)) + " k" + habit.unit;
    if (!habit.thousandths || size >= 0.09995)
        return number(threeFigures(value), placesFor(size)) + " " + habit.unit;
    // Below half of the last place shown there is nothing to speak of.
    if (size < 0.05e-3) return std::string("0 ") + habit.unit;
    return number(value * 1000.0, 1) + " m" + habit.unit;
}

std::string numeral(double value) {
    if (!std::isfinite(value)) return words("amount/not-a-number");
    char text[32];
    std::snprintf(text, sizeof text, "%.9g", value);
    return marked(text);
}

std::string plainNumber(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.4g", value);
    return marked(text);
}

std::string timeOf(double seconds) {
    char text[32];
    if (!(seconds >= 0.0 && seconds < 1e7)) return words("amount/none");
    const long tenths = std::lround(seconds * 10.0);
    if (tenths < 1000) {
        std::snprintf(text, sizeof text, "%ld.%ld", tenths / 10, tenths % 10);
        return words("time/seconds", {{"seconds", marked(text)}});
    }
    const long whole = std::lround(seconds);
    std::snprintf(text, sizeof text, "%02ld", whole % 60);
    return words("time/minutes", {{"minutes", std::to_string(whole / 60)}, {"seconds", text}});
}

std::string celsius(double temp_K) {
    return amount(temp_K - kZeroCelsius_K, "°C");
}

std::string squareMillimetres(double area_m2) {
    return amount(area_m2 * 1e6, "mm²");
}

} // namespace loom::words

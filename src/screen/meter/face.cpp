// SPDX-License-Identifier: MIT
#include "screen/meter/face.h"

#include "screen/sentences.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>

namespace loom::screen {

namespace {

using bench::MeterRange;

struct Scale {
    const char* unit;
    double size; // of one
};

// People read thousands of ohms as kilohms; the other ranges stay in their unit.
Scale scaleOf(MeterRange range, double value) {
    switch (range) {
    case MeterRange::Ohms:
    case MeterRange::Tone:
        if (std::fabs(value) >= 0.9995e6) return {"MΩ", 1e6};
        if (std::fabs(value) >= 999.5) return {"kΩ", 1e3};
        return {"Ω", 1.0};
    case MeterRange::Amperes:
        return {"A", 1.0};
    default:
        return {"V", 1.0};
    }
}

int placesOf(double digit) {
    int places = 0;
    for (; digit < 0.999 && digit > 0.0 && places < 4; digit *= 10.0)
        ++places;
    return places;
}

std::string fixed(double value, int places) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*f", places, std::fabs(value));
    const bool zero = std::string(text).find_first_of("123456789") == std::string::npos;
    return value < 0.0 && !zero ? std::string("-") + text : text;
}

// Two figures of an uncertainty are as many as mean anything.
std::string give(const Measured& reading, const Scale& scale) {
    const double size = reading.uncertainty / scale.size;
    const int places = std::min(placesOf(reading.digit / scale.size), size >= 10.0 ? 1 : 3);
    return fixed(size, places) + " " + scale.unit;
}

} // namespace

std::string rangeSymbol(MeterRange range) {
    switch (range) {
    case MeterRange::Volts:
        return words("meter/volts");
    case MeterRange::Ohms:
        return words("meter/ohms");
    case MeterRange::Tone:
        return words("meter/tone");
    case MeterRange::Amperes:
        return words("meter/amperes");
    case MeterRange::Off:
        break;
    }
    return words("meter/off");
}

MeterFace faceOf(const Measured& reading, double shown) {
    MeterFace face;
    const Scale scale = scaleOf(reading.range, reading.value);
    switch (reading.kind) {
    case Measured::Kind::Off:
        return face;
    case Measured::Kind::Value:
        face.digits = fixed(shown / scale.size, placesOf(reading.digit / scale.size));
        face.unit = scale.unit;
        face.line = words("meter/give", {{"tolerance", give(reading, scale)}});
        return face;
    case Measured::Kind::Over:
        face.word = words("meter/over");
        face.unit = scale.unit;
        face.line = words(reading.range == MeterRange::Ohms || reading.range == MeterRange::Tone
                              ? "meter/no-path"
                              : "meter/too-much");
        return face;
    case Measured::Kind::Live:
        face.word = words("meter/live");
        face.line = words("meter/switch-off");
        return face;
    case Measured::Kind::FuseOpen:
        face.word = words("meter/fuse-open");
        return face;
    }
    return face;
}

std::string spokenReading(const Measured& reading) {
    const Scale scale = scaleOf(reading.range, reading.value);
    switch (reading.kind) {
    case Measured::Kind::Off:
        return words("meter/said-off");
    case Measured::Kind::Over:
        return words(reading.range == MeterRange::Ohms || reading.range == MeterRange::Tone
                         ? "meter/said-no-path"
                         : "meter/said-over");
    case Measured::Kind::Live:
        return words("meter/said-live");
    case Measured::Kind::FuseOpen:
        return words("meter/said-fuse-open");
    case Measured::Kind::Value:
        break;
    }
    std::string number = fixed(reading.value / scale.size, placesOf(reading.digit / scale.size));
    if (number[0] == '-') number = "−" + number.substr(1);
    return words(reading.sounds ? "meter/said-tone" : "meter/said",
                 {{"reading", number + " " + scale.unit}, {"tolerance", give(reading, scale)}});
}

double settled(double from, double to, double time_s, double digit) {
    constexpr double kLag_s = 0.09; // 0.4 s are four and a half of it: 1 % left
    const double left = (from - to) * std::exp(-std::max(0.0, time_s) / kLag_s);
    return std::fabs(left) < 0.5 * digit ? to : to + left;
}

double unrest(const Measured& reading, double clock_s) {
    if (reading.kind != Measured::Kind::Value || reading.uncertainty < reading.digit) return 0.0;
    constexpr double kReadings_per_s = 3.0; // common practice, no source
    auto mix = static_cast<std::uint64_t>(clock_s * kReadings_per_s) * 0x9e3779b97f4a7c15ull;
    mix ^= mix >> 29;
    return static_cast<double>(static_cast<int>((mix >> 8) % 3u) - 1) * reading.digit;
}

} // namespace loom::screen

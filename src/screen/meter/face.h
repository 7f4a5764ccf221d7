// SPDX-License-Identifier: MIT
// What the meter's display says, from what it measures: digits, unit, a word, a sentence for the
// screen reader. Nothing is drawn here.
#pragma once

#include "attempt/attempt.h"

#include <string>

namespace loom::screen {

struct Measured {
    enum class Kind {
        Off, // or hanging on the wall
        Value,
        Over,    // beyond its greatest range; for resistance also: no path
        Live,    // resistance asked on a live circuit: no number to be had
        FuseOpen // on the ampere range
    } kind = Kind::Off;
    bench::MeterRange range = bench::MeterRange::Off;
    double value = 0.0;       // V, ohm or A
    double uncertainty = 0.0; // give or take, same unit
    double digit = 0.0;       // what the last digit counts
    bool sounds = false;      // continuity
};

// What the meter measures now.
Measured measured(const attempt::Attempt& attempt);
// How many measurements the record tells of.
std::size_t measurements(const attempt::Record& record);

struct MeterFace {
    std::string digits; // "24.87"; empty: none
    std::string unit;   // "V", "kΩ"
    std::string word;   // in place of the digits: "over"
    std::string line;   // under them: "± 0.14 V", "live: switch off"
};

// shown: the number the display has come to, which may still be on its way to the value.
MeterFace faceOf(const Measured& reading, double shown);
// "Meter: 24.87 V, give or take 0.14 V."
std::string spokenReading(const Measured& reading);

// How far the display has come after time_s: most of the way in a tenth, all of it in 0.4 s.
double settled(double from, double to, double time_s, double digit);
// The unrest of the last digit at this moment: -1, 0 or 1 digits, never beyond the uncertainty.
double unrest(const Measured& reading, double clock_s);

std::string rangeSymbol(bench::MeterRange range); // "V", "Ω", "tone", "A", "off"

} // namespace loom::screen

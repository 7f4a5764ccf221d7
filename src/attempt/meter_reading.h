// SPDX-License-Identifier: MIT
// What the hand meter shows, and how many measurements an attempt took. Start with meterReading().
// The figures are at rest: how a display settles is up to the screen.
#pragma once

#include "attempt/attempt.h"

namespace loom::attempt {

enum class MeterUnit { Volt, Ohm, Ampere };

struct MeterReading {
    bool on = false;    // off its hook with a range set; all else is of no meaning otherwise
    double value = 0.0; // rounded to the last digit; 0 when beyond
    MeterUnit unit = MeterUnit::Volt;
    double digit = 0.0;       // one step of the last digit
    double uncertainty = 0.0; // plus or minus
    bool beyond = false;      // over the greatest range; ohms and tone: open loop
    bool tone = false;        // it sounds: less than 30 ohm
    bool fuseOpen = false;    // ampere range: its fuse has melted, nothing is read
    bool live = false;        // ohms and tone: over 1 V is on it from outside, nothing is read
};

// A display of 4000 counts that chooses its range itself: 4, 40 and 400 V; 400 ohm to 40 Mohm (tone:
// 400 ohm); 4 and 40 A, the fuse permitting. Uncertain by 0.5 % and 2 digits. Common practice, no source.
MeterReading meterReading(const Attempt& attempt);

inline constexpr double kToneBelow_ohm = 30.0; // common practice, no source
inline constexpr double kMeterLive_V = 1.0;

// How many measurements were taken: a range with both probes at something counts each time it is set
// up and held for at least 0.3 s. Probes that an undo took off are thought to be still there.
int measurementsOf(const Record& record);

inline constexpr std::int64_t kHeldFor_slices = 30;

// A probe or the range was set less than that ago: time has to run on, though nothing is to be seen,
// for the measurement to count.
bool isMeasuring(const Attempt& attempt);

} // namespace loom::attempt

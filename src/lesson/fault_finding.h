// SPDX-License-Identifier: MIT
// How a hidden fault was looked for, from the record: faultFinding().
#pragma once

#include "attempt/command.h"
#include "lesson/exercise.h"

namespace loom::lesson {

struct FaultFinding {
    bool found = false;    // the fault was named
    int measurements = 0;  // until it was, or so far
    int namings = 0;       // until it was, the right one too
    std::string lastNamed; // "P-21", "S1"
};

// What a measurement is: attempt/meter_reading.h.
FaultFinding faultFinding(const Exercise& exercise, const attempt::Record& record);

} // namespace loom::lesson

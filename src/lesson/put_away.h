// SPDX-License-Identifier: MIT
// An exercise that asks for the batteries to be out in the end is judged as if they were still in:
// start with beforePuttingAway().
#pragma once

#include "attempt/command.h"

#include <optional>

namespace loom::lesson {

struct BeforePuttingAway {
    bench::Bench bench;     // as it is now, with batteries and their cables as they were when it was powered up
    attempt::Record record; // up to when the first of them came off
};

// Nothing while no end has come off a battery after an isolator was on, or one has come back on.
std::optional<BeforePuttingAway> beforePuttingAway(const attempt::Record& record);

// The same bench, or the one that the record ends with.
bench::Bench judgedBench(const attempt::Record& record);

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// An exercise that asks for the batteries to be out in the end is judged as if they were still in:
// start with beforePuttingAway().
#pragma once

#include "attempt/command.h"

#include <optional>

namespace loom::lesson {

struct BeforePuttingAway {
    bench::Bench bench;     // as it is now, with batteries and their cables as they were at the run
    attempt::Record record; // up to when the first of them came off
};

// Nothing while the batteries have not come off after a run, or building up has begun again.
std::optional<BeforePuttingAway> beforePuttingAway(const attempt::Record& record);

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// The order in which the cables were joined, read from the record with undone steps left out.
#pragma once

#include "attempt/command.h"
#include "lesson/exercise.h"

namespace loom::lesson {

struct Kept {
    bool kept = false;
    std::string found; // the label of the cable that came at the wrong moment; empty when none did
};

// DeadWhileWorking: see live_work.h. Common practice, no source.
Kept keeps(const attempt::Record& record, const Order& order);

} // namespace loom::lesson

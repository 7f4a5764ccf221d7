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

// DeadWhileWorking: the last time that an end was put on or taken off anything but a battery, neither
// it nor the cable's other end was on a live pole: one that is not the common return's, while some
// chain of batteries had both its poles joined to something besides batteries. Common practice, no
// source.
Kept keeps(const attempt::Record& record, const Order& order);

} // namespace loom::lesson

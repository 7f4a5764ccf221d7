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

Kept keeps(const attempt::Record& record, Order::Rule rule);

} // namespace loom::lesson

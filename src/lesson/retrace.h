// SPDX-License-Identifier: MIT
// Goes through a record as the attempt did, without its circuit: the bench before and after each
// entry. Start with retrace().
#pragma once

#include "attempt/command.h"

#include <functional>

namespace loom::lesson {

struct Turn {
    enum class Move {
        Nothing, // the bench did not change, or not by a step that can be undone
        Step,
        Undone, // the last step that stands
        Redone
    } move = Move::Nothing;
    const attempt::Entry& entry;
    const bench::Bench& before;
    const bench::Bench& after;
};

// Entries that cannot be done are passed over as if they had changed nothing.
void retrace(const attempt::Record& record, const std::function<void(const Turn&)>& each);

} // namespace loom::lesson

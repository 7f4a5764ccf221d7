// SPDX-License-Identifier: MIT
// Which lasting mark an event of the circuit leaves on the bench: a melted fuse stays open.
#pragma once

#include "bench/edit.h"
#include "circuit/event.h"

#include <optional>

namespace loom::attempt {

inline bool isWear(const bench::Edit& edit) {
    return bench::rowOf(edit).by == bench::By::Circuit;
}

// The edit that takes the event's mark into the bench; nothing when it leaves none, or less than
// is already there (a charred sleeve does not soften again).
std::optional<bench::Edit> wearFrom(const circuit::Event& event, const bench::Bench& bench);

} // namespace loom::attempt

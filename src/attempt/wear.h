// SPDX-License-Identifier: MIT
// Which lasting mark an event of the circuit leaves on the bench: a melted fuse stays open.
#pragma once

#include "bench/edit.h"
#include "circuit/event.h"

#include <optional>

namespace loom::attempt {

// What only the circuit does: left out of a replay, never asked for.
bool isWear(const bench::Edit& edit);
// Taking, setting and probing with the hand meter.
bool isOfMeter(const bench::Edit& edit);

// The edit that takes the event's mark into the bench; nothing when it leaves none, or less than
// is already there (a charred sleeve does not soften again).
std::optional<bench::Edit> wearFrom(const circuit::Event& event, const bench::Bench& bench);

} // namespace loom::attempt

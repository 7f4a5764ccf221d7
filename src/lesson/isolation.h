// SPDX-License-Identifier: MIT
// What stays joined to the batteries when the isolator is off. Start with stillLive().
#pragma once

#include "bench/bench.h"
#include "bench/phrase.h"
#include "lesson/exercise.h"

#include <optional>

namespace loom::lesson {

// The first place that may be live with every isolator off, whatever the other controls, relays and
// fuses do, and that is not one of those that come before the isolator; nothing when there is none.
// Without an isolator or a battery on the bench, nothing is.
std::optional<bench::Phrase> stillLive(const bench::Bench& bench, const Isolated& wanted);

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// Whether a record is an attempt at this exercise, as it was made: whyNotGenuine().
#pragma once

#include "attempt/command.h"
#include "bench/refusal.h"
#include "lesson/exercise.h"

#include <optional>

namespace loom::lesson {

// Why::Altered with the place as a JSON pointer when the record does not agree with its chain of hashes,
// began with another bench than its seed gives, or belongs to another exercise or another version
// of it. That times do not run backwards and that each command could be done then and there is seen
// by attempt::replay(). A record of an earlier version, without a chain, is not refused for that.
std::optional<bench::Refusal> whyNotGenuine(const Exercise& exercise, const attempt::Record& record);

} // namespace loom::lesson

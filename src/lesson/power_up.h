// SPDX-License-Identifier: MIT
// Moments of an attempt, by its record alone: how the bench stood when it was powered up, and whether
// what the job asks to be shown was done.
#pragma once

#include "attempt/command.h"
#include "lesson/exercise.h"

#include <optional>
#include <vector>

namespace loom::lesson {

// The bench right after an isolator was last turned on; nothing when none ever was.
std::optional<bench::Bench> atPowerUp(const attempt::Record& record);

// The benches at which the controls began to stand as asked, and stood so for the asked times; each
// with the parts as they were then. At most kMostShowings, the latest first.
std::vector<bench::Bench> showings(const attempt::Record& record, const Done& wanted);

inline constexpr std::size_t kMostShowings = 8;

} // namespace loom::lesson

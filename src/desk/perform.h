// SPDX-License-Identifier: MIT
// An attempt at an exercise made by a script instead of a learner: perform(). The worked solution of an
// exercise is such a script.
#pragma once

#include "attempt/attempt.h"
#include "desk/said.h"
#include "desk/script.h"
#include "lesson/exercise.h"

#include <functional>
#include <vector>

namespace loom::desk {

// The exercise's worked solution; refused when it has none.
bench::Outcome<std::vector<ScriptLine>> solutionOf(const lesson::Exercise& exercise);

// What the lines ask for, from the start with this seed, and one second more. A line that cannot be
// read or that the bench refuses ends it, its place in the refusal; with `passOver` it is left out.
// `before` sees the attempt before each command.
using Watch = std::function<void(const attempt::Attempt&, const attempt::Command&)>;
bench::Outcome<attempt::Attempt> perform(const lesson::Exercise& exercise,
                                         const std::vector<ScriptLine>& lines,
                                         std::uint64_t seed = 0,
                                         bool passOver = false,
                                         const Watch& before = {});

// `loomwright record EXERCISE [SCRIPT] [--seed N]`: prints the attempt.
Said recordAttempt(const std::vector<std::string>& arguments);

} // namespace loom::desk

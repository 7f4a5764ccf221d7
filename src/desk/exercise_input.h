// SPDX-License-Identifier: MIT
// An exercise from a file that the command was given: readExercise().
#pragma once

#include "bench/refusal.h"
#include "lesson/exercise.h"

#include <string>

namespace loom::desk {

// The refusal's place begins with the path.
bench::Outcome<lesson::Exercise> readExercise(const std::string& path);

} // namespace loom::desk

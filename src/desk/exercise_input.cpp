// SPDX-License-Identifier: MIT
#include "desk/exercise_input.h"

#include "desk/said.h"
#include "desk/text_file.h"

namespace loom::desk {

namespace {

constexpr std::size_t kGreatestExercise_bytes = 4u << 20;

} // namespace

bench::Outcome<lesson::Exercise> readExercise(const std::string& path) {
    const auto text = readTextFile(path, kGreatestExercise_bytes);
    if (!text) return text.refusal();
    auto exercise = lesson::exerciseFromJson(text.value());
    if (exercise) return exercise;
    return inFile(path, exercise.refusal());
}

} // namespace loom::desk

// SPDX-License-Identifier: MIT
// The exercises built into the program, in the order of lessons/course.json.
#pragma once

#include "lesson/exercise.h"

namespace loom::lesson {

// The names of a course file's exercises, in order; each is a file beside it.
bench::Outcome<std::vector<std::string>> courseFromJson(std::string_view text);

// A refusal's place starts with the file: "lessons/02-….json /checks/0/id". Ids are unique.
bench::Outcome<std::vector<Exercise>> builtInCourse();

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// The whole screen with an exercise that has Pippin's plan: see stage.h.
#pragma once

#include "assets/embedded.h"
#include "bench/file.h"
#include "lessons/paper_pippin.h"
#include "screen/stage.h"

#include <string_view>

namespace loom::test {

// The bench that comes with the program: all of Pippin, laid and wired.
inline bench::Bench pippinBench() {
    const Embedded* file = findEmbedded("assets/benches/pippin.loom.json");
    const auto read = bench::fromJson({reinterpret_cast<const char*>(file->bytes), file->size});
    return read ? read.value() : bench::Bench{};
}

inline lesson::Exercise pippinExercise() {
    lesson::Exercise exercise;
    exercise.id = "pippin-test";
    exercise.title = "Pippin, the whole loom";
    exercise.job = {"Wire all of Pippin from the plan."};
    exercise.start = pippinBench();
    exercise.plan = pippinPlan();
    exercise.hash = "0000000000000000";
    return exercise;
}

} // namespace loom::test

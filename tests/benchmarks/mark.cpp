// SPDX-License-Identifier: MIT
// How many attempts at the whole of Pippin are marked in a second on one core: replayed with the
// circuit, and judged; with and without the sweep of faults.
#include "attempt/record_file.h"
#include "desk/exercise_input.h"
#include "desk/perform.h"
#include "lesson/verdict.h"

#include <algorithm>
#include <cstdio>
#include <ctime>

namespace {

using namespace loom;

double spent_s() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

// The best of three times twenty; each by itself, or as a batch that is wired alike.
double rate(const lesson::Exercise& exercise, const attempt::Record& record, bool batch) {
    double best = 0.0;
    for (int trial = 0; trial < 3; ++trial) {
        lesson::SeenBefore before;
        const double start_s = spent_s();
        for (int k = 0; k < 20; ++k) {
            const auto attempt = attempt::replay(record);
            if (!attempt || !lesson::judge(exercise, attempt.value(), batch ? &before : nullptr).solved())
                return 0.0;
        }
        best = std::max(best, 20.0 / (spent_s() - start_s));
    }
    return best;
}

bool isSweep(const lesson::Row& row) {
    return std::holds_alternative<lesson::Protected>(row.look);
}

} // namespace

int main() {
    const auto exercise = desk::readExercise("lessons/04-pippin.json");
    if (!exercise) return 1;
    const auto solution = desk::solutionOf(exercise.value());
    if (!solution) return 1;
    const auto attempt = desk::perform(exercise.value(), solution.value());
    if (!attempt) return 1;
    const attempt::Record record = attempt.value().record();
    lesson::Exercise unswept = exercise.value();
    for (lesson::Check& check : unswept.checks)
        check.rows.erase(std::remove_if(check.rows.begin(), check.rows.end(), isSweep),
                         check.rows.end());
    std::printf("[{\"name\": \"mark_rate\", \"value\": %.4g, \"unit\": \"1/s\", \"against\": 100},\n"
                "{\"name\": \"mark_rate_unswept\", \"value\": %.4g, \"unit\": \"1/s\", \"against\": 100},\n"
                "{\"name\": \"mark_rate_batch\", \"value\": %.4g, \"unit\": \"1/s\", \"against\": 100}]\n",
                rate(exercise.value(), record, false),
                rate(unswept, record, false),
                rate(exercise.value(), record, true));
    return 0;
}

// SPDX-License-Identifier: MIT
// Judges an attempt against its exercise, by what the wiring does.
#pragma once

#include "attempt/attempt.h"
#include "lesson/exercise.h"

#include <string>
#include <vector>

namespace loom::lesson {

struct Judged {
    std::string check; // id
    bool passed = false;
    int marks = 0;     // given
    bench::Phrase say; // of the first row that failed, with what it saw; empty when passed
};

struct Verdict {
    std::vector<Judged> checks; // in the exercise's order
    int marks = 0, outOf = 0;

    bool solved() const { return marks == outOf; }
};

// An exercise that asks for the batteries to be put away is judged as if they were still in.
// Looks at copies: the attempt itself is not disturbed. Time-bounded: a check simulates at most a
// few tens of seconds of its own.
Verdict judge(const Exercise& exercise, const attempt::Attempt& attempt);

} // namespace loom::lesson

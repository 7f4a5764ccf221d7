// SPDX-License-Identifier: MIT
// Judges an attempt against its exercise, by what the wiring does.
#pragma once

#include "attempt/attempt.h"
#include "lesson/exercise.h"

#include <map>
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

// What rows saw on benches before, for judging many attempts at one exercise, or one again and again:
// what depends on the wiring alone is not computed anew for benches that are wired alike. The rows are
// those of the exercise, which outlives it.
struct SeenBefore {
    struct Sight {
        bool asWanted = false;
        bench::Phrase found;
    };

    std::map<std::string, std::map<const Row*, Sight>> byWiring; // see wiring_key.h
};

// The wirings that are remembered at most; the next one begins anew.
inline constexpr std::size_t kMostWirings = 200;

// An exercise that asks for the batteries to be put away is judged as if they were still in.
// Looks at copies: the attempt itself is not disturbed. Time-bounded: a check simulates at most a
// few tens of seconds of its own.
Verdict judge(const Exercise& exercise,
              const attempt::Attempt& attempt,
              SeenBefore* before = nullptr);

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// A sitting at the bench: which exercise is open, the attempt at it, what the last check said,
// which hints were taken. The host makes one, hands the screen a const view and gives back the
// screen's intents. No window, no clock, no storage inside.
#pragma once

#include "attempt/attempt.h"
#include "attempt/trace.h"
#include "lesson/exercise.h"
#include "lesson/verdict.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace loom::lesson {

class Session {
public:
    // Course: the exercises in order. freeBench: what an empty exercise id opens.
    Session(std::vector<Exercise> course, bench::Bench freeBench);

    // Opens an exercise from its beginning; "" is the free bench. False for an unknown id.
    bool begin(const std::string& exercise);
    // Takes up an attempt that was saved; refuses one of an unknown exercise.
    std::optional<bench::Refusal> takeUp(const attempt::Record& record);
    // Opens a bench file on the free bench.
    void openBench(const bench::Bench& bench);

    // AskCheck judges, AskHint uncovers a hint; everything else goes to the attempt.
    std::optional<bench::Refusal> ask(const attempt::Command& command);
    void advance(std::int64_t slices);

    const std::vector<Exercise>& course() const { return exercises; }

    const Exercise* exercise() const; // nullptr: the free bench

    const attempt::Attempt& attempt() const { return *sitting; }

    // Quantities over time, sampled by advance(); empty again when another attempt is opened.
    const attempt::Trace& trace() const { return traced; }

    void watch(const attempt::Quantity& quantity); // from now on
    void unwatch(const attempt::Quantity& quantity) { traced.unwatch(quantity); }

    // Of the last check; none before it. Stale once the bench has changed since.
    const std::optional<Verdict>& verdict() const { return judged; }

    bool verdictIsStale() const;

    const std::set<std::string>& hintsTaken() const { return hints; } // check ids

private:
    std::vector<Exercise> exercises;
    bench::Bench freeBench;
    std::optional<std::size_t> open;
    std::optional<attempt::Attempt> sitting;
    attempt::Trace traced;
    std::optional<Verdict> judged;
    std::uint64_t judgedRevision = 0;
    std::set<std::string> hints;
};

} // namespace loom::lesson

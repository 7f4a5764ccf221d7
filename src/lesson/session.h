// SPDX-License-Identifier: MIT
// A sitting at the bench: which exercise is open, the attempt at it, what the last check said,
// which hints were taken. The host makes one, hands the screen a const view and gives back the
// screen's intents. No window, no clock, no storage inside.
#pragma once

#include "attempt/attempt.h"
#include "attempt/trace.h"
#include "lesson/exercise.h"
#include "lesson/procedure.h"
#include "lesson/sheet.h"
#include "lesson/verdict.h"
#include "yard/yard.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace loom::lesson {

class Session {
public:
    // Course: the exercises in order. freeBench: what an empty exercise id opens.
    Session(std::vector<Exercise> course, bench::Bench freeBench);

    // Opens an exercise from its beginning; "" is the free bench. False for an unknown id. The seed
    // chooses the fault that an exercise hides.
    bool begin(const std::string& exercise, std::uint64_t seed = 0);
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

    // From now on; whether there is room for it.
    bool watch(const attempt::Quantity& quantity);

    void unwatch(const attempt::Quantity& quantity) { traced.unwatch(quantity); }

    // Of the last check, also of an attempt that was taken up; none before it. Stale once the bench
    // has changed since.
    const std::optional<Verdict>& verdict() const { return judged; }

    bool verdictIsStale() const;

    const std::set<std::string>& hintsTaken() const { return hints; } // check ids

    const Sheet& sheet() const; // the cross-check so far

    // How far the powering up is; after a sitting was taken up, as far as its commands tell.
    const Procedure& procedure() const { return *powering; }

    // The mechanical world of the board; as the screen shows it, with what is in the hand.
    const yard::Yard& yard() const { return world; }

    // The bench as shown, with what is in the hand put where the hand is; each frame of a drag, and
    // once with an empty hand after it.
    void carry(const bench::Bench& shown, const yard::InHand& inHand);

    // The hand takes a cable by its middle, pulls, and lets go.
    void gripCable(bench::CableId cable, bench::Point at_m) { world.grip(cable, at_m); }

    void pullCable(bench::Point to_m) { world.pull(to_m); }

    void releaseCable() { world.release(); }

    // Real time for the yard. What it finds to lie against an axle goes into the attempt.
    void moveYard(double seconds);
    void settleYard(); // at once, without showing the movement

private:
    std::vector<Exercise> exercises;
    bench::Bench freeBench;
    std::optional<std::size_t> open;
    std::optional<attempt::Attempt> sitting;
    attempt::Trace traced;
    std::optional<Verdict> judged;
    SeenBefore seen; // of the exercise that is open
    std::uint64_t judgedRevision = 0;
    std::set<std::string> hints;
    std::optional<Procedure> powering;
    mutable Sheet marked; // of the revision below
    mutable std::optional<std::uint64_t> markedRevision;
    yard::Yard world;
    std::uint64_t worldRevision = 0; // of the attempt that the yard last followed
    bool carrying = false;

    void sitDown(attempt::Attempt attempt);
    void judgeAsThen(const attempt::Record& record);
    void followBench();
    void takeFindings();
};

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// The order of powering up, and of putting away after the test. Start with a Procedure at the
// attempt's beginning and tell it each command and each slice; steps() says what was done and
// what came at the wrong moment. Nothing is stopped: the bench lets everything happen.
//
// It goes by commands and by what is joined and closed, never by the circuit's readings, so that a
// record alone gives the same steps: see procedureOf().
#pragma once

#include "attempt/attempt.h"
#include "plan/plan.h"
#include "plan/step.h"

#include <array>
#include <set>
#include <string>
#include <vector>

namespace loom::lesson {

struct StepSeen {
    plan::Step step = plan::Step::IsolatorOff;
    bool done = false;
    bool early = false;     // done before one that should have come first
    plan::Step before{};    // that one; for BatteriesOut SeriesLink: the link was still on
    std::int64_t slice = 0; // when
};

// How each step counts. A thing that is put back before the run (a strap opened, an end taken off,
// also by undo) is no longer done, and counts anew when it is done again, so that a step done early
// can be mended. After the run the first steps stand, until building up begins again.
//   IsolatorOff  a state; no longer so when the key goes in before the link is on
//   Batteries    every battery of the kit on the bench and strapped
//   BatteryEnds  a cable that is no link on a battery's plus, and one on a minus
//   SeriesLink   a cable from battery to battery. That no other cable at all comes later is the
//                rule "link last" of order.h
//   AxleClear    a state: nothing lies against it
//   CrossCheck   the sheet handed in and every cable of the plan marked
//   KeyOn        every isolator on; LampSeen, Call and Run then begin anew
//   RockerOn     after the key; early when the key is turned with the rocker on
//   LampSeen     the rocker looked at while its lamp is on both poles of the supply
//   Call         may be repeated; the last one counts
//   Run          a button held that puts a coil or a motor on the supply; early stays early until
//                the key is turned on again
//   Off, KeyHung, BatteriesOut  after the run
class Procedure {
public:
    // Which steps count: without a rocker on the bench and in its kit there is no RockerOn, without
    // a plan no CrossCheck, without a button neither Run nor anything after it.
    explicit Procedure(const attempt::Attempt& attempt, const plan::Plan* plan = nullptr);
    Procedure(const bench::Bench& start, std::int64_t slice, const plan::Plan* plan);

    // After each command that was done, and after each advance (nullptr). Costs nothing while the
    // attempt's revision is the same.
    void look(const attempt::Attempt& attempt, const attempt::Command* command);
    void look(const bench::Bench& bench, std::int64_t slice, const attempt::Command* command);

    const std::vector<StepSeen>& steps() const { return seen; } // those that count, in order

private:
    // What stands on the bench, by step; steps that are acts are never set.
    struct Standing {
        std::array<bool, plan::kStepCount> so{};
        std::size_t batteryEnds = 0; // joined ends on batteries that are no link's
        bool keyOut = false, batteryOut = false;
    };

    std::vector<StepSeen> seen;
    std::set<std::string> toMark; // labels of the plan
    std::set<std::string> marked;
    std::size_t batteries = 0; // that there are
    bool handedIn = false, linkOnTooLong = false;
    std::uint64_t revision = 0;
    Standing was;

    StepSeen* find(plan::Step step);
    bool isDone(plan::Step step) const;
    void mark(plan::Step step, std::int64_t slice);
    void clear(plan::Step step);
    void clearFrom(plan::Step step);

    Standing standingOn(const bench::Bench& bench) const;
    void startOver(const Standing& now);
    void rockerWasOn(std::int64_t slice);
    void followStates(const Standing& now, std::int64_t slice);
    void followIsolator(const Standing& now, std::int64_t slice);
    void followPuttingAway(const Standing& now, std::int64_t slice);
    void follow(const attempt::Command& command, const bench::Bench& bench, std::int64_t slice);
};

// From a whole record, for marking and for taking an attempt up again: the same steps as the
// Procedure that looked on. What the circuit did is in it as far as it lasts (a melted fuse); that a
// lamp is lit or a coil fed is told by what is joined, so that a flat battery counts as live.
Procedure procedureOf(const attempt::Record& record, const plan::Plan* plan = nullptr);

} // namespace loom::lesson

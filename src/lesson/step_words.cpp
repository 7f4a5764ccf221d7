// SPDX-License-Identifier: MIT
#include "lesson/step_words.h"

namespace loom::lesson {
namespace {

// As something that has been done, and as something that is still to be done.
struct Phrases {
    const char* done;
    const char* open;
};

constexpr Phrases phrases[plan::stepCount] = {
    {"the isolator was off with its key out", "the key is not out of the isolator"},
    {"the batteries were in and strapped", "the batteries are not in and strapped"},
    {"the battery ends were joined", "the battery ends are not joined"},
    {"the series link was fitted", "the series link is not fitted"},
    {"the axle was clear", "the axle is not clear"},
    {"the cross-check was handed in", "the cross-check is not handed in with every cable marked"},
    {"the key was turned on", "the key has not been turned on"},
    {"the rocker was on", "the rocker has not been on"},
    {"the live lamp was looked at", "the live lamp has not been looked at"},
    {"the call was made", "the call has not been made"},
    {"the button was held", "the button has not been held"},
    {"the rocker and the isolator were off", "the rocker and the isolator are not off"},
    {"the key was hung up", "the key is not hung up"},
    {"the batteries were out", "the batteries are not out"}};

const Phrases& of(plan::Step step) {
    return phrases[static_cast<int>(step)];
}

} // namespace

std::string told(const StepSeen& step) {
    if (!step.done) return of(step.step).open;
    if (step.early && step.step == plan::Step::BatteriesOut &&
        step.before == plan::Step::SeriesLink)
        return "a battery was taken off while the series link was on";
    if (step.early) return of(step.step).done + std::string(" before ") + of(step.before).done;
    return of(step.step).done;
}

} // namespace loom::lesson

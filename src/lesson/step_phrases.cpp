// SPDX-License-Identifier: MIT
#include "lesson/step_phrases.h"

namespace loom::lesson {
namespace {

using bench::phrase;

bench::Phrase of(plan::Step step, const char* ending) {
    return phrase("step/" + std::string(plan::kStepWords[static_cast<int>(step)]) + ending);
}

} // namespace

bench::Phrase describe(const StepSeen& step) {
    if (!step.done) return of(step.step, "/not-yet");
    const bench::Phrase done = of(step.step, "/was");
    if (!step.early) return done;
    if (step.step == plan::Step::BatteriesOut && step.before == plan::Step::SeriesLink)
        return phrase("step/battery-off-early");
    return phrase("step/before", {{"step", done}, {"other", of(step.before, "/was")}});
}

} // namespace loom::lesson

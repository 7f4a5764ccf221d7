// SPDX-License-Identifier: MIT
// Whether a hidden fault was found by looking and measuring, not by guessing: start with
// whyNotShown(). The attempt is run again on the bench with each other fault that the exercise has,
// and sound; what would have looked or read just the same there has not been told apart.
#pragma once

#include "attempt/command.h"
#include "bench/phrase.h"
#include "lesson/exercise.h"

namespace loom::lesson {

// Empty when, before the fault was first named rightly, something looked at closely or measured would
// have been otherwise on a sound bench, and something seen, looked at or measured would have been
// otherwise with each other fault. Otherwise what is missing.
bench::Phrase whyNotShown(const Exercise& exercise, const attempt::Record& record);

} // namespace loom::lesson

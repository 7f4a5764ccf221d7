// SPDX-License-Identifier: MIT
// The steps of powering up as phrases, for what a check says.
#pragma once

#include "bench/phrase.h"
#include "lesson/procedure.h"

namespace loom::lesson {

// "the series link was fitted before the battery ends were joined", "the call has not been made".
bench::Phrase describe(const StepSeen& step);

} // namespace loom::lesson

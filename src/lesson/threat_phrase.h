// SPDX-License-Identifier: MIT
// A threat in a phrase: "when S4 in touches X1/10, P-27 gets too hot: 290 A, 0.2 s".
#pragma once

#include "bench/phrase.h"
#include "lesson/fault_sweep.h"

namespace loom::lesson {

// Of the bench that was swept.
bench::Phrase describe(const bench::Bench& bench, const Threat& threat);

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// What happened and what the solver remarks, as plain English lines for a terminal.
#pragma once

#include "attempt/attempt.h"

#include <string>

namespace loom::desk {

// "F2 opened at 38.1 A, 0.2 s after its current passed the rating"
std::string sentence(const attempt::BenchEvent& event);

// "The answer is approximate: the step did not settle at K1, P-22"; empty for a finding that
// every half-wired bench has (something lies there joined to nothing).
std::string sentence(const circuit::Diagnosis& diagnosis, const bench::Bench& bench);

} // namespace loom::desk

// SPDX-License-Identifier: MIT
// Sentences for people, made from kinds, numbers and names with the words of assets/strings. Nothing
// else in the project puts words together for people, but for the command's own arguments.
#pragma once

#include "attempt/attempt.h"
#include "bench/refusal.h"
#include "plan/print.h"
#include "words/numbers.h"
#include "words/strings.h"

#include <string>

namespace loom::words {

std::string text(const bench::Phrase& phrase);

// For the papers of src/plan.
plan::Say printed();

// "K1 takes a spade end. This one is a ring M6 end."
std::string sentence(const bench::Refusal& refusal);
// "K1: expected spade, found ring M6", for a place in a file or an argument
std::string inShort(const bench::Refusal& refusal);

// "F2 opened: 11.1 A, 8 s after it went over its rating.", "F2 opened at once, at 904 A."
std::string sentence(const attempt::BenchEvent& event);

// "Switch off, then find out why before you fit a new one."; empty after an ordinary event.
std::string nextAct(const attempt::BenchEvent& event);

// A remark of the solver: "the numbers are approximate, they did not settle at K1, P-22"; empty for
// one that every half-wired bench has (something lies there joined to nothing).
std::string sentence(const circuit::Diagnosis& diagnosis, const bench::Bench& bench);

} // namespace loom::words

// SPDX-License-Identifier: MIT
// A terminal's name for people, in their language; terminalName() of catalogue.h is the one in files.
#pragma once

#include "bench/bench.h"
#include "bench/phrase.h"

#include <string>

namespace loom::bench {

// "K1 normally open", "X1 3 upper": a ref and the catalogue's word.
Phrase terminalPhrase(const std::string& ref, const std::string& word);
Phrase terminalPhrase(const Bench& bench, TerminalRef terminal);

} // namespace loom::bench

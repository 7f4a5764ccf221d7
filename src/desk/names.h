// SPDX-License-Identifier: MIT
// Parts, terminals and cables as people type them: "K1", "X1" "10 upper" or just "10", "P-06", and
// "P-14#2" for the second of several cables that carry one label.
#pragma once

#include "bench/edit.h"
#include "bench/refusal.h"

#include <string>

namespace loom::desk {

bench::Outcome<bench::PartId> partNamed(const bench::Bench& bench, const std::string& ref);
bench::Outcome<bench::CableId> cableNamed(const bench::Bench& bench, const std::string& label);
// A way of a connector block may be given by its number alone: its upper hole.
bench::Outcome<bench::TerminalRef>
terminalNamed(const bench::Bench& bench, const std::string& ref, const std::string& word);

// The terminal for an end to be joined: of a way given by its number, the hole that takes it.
bench::Outcome<bench::TerminalRef> terminalFor(const bench::Bench& bench,
                                               const bench::Held& held,
                                               const std::string& ref,
                                               const std::string& word);

} // namespace loom::desk

// SPDX-License-Identifier: MIT
// The rules of joining an end to a terminal, shared by the edits and the file. The question the
// screen asks, whyNotJoin(), is declared in edit.h.
#pragma once

#include "bench/bench.h"
#include "bench/refusal.h"

#include <optional>

namespace loom::bench {

// UnknownPart or UnknownTerminal when there is no such terminal.
std::optional<Refusal> whyNotTerminal(const Bench& bench, TerminalRef terminal);

// Whether this end of this cable, with this kind, may go to a terminal. The cable need not be on
// the bench yet; where its end is now does not count.
std::optional<Refusal>
whyNotJoinCable(const Bench& bench, const Cable& cable, int end, EndKind kind, TerminalRef to);

// ScrewClosed unless the clamp's screw is open; nothing for a stud or a tab.
std::optional<Refusal> whyClampClosed(const Bench& bench, TerminalRef at);
// Whether an end made by hand (by its cable's label) finds the screw of this clamp open.
std::optional<Refusal> whyScrewClosed(const Bench& bench, const std::string& label, TerminalRef to);

} // namespace loom::bench

// SPDX-License-Identifier: MIT
// Words for kinds of parts, sleeves and cable ends, from the strings.
#pragma once

#include "bench/bench.h"

#include <string>

namespace loom::screen {

std::string kindWords(bench::PartKind kind); // "relay"
// What such a part is, with the figures of the one that has this rating: "12 V 21 W".
std::string aboutPart(bench::PartKind kind, double rating);
std::string sleeveWords(bench::Sleeve sleeve);
std::string endWords(bench::EndKind end);
// "K1 normally open"
std::string terminalWords(const bench::Bench& bench, bench::TerminalRef terminal);

// A part's ref, a cable's label; empty for one that is no longer there.
std::string refOf(const bench::Bench& bench, bench::PartId id);
std::string labelOf(const bench::Bench& bench, bench::CableId id);

} // namespace loom::screen

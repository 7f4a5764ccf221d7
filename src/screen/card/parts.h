// SPDX-License-Identifier: MIT
// The sorts of things a card can be about; cardOf() in text.h calls the one that applies.
#pragma once

#include "screen/card/text.h"

namespace loom::screen {

void tellPart(const attempt::Attempt& attempt, const bench::Part& part, CardText& card);
void tellCable(const attempt::Attempt& attempt, const bench::Cable& cable, CardText& card);
void tellTerminal(const attempt::Attempt& attempt, bench::TerminalRef terminal, CardText& card);

// The battery's minus terminal against which the terminal is highest; nothing when no metal path
// leads to one.
struct Against {
    bench::TerminalRef minus;
    double voltage_V = 0.0;
};

std::optional<Against> againstBattery(const attempt::Attempt& attempt,
                                      bench::TerminalRef terminal);
// What of the chosen thing can be traced, as further actions.
void offerTraces(const attempt::Attempt& attempt, const Chosen& chosen, CardText& card);

} // namespace loom::screen

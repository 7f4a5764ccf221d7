// SPDX-License-Identifier: MIT
// The sorts of things a card can be about; cardOf() in card_text.h calls the one that applies.
#pragma once

#include "screen/card_text.h"

namespace loom::screen {

void tellPart(const attempt::Attempt& attempt, const bench::Part& part, CardText& card);
void tellCable(const attempt::Attempt& attempt, const bench::Cable& cable, CardText& card);
void tellTerminal(const attempt::Attempt& attempt, bench::TerminalRef terminal, CardText& card);

} // namespace loom::screen

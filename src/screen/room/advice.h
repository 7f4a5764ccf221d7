// SPDX-License-Identifier: MIT
// What to do next, in one sentence under the board: about what is in the hand, the tool that was
// just taken, or a bench on which nothing has happened yet. Empty when nothing needs to be said.
#pragma once

#include "screen/board/state.h"

#include <string>

namespace loom::screen {

// What was picked up by a tap or a key and waits for the next one. While it is dragged, what lies
// under the pointer says what it takes.
std::string adviceForHand(const bench::Bench& bench, const BoardUi& ui);
// How the chosen tool is used; empty for the bare hand.
std::string adviceForTool(Tool tool);
// On a bench without any events: lay a part, wire, switch on.
std::string adviceForBench(const bench::Bench& bench);

} // namespace loom::screen

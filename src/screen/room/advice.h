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

struct Advice {
    std::string text;
    bool success = false;
};

// On a bench on which nothing has happened, by its state: lay a part, wire, switch on, go on.
Advice adviceForBench(const lesson::Session& session);
// By the last check, with nothing changed since.
bool isSolved(const lesson::Session& session);

} // namespace loom::screen

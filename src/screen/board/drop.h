// SPDX-License-Identifier: MIT
// Letting go of what is in the hand: onto a terminal, a part, the board or back into the tray.
#pragma once

#include "screen/board/scene.h"
#include "screen/board/wish.h"

#include <optional>

namespace loom::screen {

// Gives the commands for letting go at a point, and empties the hand (or, after the first end of a
// cable picked up by a tap, puts the other end into it).
void drop(const Scene& scene, const View& view, BoardUi& ui, ImVec2 at_px, Asked& out);
// The same onto a terminal or a part that the keys are on.
void dropOnTerminal(const Scene& scene, BoardUi& ui, bench::TerminalRef to, Asked& out);
void dropOnPart(const Scene& scene, BoardUi& ui, bench::PartId part, Asked& out);
void layAtFreePlace(const Scene& scene, BoardUi& ui, const std::string& ref, Asked& out);

// Why the terminal will not take what is in the hand; nothing when it will.
std::optional<bench::Refusal>
whyNot(const bench::Bench& bench, const BoardUi& ui, bench::TerminalRef to);

// Why no new cable can begin here.
std::optional<bench::Refusal>
startRefused(const bench::Bench& bench, const BoardUi& ui, bench::TerminalRef from);

} // namespace loom::screen

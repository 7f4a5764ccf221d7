// SPDX-License-Identifier: MIT
// Letting go of what is in the hand: onto a terminal, a part, the board or back into the tray.
#pragma once

#include "screen/board/scene.h"

namespace loom::screen {

// Gives the commands for letting go at a point, and empties the hand (or, after the first end of a
// cable picked up by a tap, puts the other end into it).
void drop(const Scene& scene, const View& view, BenchUi& ui, ImVec2 at_px, Intents& out);
// The same onto a terminal or a part that the keys are on.
void dropOnTerminal(const Scene& scene, BenchUi& ui, bench::TerminalRef to, Intents& out);
void dropOnPart(const Scene& scene, BenchUi& ui, bench::PartId part, Intents& out);
void layAtFreePlace(const Scene& scene, BenchUi& ui, const std::string& ref, Intents& out);

// Why no new cable can begin here.
std::optional<bench::Refusal>
startRefused(const bench::Bench& bench, const BenchUi& ui, bench::TerminalRef from);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// What lies under a point of the board. Terminals and loose ends are grabbed from 44 px, the
// nearest winning; a sleeve from its own width first, from a finger's width last. The hand works a
// control through a cable that hangs over it.
#pragma once

#include "screen/board/scene.h"

namespace loom::screen {

Press pressAt(const Scene& scene, const BoardUi& ui, ImVec2 at_px);

// The nearest terminal a held end would go to from here; nothing when none is near.
std::optional<bench::TerminalRef> terminalNear(const Scene& scene, ImVec2 at_px);
// The part under the point, topmost first.
const bench::Part* partUnder(const Scene& scene, ImVec2 at_px);

// Where the hand sets a part's control, from the part's centre in metres before turning.
bool onControl(bench::PartKind kind, ImVec2 local_m);
// The position a tap there asks for.
int tappedPosition(const bench::Part& part, ImVec2 local_m);

} // namespace loom::screen

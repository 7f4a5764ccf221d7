// SPDX-License-Identifier: MIT
// Ends made by hand, as they are seen on the board: one that is not made yet has an open ring and a
// word; a strand that stands out and copper that shows are there for who looks closely.
#pragma once

#include "screen/art/picture.h"
#include "screen/board/scene.h"

#include <string>

namespace loom::screen {

// Whether the end is still to be made: "not made yet" in words.
bool isUnmade(const bench::Bench& bench, const bench::Cable& cable, int end);

// After the cables. What the pointer rests on says its word.
void drawEndsByHand(const Scene& scene,
                    const BoardUi& ui,
                    art::PictureStore& pictures,
                    ImDrawList* list);

// "X1 3 upper", with a word when an end on it is not made yet.
std::string spokenTerminal(const bench::Bench& bench, bench::TerminalRef terminal);

} // namespace loom::screen

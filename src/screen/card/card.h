// SPDX-License-Identifier: MIT
// Readings and actions of the chosen part, cable or terminal, beside it on the board.
#pragma once

#include "screen/board/wish.h"

namespace loom::screen {

// Draw after the board and what lies on it. Nothing while nothing is chosen or something is held.
void drawCard(const View& view, Items& items, const BoardUi& ui, ImDrawList* list, Asked& out);

} // namespace loom::screen

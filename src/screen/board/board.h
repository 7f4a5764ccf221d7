// SPDX-License-Identifier: MIT
// The board: camera, what lies on it, what is in the hand. Dragging, wiring, operating; the same by
// pointer, finger and keys. The drawing itself is in draw.h and art/.
#pragma once

#include "screen/art/picture.h"
#include "screen/board/wish.h"

namespace loom::screen {

// Draws the board and handles everything done to it. quiet: something is looked at closely, so that
// nothing is said of what the pointer rests on. Returns whether something moves by itself.
bool drawBoard(const View& view,
               Items& items,
               BoardUi& ui,
               bool quiet,
               art::PictureStore& pictures,
               ImDrawList* list,
               Asked& out);

} // namespace loom::screen

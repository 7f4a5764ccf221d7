// SPDX-License-Identifier: MIT
// What stands round the board and remembers nothing of its own: header, wall of tools (rail), view
// controls, and the page for windows that are too small.
#pragma once

#include "screen/art/picture.h"
#include "screen/board/wish.h"

namespace loom::screen {

// Name, live or safe, undo, redo, help.
void drawHeader(const View& view, Items& items, ImDrawList* list, Asked& out);
void drawRail(const View& view,
              Items& items,
              const BoardUi& board,
              bool traceOpen,
              art::PictureStore& pictures,
              ImDrawList* list,
              Asked& out);
// Closer, further, whole, still: a small group in the board's corner. Draw before the card. still:
// what moves by itself stands still, as under reduced motion.
void drawViewControls(const View& view,
                      Items& items,
                      bool& still,
                      const BoardUi& board,
                      ImDrawList* list,
                      Asked& out);
void drawTooSmall(const View& view, ImDrawList* list);

} // namespace loom::screen

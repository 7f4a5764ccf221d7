// SPDX-License-Identifier: MIT
// The tray: what can be taken, in a drawer at the foot of the bench.
#pragma once

#include "screen/art/picture.h"
#include "screen/board/wish.h"
#include "screen/kit/scroll.h"

#include <string>

namespace loom::screen {

struct TrayUi {
    bool open = true; // the drawer
    float scroll = 0.0f;
    Grip grip;
    std::string pressed; // the slot on which a press in the tray began
};

void drawTray(const View& view,
              Items& items,
              TrayUi& ui,
              const BoardUi& board,
              art::PictureStore& pictures,
              ImDrawList* list,
              Asked& out);

} // namespace loom::screen

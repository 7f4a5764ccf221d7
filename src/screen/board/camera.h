// SPDX-License-Identifier: MIT
// Which part of the board is seen: zoom and pan by wheel, fingers, dragging and keys.
#pragma once

#include "screen/board/state.h"

namespace loom::screen {

// The part of the board's rectangle that shows the bench: inside the bevelled edge.
Rect boardWindow(const View& view);
// Where the board's metres are on the screen, for the camera.
art::BoardView boardView(const View& view, const BoardUi& ui);
// By this frame's input; the whole board stays reachable and nothing beyond it is shown.
void moveCamera(const View& view, const Items& items, BoardUi& ui);

// One step nearer (factor > 1) or further, about the middle of the board.
inline Camera zoomed(Camera camera, double factor) {
    camera.zoom *= factor;
    return camera;
}

} // namespace loom::screen

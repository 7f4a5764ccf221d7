// SPDX-License-Identifier: MIT
// Draws a cable tie: a nylon strap round a cable, with its small head, over a saddle when it goes to
// the frame. Draw after the cables.
#pragma once

#include "screen/art/route.h"

namespace loom::art {

void drawTie(ImDrawList* list,
             const BoardView& view,
             const RoutePoint& at,
             float cableWidth_m,
             bool toFrame);

} // namespace loom::art

// SPDX-License-Identifier: MIT
// Draws a Scene: parts, cables, labels, rings, what is in the hand.
#pragma once

#include "screen/art/picture.h"
#include "screen/board/scene.h"

namespace loom::screen {

// Registers what it draws. Returns whether something moves by itself.
bool drawScene(
    const Scene& scene, BoardUi& ui, Items& items, art::PictureStore& pictures, ImDrawList* list);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The board by keyboard: what the keys of this frame do to what is focused.
#pragma once

#include "screen/board/scene.h"
#include "screen/board/wish.h"

namespace loom::screen {

void handleKeys(const Scene& scene, const View& view, Items& items, BoardUi& ui, Asked& out);

} // namespace loom::screen

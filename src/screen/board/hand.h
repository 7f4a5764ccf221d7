// SPDX-License-Identifier: MIT
// The hand: from presses, drags and taps to commands. keys.h does the same by keyboard.
#pragma once

#include "screen/board/scene.h"
#include "screen/board/wish.h"

namespace loom::screen {

// With a tool that makes ends, a press on an end or a terminal opens the close-up of it.
bool lookCloser(const BoardUi& ui, const Press& at, Asked& out);

void handlePointer(const Scene& scene, const View& view, Items& items, BoardUi& ui, Asked& out);
// A push button held down by a key, until it comes up.
void holdButtonByKey(const Scene& scene, BoardUi& ui, bench::PartId id, Asked& out);
void releaseButtonByKey(BoardUi& ui, Asked& out);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// Quantities against time on a paper card over the board: a field for each with its own scale, the
// events as marks, a cursor with readings, pause, back in time, files. Call drawTrace() once a frame;
// what is watched and kept is the session's. Names and units are in words.h.
#pragma once

#include "screen/trace/state.h"

namespace loom::screen {

// Draw after the board, before the cards.
void drawTrace(const View& view, Items& items, TraceUi& ui, ImDrawList* list, Intents& out);

} // namespace loom::screen

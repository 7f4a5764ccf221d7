// SPDX-License-Identifier: MIT
// The close-up in which a cable's end is made: its terminal cut open, the end drawn large, one tile
// a step, a dial for tightness. Open it with openCloseup(); drawCloseup() does the rest each frame,
// and opens it by itself when an end that is made by hand has just been joined.
#pragma once

#include "screen/closeup/state.h"

namespace loom::screen {

void openCloseup(CloseupUi& ui, const CloseupOf& of);
// The end on this terminal, the next one if it shows one of them already; the bare terminal else.
void openCloseupAt(CloseupUi& ui, const bench::Bench& bench, bench::TerminalRef terminal);
void closeCloseup(CloseupUi& ui);

// Draw after the card. Does nothing while it is shut but watch for ends to be made.
// Returns whether something is held that moves by itself.
bool drawCloseup(const View& view,
                 Items& items,
                 CloseupUi& ui,
                 const BoardUi& board,
                 ImDrawList* list,
                 Asked& out);

} // namespace loom::screen

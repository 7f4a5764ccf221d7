// SPDX-License-Identifier: MIT
// The paper with its leaves: Job, Plan, Sheet, Power-up, All jobs. Beside the board on a wide screen,
// pulled in over it on a tablet.
#pragma once

#include "screen/board/wish.h"
#include "screen/paper/state.h"

namespace loom::screen {

void drawPaper(const View& view,
               Items& items,
               PaperUi& ui,
               const BoardUi& board,
               ImDrawList* list,
               Asked& out);
// The layout while the paper is pulled wide: what is on the board's side makes room for it.
Layout besidePaper(const Layout& layout, const PaperUi& ui);
// The strip on the paper describes what is chosen, so that no card needs to.
bool paperDescribes(const PaperUi& ui);
// The point lies on the paper, so that two fingers there are not for the board.
bool onPaper(const View& view, const PaperUi& ui, ImVec2 at);
// It is on its way, so that another frame is wanted.
bool paperMoves(const PaperUi& ui);

} // namespace loom::screen

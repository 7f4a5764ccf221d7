// SPDX-License-Identifier: MIT
// Under the board: a refusal, what to do next, or the last event; opens the whole list over the board.
#pragma once

#include "screen/board/state.h"
#include "screen/kit/scroll.h"

namespace loom::screen {

// How many events there were when what the line says changed for another reason.
struct LineSince {
    Tool tool = Tool::BareHand;
    std::size_t events = 0; // when this tool was taken
    std::size_t undone = 0; // when something was undone last
};

struct EventsUi {
    bool open = false; // the whole list
    float scroll = 0.0f;
    Grip grip;
    LineSince since;
};

void drawEvents(
    const View& view, Items& items, EventsUi& ui, const BoardUi& board, ImDrawList* list);

} // namespace loom::screen

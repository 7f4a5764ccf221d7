// SPDX-License-Identifier: MIT
// Under the board: a refusal, what to do next, or the last event; opens the whole list over the board.
#pragma once

#include "screen/board/state.h"
#include "screen/kit/scroll.h"

#include <vector>

namespace loom::screen {

// Events that are not ordinary and were not read yet: they stay on the line until they are.
struct Unread {
    std::size_t seen = 0;           // events looked through
    std::vector<std::size_t> which; // counted from the attempt's beginning, oldest first
};

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
    Unread unread;
};

void drawEvents(
    const View& view, Items& items, EventsUi& ui, const BoardUi& board, ImDrawList* list);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// What the whole screen remembers from frame to frame: the state of each screen, side by side.
#pragma once

#include "screen/board/state.h"
#include "screen/closeup/state.h"
#include "screen/meter/meter.h"
#include "screen/paper/state.h"
#include "screen/room/event_line.h"
#include "screen/room/help.h"
#include "screen/trace/state.h"
#include "screen/tray/tray.h"

namespace loom::screen {

struct RoomUi {
    Items items;
    BoardUi board;
    MeterUi meter;
    CloseupUi closeup;
    TraceUi trace;
    TrayUi tray;
    PaperUi paper;
    EventsUi events;
    HelpUi help;
    bool still = false; // what moves by itself stands still, as under reduced motion
    int opened = 0;     // View::opened of the last frame
};

} // namespace loom::screen

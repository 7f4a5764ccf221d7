// SPDX-License-Identifier: MIT
// Where the controls round the board are for a given window: wide (paper left, tools, "the rail",
// right), tablet (paper pulled in over the board, tools as a row), or too small. Pure arithmetic.
#pragma once

#include "screen/kit/items.h"

namespace loom::screen {

enum class Form { Wide, Tablet, TooSmall };

struct Layout {
    Form form = Form::Wide;
    float unit = 1.0f; // one design pixel in screen pixels: 1 at 1280x800, more on a stand
    Rect name;         // "Loomwright" (wide only)
    Rect status;       // live or safe, in words
    Rect buttons;      // undo, redo, help
    Rect paper;        // the sheet itself; on a tablet where it lies when pulled in
    Rect strip;        // tablet: the job's line with the check button
    Rect leafTab;      // tablet: the tab at the left edge that pulls the paper in
    Rect board;
    Rect events;
    Rect tray;
    Rect rail;
};

// width, height: window in CSS pixels. larger: 1.3 for a stand. trayOpen false: the drawer is shut
// and the board takes its place.
Layout layOut(float width, float height, float larger = 1.0f, bool trayOpen = true);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// How much of what lies on the board would be hidden by something laid over it.
#pragma once

#include "screen/kit/layout.h"

namespace loom::screen {

// Of two rectangles, in square pixels.
float overlap(const Rect& a, const Rect& b);
// Of the parts and of what is read (Items::keepClearOf) registered so far this frame, in square
// pixels; what is read counts more than a part.
float hiddenOnBoard(const Items& items, const Rect& place);
// The board without what lies over its edge: on a tablet the tab that pulls the paper in.
Rect clearBoard(const Layout& layout);
// Moved as little as needed to lie within the bounds.
Rect keptWithin(const Rect& bounds, Rect r);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// Scrolling of what does not fit: by wheel, by dragging (a press that moves becomes a drag and clicks
// nothing) and to what the keyboard is on. Call scrollBy() once a frame before drawing the content,
// then shift the content by -at.
#pragma once

#include "screen/kit/items.h"

namespace loom::screen {

// What is remembered of one area from frame to frame.
struct Grip {
    bool pressed = false;    // the pointer went down in it
    bool dragging = false;   // and has moved far enough to scroll
    float from_px = 0.0f;    // the pointer then, along the axis
    float atThen_px = 0.0f;  // the scroll then
    float target_px = -1.0f; // where a jump is going; none below 0
    std::string lastFocus;   // what the keyboard was on, to follow it only when it moves
};

enum class Axis { Across, Down };

// The part of a longer content that is seen, while it is drawn: what lies outside cannot be pressed,
// and which item inside has the keyboard is noted.
struct Window {
    Rect area;
    bool focusInside = false;
    std::string focusedName;
    Rect focused;
};

// area: what is seen; content_px: length of all there is. at_px: the scroll, kept within range.
// free: nothing lies over the area and nothing else has the pointer.
void scrollBy(Items& items,
              const Rect& area,
              Axis axis,
              float content_px,
              bool free,
              float& at_px,
              Grip& grip);
// After drawing: sets out to show what the keyboard has just come to.
void followFocus(const Window& window, Axis axis, float margin_px, float at_px, Grip& grip);
// Page Up, Page Down, Home and End, for what is in front.
void pageByKeys(const Rect& area, float at_px, Grip& grip);
// What of the rectangle is seen. One out of sight gives an empty one just beyond the edge, in order,
// so that the keyboard still finds its way there and the pointer does not.
Rect seen(const Rect& area, const Rect& rect);
// A thin bar at the side that shows where one is, when there is more than fits.
void drawScrollBar(
    ImDrawList* list, const Rect& area, Axis axis, float content_px, float at_px, ImU32 colour);

} // namespace loom::screen

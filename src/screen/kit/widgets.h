// SPDX-License-Identifier: MIT
// Our own widgets, drawn on a draw list and pressed through Items: button, row, mark, badge, stamp,
// gauge, sheet, note. Used everywhere; nothing of Dear ImGui's stock look appears.
#pragma once

#include "screen/kit/items.h"
#include "screen/kit/pen.h"

#include <imgui.h>
#include <string_view>

namespace loom::screen {

// Items::add, but what is scrolled out of the pen's window cannot be pressed.
Touch press(const Pen& pen,
            Items& items,
            std::string_view name,
            std::string_view label,
            Zone zone,
            const Rect& rect);

// Items::note for something to be read: found by the keyboard, ringed then, brought into sight.
void readable(const Pen& pen,
              Items& items,
              std::string_view name,
              std::string_view label,
              Zone zone,
              const Rect& rect,
              float rounding);

enum class ButtonLook {
    Room,  // on the dark room: undo, redo
    Paper, // outlined on paper: hint
    Main   // the screen's one main action
};

// Returns whether it was clicked; never when it is not enabled, though it can still be found. The
// label is fitted into the button.
bool button(const Pen& pen,
            Items& items,
            std::string_view name,
            std::string_view label,
            Zone zone,
            const Rect& rect,
            ButtonLook look,
            bool enabled = true);
// The width that shows the label whole.
float buttonWidth(const Pen& pen, std::string_view label);
// A pressable line of text on paper: a row of a list, a link. chosen: it is the one shown.
Touch row(const Pen& pen,
          Items& items,
          std::string_view name,
          std::string_view label,
          Zone zone,
          const Rect& rect,
          bool chosen);
// A square button with a cross: closes a card or a panel.
bool closeButton(const Pen& pen, Items& items, std::string_view name, Zone zone, ImVec2 centre);

// A round mark: empty, done (tick) or not right (cross).
enum class Mark { Empty, Done, Wrong };
void drawMark(ImDrawList* list, ImVec2 centre, float radius, Mark mark);

// Something is wrong: an upright triangle with a mark of exclamation.
void drawWarning(const Pen& pen, ImVec2 centre, float radius, ImU32 colour);

// A number in a round badge.
void drawBadge(const Pen& pen, ImVec2 centre, std::string_view text);
// A rubber stamp, a little turned.
void drawStamp(const Pen& pen, ImVec2 centre, ImU32 colour, std::string_view text);
// How much of something, 0..1: a bar with a mark where it becomes too much (over 1: none).
void drawGauge(ImDrawList* list, const Rect& rect, float share, float tooMuch);
// A dashed rounded box: the place of something that is elsewhere.
void drawDashedBox(ImDrawList* list, const Rect& rect, float rounding, ImU32 colour, float stroke);
// A chevron pointing right (1, 0), left, up or down.
void drawChevron(
    ImDrawList* list, ImVec2 centre, float size, ImVec2 towards, ImU32 colour, float stroke);

// Raised panel, paper sheet, warm note; with the one soft shadow where it lies on something.
void drawSoftShadow(ImDrawList* list, const Rect& rect, float rounding, float reach, float alpha);
void drawPanel(ImDrawList* list, const Rect& rect, float rounding);
void drawPaperSheet(ImDrawList* list, const Rect& rect);
void drawClip(const Pen& pen, ImVec2 middleOfTopEdge);
void drawNote(ImDrawList* list, const Rect& rect);
void drawFocusRing(ImDrawList* list, const Rect& rect, float rounding);

} // namespace loom::screen

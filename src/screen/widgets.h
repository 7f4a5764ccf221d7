// SPDX-License-Identifier: MIT
// Our own widgets, drawn on a draw list and pressed through Items: button, leaf, tick, slot, stamp,
// text that wraps. Used everywhere; nothing of Dear ImGui's stock look appears.
#pragma once

#include "imgui.h"
#include "screen/items.h"

#include <string_view>

namespace loom::screen {

enum class ButtonLook {
    Room,  // on the dark room: undo, redo
    Paper, // outlined on paper: hint
    Main   // the screen's one main action
};

bool button(Items& items,
            ImDrawList* list,
            ImFont* font,
            std::string_view name,
            std::string_view label,
            Zone zone,
            const Rect& rect,
            ButtonLook look,
            bool enabled = true);

// Text in a column; returns the height used. Never breaks a word unless it is wider than the column.
float paragraph(ImDrawList* list,
                ImFont* font,
                float size,
                ImVec2 at,
                float width,
                ImU32 colour,
                std::string_view text);
float paragraphHeight(ImFont* font, float size, float width, std::string_view text);

// A round mark: empty, done (tick) or not right (cross).
enum class Mark { Empty, Done, Wrong };
void drawMark(ImDrawList* list, ImVec2 centre, float radius, Mark mark);

// Raised panel, paper sheet, warm note; with the one soft shadow where it lies on something.
void drawPanel(ImDrawList* list, const Rect& rect, float rounding);
void drawPaperSheet(ImDrawList* list, const Rect& rect);
void drawNote(ImDrawList* list, const Rect& rect);
void drawFocusRing(ImDrawList* list, const Rect& rect, float rounding);

} // namespace loom::screen

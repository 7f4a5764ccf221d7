// SPDX-License-Identifier: MIT
// Lettering of the controls: the view's fonts at their sizes on one draw list. Make a Pen for the
// frame, then write with it. Lengths are screen pixels; px() gives them from design pixels.
#pragma once

#include "screen/art/wrap.h"
#include "screen/kit/scroll.h"
#include "screen/kit/view.h"

#include <string>
#include <string_view>
#include <vector>

namespace loom::screen {

enum class Face { Body, Bold, Title, Large };

class Pen {
public:
    Pen(const View& view, ImDrawList* onto);

    float px(float design) const { return design * unit; }

    ImFont* font(Face face) const;
    // What Dear ImGui is to draw the face at; the font's own size where that is near enough, so that
    // letters stay sharp.
    float size(Face face) const;
    // From one line to the next.
    float line(Face face) const;
    float width(Face face, std::string_view text) const;
    // The text, cut with "…" when it is wider than that.
    std::string cut(Face face, std::string_view text, float width_px, float share = 1.0f) const;
    // The same of each word by itself, for a column that is wrapped.
    std::string
    cutWords(Face face, std::string_view text, float width_px, float share = 1.0f) const;

    // The middle of the capitals stands at y.
    void left(Face face, ImVec2 at, ImU32 colour, std::string_view text) const;
    void centred(Face face, ImVec2 at, ImU32 colour, std::string_view text) const;
    void right(Face face, ImVec2 at, ImU32 colour, std::string_view text) const;
    // The same, turned anticlockwise by a right angle about the point.
    void upward(Face face, ImVec2 at, ImU32 colour, std::string_view text) const;

    // In a box: on one line where it fits, else in smaller letters on as many lines as there is
    // height for, the last cut with "…".
    void centredIn(Face face, const Rect& box, ImU32 colour, std::string_view text) const;

    // Wrapped lines from the top left corner; returns the height used.
    float
    paragraph(Face face, ImVec2 at, float width_px, ImU32 colour, std::string_view text) const;
    float paragraphHeight(Face face, float width_px, std::string_view text) const;

    ImDrawList* list;
    float unit;
    Window* window = nullptr; // what is written in scrolls in this

private:
    void write(Face face,
               float x,
               float middle_y,
               ImU32 colour,
               std::string_view text,
               float share = 1.0f) const; // of the face's size

    const Fonts& fonts;
};

using art::wrapped;

// Turns what was drawn since the list had `from` vertices about a point, clockwise.
void turnDrawn(ImDrawList* list, int from, ImVec2 about, float angle_rad);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The room, the birch board, and the marks laid over it: rings, tags, soft shadows.
#pragma once

#include "screen/art/lettering.h"
#include "screen/art/picture.h"

namespace loom::art {

// The whole window behind everything.
void drawRoom(ImDrawList* list, Box window);
// Board with grain, bevelled edge, shadow and a screw in each corner. Clip to the bench yourself.
void drawBoard(ImDrawList* list, PictureStore& pictures, Box board);
// A soft shadow under a rounded box: paper, tags, drawers. reach_px: how far it spreads.
void drawBoxShadow(
    ImDrawList* list, PictureStore& pictures, Box box, float reach_px, float alpha = 0.35f);
// Dashed ring round a terminal that will take the held end. turn_rad moves the dashes.
void drawTakesRing(ImDrawList* list, ImVec2 centre, float radius_px, float turn_rad = 0.0f);
// Ring of another shape round one that will not: a cross stroke through it, in the fault colour.
void drawRefusesRing(ImDrawList* list, ImVec2 centre, float radius_px);
// Solid ring round what is selected; double round what the keyboard is on.
void drawRing(ImDrawList* list, ImVec2 centre, float radius_px, bool focused);
void drawFrame(ImDrawList* list, Box box, float rounding_px, bool focused);

enum class TagMark { Plain, Attention, Fault };
// A small card with a bold first line and a soft second (may be empty), kept inside the bounds.
// at_px: what it speaks about; the card stands beside it. Returns the card.
Box drawTag(ImDrawList* list,
            PictureStore& pictures,
            const FontSet& fonts,
            Box bounds,
            ImVec2 at_px,
            const char* first,
            const char* second,
            TagMark mark = TagMark::Attention);

} // namespace loom::art

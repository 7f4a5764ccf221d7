// SPDX-License-Identifier: MIT
// The white sleeve with a cable's label: where it goes, and how it looks. Call placeLabels() when
// something moved, keep the spots from one frame to the next, draw each with drawLabel().
#pragma once

#include "screen/art/lettering.h"
#include "screen/art/route.h"

#include <vector>

namespace loom::art {

struct LabelSpot {
    float along = -1.0f; // share of the drawn length, 0..1; -1: not placed yet
    ImVec2 centre_px;
    Box box_px;
};

struct LabelWish {
    const Route* route = nullptr; // null: no label, the spot is left alone
    const char* text = "";
};

// Fills spots[i] for wishes[i]: as near the middle as the obstacles and the labels before it allow.
// A spot from the last call is kept while it is free, so labels do not wander.
void placeLabels(const BoardView& view,
                 const FontSet& fonts,
                 const std::vector<LabelWish>& wishes,
                 const std::vector<Box>& obstacles,
                 std::vector<LabelSpot>& spots);

enum class LabelMark { None, Attention, Fault };
void drawLabel(ImDrawList* list,
               const FontSet& fonts,
               const LabelSpot& spot,
               const char* text,
               LabelMark mark = LabelMark::None);

} // namespace loom::art

// SPDX-License-Identifier: MIT
// Where the tray's cells hang, and how each looks. Places are design pixels times the unit, x counted
// from the start of the row (it scrolls), y on the screen.
#pragma once

#include "screen/art/lettering.h"
#include "screen/art/picture.h"
#include "screen/kit/pen.h"
#include "screen/tray/cells.h"

#include <vector>

namespace loom::screen {

struct Slot {
    Cell cell;
    Rect box;            // the cut-out
    Rect target;         // what is pressed: with its caption
    bool beside = false; // the caption stands in the box, at the right (two rows)
};

// A cut-out round one slot or round a group of neighbours.
struct Frame {
    Rect box;
    bool dashed = false;
    std::string caption; // under it
    std::string badge;   // empty: none
    ImVec2 captionAt{0, 0};
};

std::vector<Slot> slotsOf(const Pen& pen, const std::vector<Cell>& cells, const Rect& tray);
std::vector<Frame> framesOf(const std::vector<Slot>& slots);
float lengthOf(const std::vector<Slot>& slots);

std::vector<Group> groupsOf(const std::vector<Cell>& cells);
// Where a group starts, and which one stands at a place of the row.
float startOf(const std::vector<Slot>& slots, Group group);
Group groupInSight(const std::vector<Slot>& slots, float at);

struct SlotPaint {
    art::PictureStore& pictures;
    const Pen& pen;
    art::FontSet fonts;
    double clock_s = 0.0;
};

void drawFrame(const SlotPaint& paint, const Frame& frame, float shift_px);
void drawSlot(
    const SlotPaint& paint, const Slot& slot, float shift_px, const Touch& touch, bool chosen);

} // namespace loom::screen

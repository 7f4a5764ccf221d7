// SPDX-License-Identifier: MIT
// The plan's drawing on the paper: zoom and pan by wheel, fingers, dragging and buttons; a touch
// takes the cable under it. Start with drawPlanCanvas().
#pragma once

#include "plan/drawing.h"
#include "screen/paper/leaf.h"
#include "screen/paper/plan_bench.h"

#include <optional>
#include <vector>

namespace loom::screen {

// How each row of the plan is to look.
struct RowLook {
    Laid laid = Laid::No;
    attempt::SheetMark mark = attempt::SheetMark::None; // as marked off by the second person
    bool missed = false;                                // marked right, but is not
};

struct PlanPicture {
    const plan::Plan& plan;
    const plan::PlanDrawing& drawing;
    std::vector<RowLook> looks; // one a row
    std::optional<std::size_t> chosen;
    std::optional<int> way;           // of the connector block, 0 first: walked round to
    bool marksAreLaid = true;         // the list ticks what is laid; else what is marked off
    const char* itemPrefix = "plan/"; // "plan/" or "sheet/": items are named by it and the label
};

// How high the drawing wants to be for its width.
float planHeight(const Pen& pen, float width_px);
// Returns the row that was touched.
std::optional<std::size_t>
drawPlanCanvas(const Leaf& leaf, const Rect& area, const PlanPicture& picture);

// The item of a row: its label, with a number for further rows of the same label: "plan/P-14",
// "plan/P-14/2".
std::string rowItem(const char* prefix, const plan::Plan& plan, std::size_t row);

} // namespace loom::screen

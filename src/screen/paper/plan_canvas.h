// SPDX-License-Identifier: MIT
// The plan's drawing on the paper: zoom and pan by wheel, fingers, dragging and buttons; a touch
// takes the cable under it. Start with drawPlanCanvas().
#pragma once

#include "screen/paper/leaf.h"
#include "screen/paper/plan_picture.h"

#include <optional>
#include <string>

namespace loom::screen {

// How high the drawing wants to be for its width.
float planHeight(const Pen& pen, float width_px);
// Returns the row that was touched.
std::optional<std::size_t>
drawPlanCanvas(const Leaf& leaf, const Rect& area, const PlanPicture& picture);

// The item of a row: its label, with a number for further rows of the same label: "plan/P-14",
// "plan/P-14/2".
std::string rowItem(const char* prefix, const plan::Plan& plan, std::size_t row);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// What the Plan and the Sheet leaf share: the plan as a drawing, a list, or both where there is
// room: drawPlanBody().
#pragma once

#include "screen/paper/plan_strip.h"

namespace loom::screen {

inline constexpr float kWalkButtons = 300.0f; // design pixels

// With the buttons over it. Returns the row that was touched.
std::optional<std::size_t>
drawPlanBody(const Leaf& leaf, const Rect& area, const PlanPicture& picture);
// A further button over them on the Sheet.
void askToHandIn(const Leaf& leaf, const plan::Plan& plan);

// "21 of 33 checked"
std::string sheetCount(const plan::Plan& plan, const lesson::Sheet& sheet);

} // namespace loom::screen

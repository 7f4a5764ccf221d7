// SPDX-License-Identifier: MIT
// Strokes and letters of a plan's drawing on a draw list: strokePlan(). What is touched is
// plan_canvas.h.
#pragma once

#include "screen/paper/plan_picture.h"

namespace loom::screen {

// From the drawing's millimetres to the screen.
struct PlanScale {
    float px_per_mm = 1.0f;
    ImVec2 origin{0, 0};

    ImVec2 px(plan::Mm at) const {
        return {origin.x + static_cast<float>(at.x) * px_per_mm,
                origin.y + static_cast<float>(at.y) * px_per_mm};
    }

    plan::Mm mm(ImVec2 at) const {
        return {(at.x - origin.x) / px_per_mm, (at.y - origin.y) / px_per_mm};
    }
};

void strokePlan(const Pen& pen, const PlanScale& scale, const PlanPicture& picture);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// What the paper remembers from frame to frame: which leaf is shown, how far it is pulled out, how
// the plan is looked at, and what was worked out from the plan and the record.
#pragma once

#include "imgui.h"
#include "lesson/sheet.h"
#include "plan/drawing.h"
#include "screen/board/board.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace loom::screen {

enum class PaperLeaf { Job, Plan, Sheet, PowerUp };

// Which part of the plan's drawing is seen.
struct PlanSight {
    double zoom = 1.0; // 1 shows all of it
    plan::Mm centre{plan::planPage_mm.x / 2, plan::planPage_mm.y / 2};
    bool dragging = false;
    ImVec2 pressedAt{0, 0};
};

// Worked out once and kept until the exercise or the record changes.
struct PlanCache {
    std::string exercise; // id and hash
    plan::PlanDrawing drawing;
    std::uint64_t revision = ~0ull;
    lesson::Sheet sheet;
    std::vector<lesson::SheetFinding> findings; // once it is handed in
};

struct PaperUi {
    std::string exercise; // whose paper it is
    PaperLeaf leaf = PaperLeaf::Job;
    bool wide = false;   // pulled out over the board, wide screen only
    float pulled = 0.0f; // 0 narrow .. 1 wide, on its way
    bool asRows = false; // the plan as a list instead of the drawing
    PlanSight sight;
    std::optional<std::size_t> row; // of the plan that is chosen; its label: FurnitureUi::planCable
    std::optional<int> walk;        // position on the connector block, 0 first
    std::string boardChoice;        // what was chosen on the bench when last looked at
    std::optional<Camera> cameraBefore; // how the board was looked at before the plan moved it
    PlanCache cache;
};

} // namespace loom::screen

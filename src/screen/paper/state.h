// SPDX-License-Identifier: MIT
// What the paper remembers from frame to frame: which leaf is shown, how far it is pulled out, how
// the plan is looked at, and what was worked out from the plan and the record.
#pragma once

#include "imgui.h"
#include "lesson/sheet.h"
#include "plan/drawing.h"
#include "screen/board/state.h"
#include "screen/kit/scroll.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace loom::screen {

enum class PaperLeaf { Job, Plan, Sheet, PowerUp };

// Which part of the plan's drawing is seen.
struct PlanSight {
    double zoom = 1.0; // 1 shows all of it
    plan::Mm centre{plan::kPlanPage_mm.x / 2, plan::kPlanPage_mm.y / 2};
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

// Forgotten when another exercise is begun.
struct PlanUi {
    std::string exercise; // whose paper it is
    PaperLeaf leaf = PaperLeaf::Job;
    bool wide = false;   // pulled out over the board, wide screen only
    float pulled = 0.0f; // 0 narrow .. 1 wide, on its way
    bool asRows = false; // the plan as a list instead of the drawing
    PlanSight sight;
    std::optional<std::size_t> row;     // of the plan that is chosen; its label: PaperUi::planCable
    std::optional<int> walk;            // position on the connector block, 0 first
    std::string boardChoice;            // what was chosen on the bench when last looked at
    std::optional<Camera> cameraBefore; // how the board was looked at before the plan moved it
    PlanCache cache;
};

struct PaperUi {
    PlanUi plan;              // which leaf, and how the plan is looked at
    bool pulledIn = false;    // tablet: over the board
    float slide = 0.0f;       // likewise: 0 away, 1 pulled in
    bool coursesOpen = false; // the leaf on which another exercise is chosen
    bool wantsSheet = false;  // the Sheet was asked for from elsewhere
    float scroll = 0.0f;
    Grip grip;
    std::string planCable; // label of the plan's chosen cable; empty: none
    std::string asking;    // what was pressed that clears the bench, until it is confirmed
    std::string leafShown; // a change of exercise or leaf brings the paper to its top
    std::string lastSaid;  // feedback and hints, to show new ones
    std::map<std::string, int> bestMarks; // of this sitting, by exercise
};

} // namespace loom::screen

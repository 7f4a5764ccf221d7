// SPDX-License-Identifier: MIT
// The plan as it is to be drawn: its drawing, and how each row stands.
#pragma once

#include "attempt/command.h"
#include "plan/drawing.h"
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

} // namespace loom::screen

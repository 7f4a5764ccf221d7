// SPDX-License-Identifier: MIT
// What the leaves of the paper are drawn with, and the leaves. paper.cpp holds the sheet they hang on.
#pragma once

#include "screen/board/wish.h"
#include "screen/kit/stack.h"
#include "screen/paper/job.h"
#include "screen/paper/state.h"

namespace loom::screen {

struct Leaf {
    const View& view;
    Items& items;
    PaperUi& ui;
    const Pen& pen;
    const Pen& inner; // for what scrolls
    const Job& job;
    Asked& out;
    const BoardUi& board;
    bool free = true; // nothing lies over the paper
    Rect boardSeen{}; // of the board, what the paper leaves uncovered or would when put away
};

// Each fills the area under the tabs, scrolling what does not fit.
void drawJobLeaf(const Leaf& leaf, const Rect& area);
void drawCourseLeaf(const Leaf& leaf, const Rect& area);
// These where the exercise has a plan.
void drawPlanLeaf(const Leaf& leaf, const Rect& area);
void drawSheetLeaf(const Leaf& leaf, const Rect& area);
void drawPowerUpLeaf(const Leaf& leaf, const Rect& area);

// Scrolls, clips and draws a column made with leaf.inner, the pen of what scrolls.
void drawColumn(const Leaf& leaf, const Rect& area, const Stack& stack);

// The one main action: check it, or go on to what comes next. prefix: "paper" or "strip".
void drawMainAction(const Leaf& leaf, const Rect& rect, const std::string& prefix);
// Its words, for the width they need.
std::string mainActionWords(const Job& job);

} // namespace loom::screen

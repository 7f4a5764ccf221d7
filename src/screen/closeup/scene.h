// SPDX-License-Identifier: MIT
// The upper part of the close-up: the terminal cut open, the end in it, the millimetre scale, the
// dial, call-outs; and what is dragged there. closeup.cpp calls drawCloseupScene().
#pragma once

#include "screen/closeup/steps.h"
#include "screen/kit/widgets.h"

namespace loom::screen {

struct CloseupScene {
    const View& view;
    Items& items;
    CloseupUi& ui;
    Tool tool;
    const Pen& pen;
    const EndAtHand& at;
    Rect area;
    Asked& out;
};

// Asks for the step with the value under the hand, and empties the hand.
void applyStep(CloseupUi& ui, const EndAtHand& at, MakingStep step, double value, Asked& out);

void drawCloseupScene(const CloseupScene& scene);

} // namespace loom::screen

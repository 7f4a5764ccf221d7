// SPDX-License-Identifier: MIT
// The strip under the plan's drawing: the chosen cable's row, or where one is on the walk round the
// connector block; and the rows of the plan as a list.
#pragma once

#include "screen/kit/stack.h"
#include "screen/paper/plan_canvas.h"

#include <string>

namespace loom::screen {

// What is said of a row: where it goes, how it is made, how far it is.
struct RowWords {
    std::string title, make, last;
};

RowWords rowWords(const plan::Plan& plan, std::size_t row, Laid laid);

// Words in a warm box; buttons go to its right where there is room for them, else under them.
struct StripBox {
    Rect buttons; // where they go
};

float stripHeight(
    const Leaf& leaf, float width, const RowWords& said, float buttonsWidth, int buttonRows);
StripBox drawStrip(const Leaf& leaf,
                   const Rect& at,
                   const char* item,
                   const RowWords& said,
                   float buttonsWidth,
                   int buttonRows);

// One pressable line a row; returns the pressed one through `touched`.
void addRows(const Leaf& leaf,
             Stack& stack,
             const PlanPicture& picture,
             std::optional<std::size_t>& touched);

} // namespace loom::screen

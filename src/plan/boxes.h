// SPDX-License-Identifier: MIT
// Where the parts of a plan stand on the grid of its drawing, and where each cable end leaves its
// part. Start with placeParts(). Used by drawing.cpp only.
#pragma once

#include "plan/drawing.h"
#include "plan/lanes.h"

#include <optional>
#include <vector>

namespace loom::plan {

// The grid of lanes inside the frame; node 0 and the last are the frame itself.
inline constexpr double kPitch_mm = 4.0;
inline constexpr int kGridColumns = 69, kGridRows = 45;
inline constexpr Mm kGridOrigin_mm{12.5, 22.0};

inline Mm mmOf(Node at) {
    return {kGridOrigin_mm.x + at.x * kPitch_mm, kGridOrigin_mm.y + at.y * kPitch_mm};
}

// One end of a cable: which row of the plan, 0 its from, 1 its to.
struct PlanEnd {
    std::size_t cable = 0;
    int end = 0;
};

struct PlacedTerminal {
    std::size_t terminal = 0; // of the catalogue
    Side side = Side::Top;
    int first = 0, width = 1; // nodes along the side, from the part's corner
    std::vector<PlanEnd> ends;
};

// x, y: the node at the top left corner; the box is `across` by `down` stretches. A connector
// block has a little more at both sides, and its ref at the left.
struct PlacedPart {
    std::size_t part = 0;
    int x = 0, y = 0, across = 5, down = 4;
    bool block = false;
    std::vector<PlacedTerminal> terminals;
};

std::vector<PlacedPart> placeParts(const Plan& plan);

MmBox boxOf(const PlacedPart& part);
// Where the end leaves; nothing when its part or terminal is not on the plan.
std::optional<Terminus> terminusOf(const std::vector<PlacedPart>& parts, PlanEnd end);
// The node of the i-th end along the terminal.
Terminus terminusOf(const PlacedPart& part, const PlacedTerminal& terminal, std::size_t i);

} // namespace loom::plan

// SPDX-License-Identifier: MIT
#include "screen/board/tie_art.h"

#include "screen/art/palette.h"

#include <algorithm>

namespace loom::art {
namespace {

// A bar across the line of the cable, from one side to the other.
struct Across {
    ImVec2 middle, side; // side: unit vector across the cable

    ImVec2 at(float out_px) const {
        return {middle.x + side.x * out_px, middle.y + side.y * out_px};
    }
};

} // namespace

void drawTie(ImDrawList* list,
             const BoardView& view,
             const RoutePoint& at,
             float cableWidth_m,
             bool toFrame) {
    const float half = std::max(3.0f, cableWidth_m * 0.5f * view.px_per_m);
    const float wide = std::max(3.0f, 0.006f * view.px_per_m);
    const Across across{view.toScreen(at.at_m), {-at.towards.y, at.towards.x}};
    if (toFrame) {
        const float out = half + wide * 1.4f;
        list->AddLine(across.at(-out), across.at(out), tone::kTubeEdge, wide * 2.2f);
        list->AddLine(
            across.at(-out + 1.0f), across.at(out - 1.0f), tone::kSteel, wide * 2.2f - 2.0f);
    }
    list->AddLine(across.at(-half - 1.5f), across.at(half + 1.5f), tone::kTubeEdge, wide + 2.0f);
    list->AddLine(across.at(-half - 0.5f), across.at(half + 0.5f), tone::kPaper, wide);
    list->AddCircleFilled(across.at(half + wide * 0.4f), wide * 0.8f, tone::kTubeEdge);
    list->AddCircleFilled(across.at(half + wide * 0.4f), wide * 0.8f - 1.0f, tone::kPaper);
}

} // namespace loom::art

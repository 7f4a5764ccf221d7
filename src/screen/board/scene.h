// SPDX-License-Identifier: MIT
// What the board shows this frame: the bench with what is in the hand put where the hand is, and
// the way from metres to pixels. Made by showScene(), drawn by drawScene() of draw.h.
#pragma once

#include "screen/art/part_art.h"
#include "screen/board/state.h"

namespace loom::screen {

struct Scene {
    const View* view = nullptr;
    bench::Bench bench; // as shown: a held part or end lies under the hand
    art::BoardView board;
    art::FontSet fonts;
    bench::CableId heldCable; // drawn over everything
    bench::PartId heldPart;
    bool ghostPart = false; // the held part is not on the bench yet
    bool quiet = false;     // nothing is said of what the pointer rests on
};

art::FontSet fontSet(const View& view);

Scene showScene(const View& view, BoardUi& ui);
art::PartLook lookOf(const Scene& scene, const bench::Part& part);

inline ImVec2 px(const Scene& scene, bench::Point at) {
    return scene.board.toScreen({static_cast<float>(at.x_m), static_cast<float>(at.y_m)});
}

inline bench::Point metres(const Scene& scene, ImVec2 at_px) {
    const ImVec2 m = scene.board.toBoard(at_px);
    return {m.x, m.y};
}

} // namespace loom::screen

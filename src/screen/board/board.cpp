// SPDX-License-Identifier: MIT
#include "screen/board/board.h"

#include "screen/art/board_art.h"
#include "screen/board/camera.h"
#include "screen/board/draw.h"
#include "screen/board/hand.h"
#include "screen/board/keys.h"

namespace loom::screen {

bool drawBoard(const View& view,
               Items& items,
               BoardUi& ui,
               bool quiet,
               art::PictureStore& pictures,
               ImDrawList* list,
               Asked& out) {
    moveCamera(view, items, ui);
    {
        const Scene before = showScene(view, ui);
        handlePointer(before, view, items, ui, out);
        handleKeys(before, view, items, ui, out);
    }
    Scene scene = showScene(view, ui);
    scene.quiet = quiet;
    ui.scene.carried.reset();
    if (scene.heldPart || scene.heldCable)
        ui.scene.carried = Carried{scene.bench, {scene.heldPart, scene.heldCable}};
    art::drawBoard(list, pictures, {view.layout.board.min, view.layout.board.max});
    const Rect w = boardWindow(view);
    list->PushClipRect(w.min, w.max, true);
    const bool moves = drawScene(scene, ui, items, pictures, list);
    list->PopClipRect();
    return moves || holdsSomething(ui);
}

} // namespace loom::screen

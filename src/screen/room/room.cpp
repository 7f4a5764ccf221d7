// SPDX-License-Identifier: MIT
#include "screen/room/room.h"

#include "screen/art/board_art.h"
#include "screen/board/camera.h"
#include "screen/paper/paper.h"
#include "screen/room/fixtures.h"
#include "screen/room/overlays.h"
#include "screen/room/wishes.h"

namespace loom::screen {

namespace {

bool pressed(ImGuiKey key, bool repeat = false) {
    return ImGui::IsKeyPressed(key, repeat);
}

void undoKeys(const View& view, Asked& out) {
    const ImGuiIO& io = ImGui::GetIO();
    if (!io.KeyCtrl && !io.KeySuper) return;
    const bool redo = pressed(ImGuiKey_Y, true) || (io.KeyShift && pressed(ImGuiKey_Z, true));
    if (redo && view.session->attempt().canRedo()) out.push_back(Do{attempt::Redo{}});
    if (!redo && pressed(ImGuiKey_Z, true)) out.push_back(UndoStep{});
}

void zoomKeys(const Camera& camera, Asked& out) {
    if (ImGui::GetIO().KeyCtrl) return;
    if (pressed(ImGuiKey_Equal, true) || pressed(ImGuiKey_KeypadAdd, true))
        out.push_back(LookAt{zoomed(camera, 1.25)});
    if (pressed(ImGuiKey_Minus, true) || pressed(ImGuiKey_KeypadSubtract, true))
        out.push_back(LookAt{zoomed(camera, 0.8)});
    if (pressed(ImGuiKey_0)) out.push_back(LookAt{});
}

// Escape always lets go: of the hand first, then of what is open, the newest first.
void escapeKey(RoomUi& ui) {
    if (!pressed(ImGuiKey_Escape)) return;
    if (const Overlay* front = frontOverlay(ui)) front->close(ui);
    ui.board.notice.clear();
}

// Another document is on the bench: nothing of the old one stays in the hand or on the card.
void startAfresh(RoomUi& ui) {
    std::string notice = std::move(ui.board.notice);
    ui.board = {};
    ui.board.notice = std::move(notice);
    ui.meter = {};
    ui.closeup = {};
    ui.items.letGo();
}

InYard inYard(const BoardUi& ui) {
    if (const auto* cable = std::get_if<CableInHand>(&ui.hand)) {
        const ImVec2 to = ui.scene.board.toBoard(ui.hand_px);
        return Pull{cable->cable, cable->at_m, {to.x, to.y}};
    }
    return ui.scene.carried ? InYard(*ui.scene.carried) : InYard();
}

bool gripsMove(const RoomUi& ui) {
    return ui.tray.grip.target_px >= 0.0f || ui.events.grip.target_px >= 0.0f ||
           ui.help.grip.target_px >= 0.0f;
}

} // namespace

Shown drawRoom(const View& view, RoomUi& ui, art::PictureStore& pictures, Intents& out) {
    ImDrawList* list = ImGui::GetBackgroundDrawList();
    if (ui.opened != view.opened) startAfresh(ui);
    ui.opened = view.opened;
    ui.items.begin();
    ui.items.keepClearOf(readItems());
    art::drawRoom(list, {{0, 0}, ImGui::GetIO().DisplaySize});
    if (view.layout.form == Form::TooSmall) {
        drawTooSmall(view, list);
        ui.items.end();
        return {};
    }
    Asked asked;
    undoKeys(view, asked);
    zoomKeys(ui.board.camera, asked);
    grant(view, ui, asked, out);
    escapeKey(ui);
    View whole = view;
    whole.over = ui.help.open        ? Over::Help
                 : ui.paper.pulledIn ? Over::Paper
                                     : Over::Nothing;
    View still = whole; // the learner can ask for stillness as the system can
    still.reducedMotion = view.reducedMotion || ui.still;
    still.layout = besidePaper(view.layout, ui.paper);
    if (onPaper(view, ui.paper, view.pinch.centre)) still.pinch = {};
    Painting painting{whole, still, ui, pictures, list, {}};
    drawOverlays(painting, out);
    ui.items.end();
    const bool fading = pictures.endFrame();
    return {fading || painting.moves || paperMoves(ui.paper) || gripsMove(ui),
            ui.meter.sounding,
            inYard(ui.board)};
}

bool handsFree(const RoomUi& ui) {
    return frontOverlay(ui) == nullptr;
}

void showNotice(RoomUi& ui, std::string sentence) {
    ui.board.notice = std::move(sentence);
}

} // namespace loom::screen

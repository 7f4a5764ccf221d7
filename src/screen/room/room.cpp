// SPDX-License-Identifier: MIT
#include "screen/room/room.h"

#include "screen/art/board_art.h"

namespace loom::screen {

namespace {

bool pressed(ImGuiKey key, bool repeat = false) {
    return ImGui::IsKeyPressed(key, repeat);
}

void undoKeys(const View& view, FurnitureUi& ui, Intents& out) {
    const ImGuiIO& io = ImGui::GetIO();
    if (!io.KeyCtrl && !io.KeySuper) return;
    const attempt::Attempt& attempt = view.session->attempt();
    const bool redo = pressed(ImGuiKey_Y, true) || (io.KeyShift && pressed(ImGuiKey_Z, true));
    if (redo && attempt.canRedo()) out.push_back(Do{attempt::Redo{}});
    if (!redo && pressed(ImGuiKey_Z, true)) askUndo(view, ui, out);
}

void zoomKeys(RoomUi& ui) {
    if (ImGui::GetIO().KeyCtrl) return;
    if (pressed(ImGuiKey_Equal, true) || pressed(ImGuiKey_KeypadAdd, true)) zoomBy(ui.bench, 1.25);
    if (pressed(ImGuiKey_Minus, true) || pressed(ImGuiKey_KeypadSubtract, true))
        zoomBy(ui.bench, 0.8);
    if (pressed(ImGuiKey_0)) fitBoard(ui.bench);
}

// Escape always lets go: of the hand first, then of what is open, the newest first.
void escapeKey(RoomUi& ui) {
    if (!pressed(ImGuiKey_Escape)) return;
    FurnitureUi& f = ui.furniture;
    if (ui.bench.closeup.hand)
        ui.bench.closeup.hand.reset();
    else if (holdsSomething(ui.bench))
        letGo(ui.bench);
    else if (f.helpOpen)
        f.helpOpen = false;
    else if (f.coursesOpen)
        f.coursesOpen = false;
    else if (f.traceOpen)
        f.traceOpen = false;
    else if (f.eventsOpen)
        f.eventsOpen = false;
    else if (f.paperOut)
        f.paperOut = false;
    else if (f.paper.wide)
        f.paper.wide = false;
    else if (ui.bench.closeup.open)
        closeCloseup(ui.bench.closeup);
    else if (!std::holds_alternative<std::monostate>(ui.bench.chosen))
        ui.bench.chosen = {};
    else
        ui.bench.tool = Tool::BareHand;
    ui.bench.notice.clear();
}

} // namespace

bool drawRoom(const View& view, RoomUi& ui, art::PictureStore& pictures, Intents& out) {
    ImDrawList* list = ImGui::GetBackgroundDrawList();
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    ui.items.begin();
    art::drawRoom(list, {{0, 0}, size});
    if (view.layout.form == Form::TooSmall) {
        drawTooSmall(view, list);
        ui.items.end();
        return false;
    }
    undoKeys(view, ui.furniture, out);
    zoomKeys(ui);
    escapeKey(ui);
    View still = view; // the learner can ask for stillness as the system can
    still.reducedMotion = view.reducedMotion || ui.furniture.motionPaused;
    still.layout = besidePaper(view.layout, ui.furniture);
    if (onPaper(view, ui.furniture, view.pinch.centre)) still.pinch = {};
    bool moves = drawBench(still, ui.items, ui.bench, pictures, list, out);
    moves = drawMeter(still, ui.items, ui.bench, pictures, list, out) || moves;
    drawViewControls(still, ui.items, ui.furniture, ui.bench, list);
    drawTrace(still, ui.items, ui.trace, ui.furniture, list, out);
    if (!paperTells(ui.furniture)) drawCard(still, ui.items, ui.bench, list, out);
    drawHeader(view, ui.items, ui.furniture, list, out);
    drawEvents(still, ui.items, ui.furniture, ui.bench, list);
    drawTray(still, ui.items, ui.furniture, ui.bench, pictures, list, out);
    drawRail(view, ui.items, ui.furniture, ui.bench, pictures, list, out);
    View paperView = view; // two fingers on it are for it
    paperView.layout = still.layout;
    const auto paper = [&] { drawPaper(paperView, ui.items, ui.furniture, ui.bench, list, out); };
    // Beside the board it may be covered by the close-up; pulled in over the board it lies on top.
    const bool beside = view.layout.form == Form::Wide;
    if (beside) paper();
    const bool makes = drawCloseup(still, ui.items, ui.bench, pictures, list, out);
    if (!beside) paper();
    if (ui.furniture.helpOpen) drawHelp(view, ui.items, ui.furniture, list);
    ui.items.end();
    return pictures.endFrame() || moves || makes || furnitureMoves(ui.furniture);
}

void showNotice(RoomUi& ui, std::string sentence) {
    ui.bench.notice = std::move(sentence);
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
#include "screen/board/board.h"

#include "screen/art/board_art.h"
#include "screen/board/hand.h"
#include "screen/board/scene.h"

#include <algorithm>

namespace loom::screen {

namespace {

constexpr double leastZoom = 1.0, greatestZoom = 6.0;

art::Box boxOf(const Rect& r) {
    return {r.min, r.max};
}

// The part of the board rectangle that shows the bench: inside the bevelled edge.
Rect window(const View& view) {
    return shrunk(view.layout.board, 2.0f);
}

double fittingScale(const View& view, const bench::Bench& bench) {
    const Rect w = window(view);
    return std::min(w.width() / bench.board_m.x_m, w.height() / bench.board_m.y_m);
}

// The whole board stays reachable, nothing beyond it is shown.
void keepOnBoard(const View& view, const bench::Bench& bench, Camera& camera) {
    camera.zoom = std::clamp(camera.zoom, leastZoom, greatestZoom);
    const double scale = fittingScale(view, bench) * camera.zoom;
    const Rect w = window(view);
    const auto keep = [&](double& centre, double size_m, double seen_px) {
        const double half = seen_px / scale * 0.5;
        centre = half * 2.0 >= size_m ? size_m * 0.5 : std::clamp(centre, half, size_m - half);
    };
    keep(camera.centreX_m, bench.board_m.x_m, w.width());
    keep(camera.centreY_m, bench.board_m.y_m, w.height());
}

void zoomAbout(const View& view, BenchUi& ui, ImVec2 at_px, double factor) {
    const art::BoardView before = boardView(view, ui);
    const ImVec2 under = before.toBoard(at_px);
    ui.camera.zoom = std::clamp(ui.camera.zoom * factor, leastZoom, greatestZoom);
    const art::BoardView after = boardView(view, ui);
    const ImVec2 now = after.toBoard(at_px);
    ui.camera.centreX_m += under.x - now.x;
    ui.camera.centreY_m += under.y - now.y;
}

void pan(const View& view, BenchUi& ui, ImVec2 by_px) {
    const float scale = boardView(view, ui).px_per_m;
    ui.camera.centreX_m -= by_px.x / scale;
    ui.camera.centreY_m -= by_px.y / scale;
}

void moveCamera(const View& view, const Items& items, BenchUi& ui) {
    const bench::Bench& bench = view.session->attempt().bench();
    if (!ui.camera.placed) {
        ui.camera = {1.0, bench.board_m.x_m * 0.5, bench.board_m.y_m * 0.5, true};
    }
    const ImGuiIO& io = ImGui::GetIO();
    const bool free = view.layout.board.contains(io.MousePos) && items.over(io.MousePos) == nullptr;
    if (io.MouseWheel != 0.0f && free)
        zoomAbout(view, ui, io.MousePos, io.MouseWheel > 0.0f ? 1.15 : 1.0 / 1.15);
    if (view.pinch.active) {
        zoomAbout(view, ui, view.pinch.centre, view.pinch.scale);
        pan(view, ui, view.pinch.moved);
    }
    const bool dragsBoard = ui.press.on == Press::On::Board && io.MouseDown[0];
    if (dragsBoard || io.MouseDown[2]) pan(view, ui, io.MouseDelta);
    if (io.KeyCtrl) {
        const float step = 60.0f * view.layout.unit;
        if (ImGui::IsKeyPressed(ImGuiKey_LeftArrow)) pan(view, ui, {step, 0});
        if (ImGui::IsKeyPressed(ImGuiKey_RightArrow)) pan(view, ui, {-step, 0});
        if (ImGui::IsKeyPressed(ImGuiKey_UpArrow)) pan(view, ui, {0, step});
        if (ImGui::IsKeyPressed(ImGuiKey_DownArrow)) pan(view, ui, {0, -step});
    }
    keepOnBoard(view, bench, ui.camera);
}

} // namespace

art::BoardView boardView(const View& view, const BenchUi& ui) {
    const bench::Bench& bench = view.session->attempt().bench();
    art::BoardView out;
    out.px_per_m = static_cast<float>(fittingScale(view, bench) * ui.camera.zoom);
    const ImVec2 middle = view.layout.board.centre();
    out.origin_px = {middle.x - static_cast<float>(ui.camera.centreX_m) * out.px_per_m,
                     middle.y - static_cast<float>(ui.camera.centreY_m) * out.px_per_m};
    return out;
}

void zoomBy(BenchUi& ui, double factor) {
    ui.camera.zoom *= factor;
}

void fitBoard(BenchUi& ui) {
    ui.camera.placed = false;
}

void pickUp(BenchUi& ui, Hand hand, bool dragged) {
    ui.hand = std::move(hand);
    ui.carried = dragged;
    ui.byTap = !dragged;
    ui.chosen = {};
    ui.notice.clear();
    ui.press = {};
    ui.scene.takersKey = 0;
}

void letGo(BenchUi& ui) {
    ui.hand = std::monostate{};
    ui.carried = false;
    ui.press = {};
}

bool holdsSomething(const BenchUi& ui) {
    return !std::holds_alternative<std::monostate>(ui.hand);
}

bool drawBench(const View& view,
               Items& items,
               BenchUi& ui,
               art::PictureStore& pictures,
               ImDrawList* list,
               Intents& out) {
    moveCamera(view, items, ui);
    {
        const Scene before = showScene(view, ui);
        handlePointer(before, view, items, ui, out);
        handleKeys(before, view, items, ui, out);
    }
    const Scene scene = showScene(view, ui);
    ui.scene.carried.reset();
    if (scene.heldPart || scene.heldCable)
        ui.scene.carried = Carried{scene.bench, {scene.heldPart, scene.heldCable}};
    art::drawBoard(list, pictures, boxOf(view.layout.board));
    const Rect w = window(view);
    list->PushClipRect(w.min, w.max, true);
    const bool moves = drawScene(scene, ui, items, pictures, list);
    list->PopClipRect();
    return moves || holdsSomething(ui);
}

} // namespace loom::screen

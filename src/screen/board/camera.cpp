// SPDX-License-Identifier: MIT
#include "screen/board/camera.h"

#include <algorithm>

namespace loom::screen {

namespace {

constexpr double kLeastZoom = 1.0, kGreatestZoom = 6.0;

double fittingScale(const View& view, const bench::Bench& bench) {
    const Rect w = boardWindow(view);
    return std::min(w.width() / bench.board_m.x_m, w.height() / bench.board_m.y_m);
}

// The whole board stays reachable, nothing beyond it is shown.
void keepOnBoard(const View& view, const bench::Bench& bench, Camera& camera) {
    camera.zoom = std::clamp(camera.zoom, kLeastZoom, kGreatestZoom);
    const double scale = fittingScale(view, bench) * camera.zoom;
    const Rect w = boardWindow(view);
    const auto keep = [&](double& centre, double size_m, double seen_px) {
        const double half = seen_px / scale * 0.5;
        centre = half * 2.0 >= size_m ? size_m * 0.5 : std::clamp(centre, half, size_m - half);
    };
    keep(camera.centreX_m, bench.board_m.x_m, w.width());
    keep(camera.centreY_m, bench.board_m.y_m, w.height());
}

void zoomAbout(const View& view, BoardUi& ui, ImVec2 at_px, double factor) {
    const art::BoardView before = boardView(view, ui);
    const ImVec2 under = before.toBoard(at_px);
    ui.camera.zoom = std::clamp(ui.camera.zoom * factor, kLeastZoom, kGreatestZoom);
    const art::BoardView after = boardView(view, ui);
    const ImVec2 now = after.toBoard(at_px);
    ui.camera.centreX_m += under.x - now.x;
    ui.camera.centreY_m += under.y - now.y;
}

void pan(const View& view, BoardUi& ui, ImVec2 by_px) {
    const float scale = boardView(view, ui).px_per_m;
    ui.camera.centreX_m -= by_px.x / scale;
    ui.camera.centreY_m -= by_px.y / scale;
}

} // namespace

Rect boardWindow(const View& view) {
    return shrunk(view.layout.board, 2.0f);
}

art::BoardView boardView(const View& view, const BoardUi& ui) {
    const bench::Bench& bench = view.session->attempt().bench();
    art::BoardView out;
    out.px_per_m = static_cast<float>(fittingScale(view, bench) * ui.camera.zoom);
    const ImVec2 middle = view.layout.board.centre();
    out.origin_px = {middle.x - static_cast<float>(ui.camera.centreX_m) * out.px_per_m,
                     middle.y - static_cast<float>(ui.camera.centreY_m) * out.px_per_m};
    return out;
}

void moveCamera(const View& view, const Items& items, BoardUi& ui) {
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

} // namespace loom::screen

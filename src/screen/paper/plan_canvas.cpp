// SPDX-License-Identifier: MIT
#include "screen/paper/plan_canvas.h"

#include "bench/catalogue.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/paper/plan_stroke.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr double kGreatestZoom = 6.0;
constexpr float kBand_px = 38.0f; // for buttons; the frame has some room over it, too
constexpr float kDragAfter_px = 8.0f, kReach_px = 14.0f;

float fitScale(const Pen& pen, const Rect& area) {
    const float across = area.width() / static_cast<float>(plan::kPlanField_mm.width());
    const float down =
        (area.height() - pen.px(kBand_px)) / static_cast<float>(plan::kPlanField_mm.height());
    return std::max(0.1f, std::min(across, down));
}

// Which millimetres are seen, for the sight.
PlanScale scaleOf(const Pen& pen, const Rect& area, PlanSight& sight) {
    sight.zoom = std::clamp(sight.zoom, 1.0, kGreatestZoom);
    PlanScale out;
    out.px_per_mm = fitScale(pen, area) * static_cast<float>(sight.zoom);
    const Rect shown{{area.min.x, area.min.y + pen.px(kBand_px)}, area.max};
    const auto keep = [&](double& centre, double from, double to, double seen_px) {
        const double half = seen_px / out.px_per_mm / 2;
        centre =
            2 * half >= to - from ? (from + to) / 2 : std::clamp(centre, from + half, to - half);
    };
    keep(sight.centre.x, plan::kPlanField_mm.min.x, plan::kPlanField_mm.max.x, shown.width());
    keep(sight.centre.y, plan::kPlanField_mm.min.y, plan::kPlanField_mm.max.y, shown.height());
    out.origin = {shown.centre().x - static_cast<float>(sight.centre.x) * out.px_per_mm,
                  shown.centre().y - static_cast<float>(sight.centre.y) * out.px_per_mm};
    return out;
}

void zoomAbout(const Pen& pen, const Rect& area, PlanSight& sight, ImVec2 at, double factor) {
    const plan::Mm before = scaleOf(pen, area, sight).mm(at);
    sight.zoom *= factor;
    const plan::Mm after = scaleOf(pen, area, sight).mm(at);
    sight.centre.x += before.x - after.x;
    sight.centre.y += before.y - after.y;
}

void moveSight(const Leaf& leaf, const Rect& area, PlanSight& sight) {
    const ImGuiIO& io = ImGui::GetIO();
    const Pen& pen = leaf.pen;
    if (!leaf.free) return;
    if (io.MouseWheel != 0.0f && area.contains(io.MousePos))
        zoomAbout(pen, area, sight, io.MousePos, io.MouseWheel > 0.0f ? 1.15 : 1.0 / 1.15);
    const Pinch& pinch = leaf.view.pinch;
    if (!pinch.active || !area.contains(pinch.centre)) return;
    zoomAbout(pen, area, sight, pinch.centre, pinch.scale);
    const float scale = scaleOf(pen, area, sight).px_per_mm;
    sight.centre.x -= pinch.moved.x / scale;
    sight.centre.y -= pinch.moved.y / scale;
    leaf.items.letGo();
}

// A press that moves becomes a drag, which touches nothing.
void dragSight(const Leaf& leaf, const Rect& area, PlanSight& sight) {
    const ImGuiIO& io = ImGui::GetIO();
    if (!leaf.free || leaf.view.pinch.active) return;
    if (io.MouseClicked[0]) {
        sight.pressedAt = io.MousePos;
        sight.dragging = false;
    }
    if (!io.MouseDown[0] || !area.contains(sight.pressedAt)) return;
    const float moved =
        std::fabs(io.MousePos.x - sight.pressedAt.x) + std::fabs(io.MousePos.y - sight.pressedAt.y);
    if (!sight.dragging && moved > leaf.pen.px(kDragAfter_px)) {
        sight.dragging = true;
        leaf.items.letGo();
    }
    if (!sight.dragging) return;
    const float scale = scaleOf(leaf.pen, area, sight).px_per_mm;
    sight.centre.x -= io.MouseDelta.x / scale;
    sight.centre.y -= io.MouseDelta.y / scale;
}

void drawZoomButtons(const Leaf& leaf, const Rect& area, PlanSight& sight) {
    const Pen& pen = leaf.pen;
    const float side = pen.px(44.0f);

    struct Zoom {
        const char *name, *said, *shown;
        double factor;
    };

    float x = area.max.x - 3.0f * side;
    for (const Zoom& zoom : {Zoom{"paper/closer", "plan/closer", "+", 1.3},
                             Zoom{"paper/further", "plan/further", "\u2212", 1.0 / 1.3},
                             Zoom{"paper/whole", "plan/whole", "", 0.0}}) {
        const Rect at = shrunk(rectAt(x, area.min.y, side, side), pen.px(2.0f));
        x += side;
        pen.list->AddRectFilled(at.min, at.max, tone::kPaper, pen.px(8.0f));
        const Rect whole{{at.min.x - pen.px(2.0f), at.min.y - pen.px(2.0f)},
                         {at.max.x + pen.px(2.0f), at.max.y + pen.px(2.0f)}};
        const Touch touch =
            row(pen, leaf.items, zoom.name, words(zoom.said), Zone::Paper, whole, false);
        pen.list->AddRect(at.min, at.max, tone::kInkSoft, pen.px(8.0f), 0, 1.2f);
        if (zoom.factor > 0.0) {
            pen.centred(Face::Title, at.centre(), tone::kInk, zoom.shown);
        } else {
            const float w = pen.px(9.0f), h = pen.px(6.5f);
            const ImVec2 c = at.centre();
            pen.list->AddRect(
                {c.x - w, c.y - h}, {c.x + w, c.y + h}, tone::kInk, pen.px(2.0f), 0, pen.px(2.0f));
        }
        if (!touch.clicked) continue;
        if (zoom.factor > 0.0)
            zoomAbout(pen, area, sight, area.centre(), zoom.factor);
        else
            sight = {};
    }
}

Rect rectOf(const PlanScale& scale, const plan::MmBox& box) {
    return {scale.px(box.min), scale.px(box.max)};
}

// Labels are items of their own, for keys and screen readers.
std::optional<std::size_t> pressLabels(const Leaf& leaf,
                                       const Rect& area,
                                       const PlanScale& scale,
                                       const PlanPicture& picture) {
    std::optional<std::size_t> out;
    for (const plan::DrawnCable& cable : picture.drawing.cables) {
        const Rect at = seen(area, rectOf(scale, cable.label));
        const Touch touch = leaf.items.add(rowItem(picture.itemPrefix, picture.plan, cable.cable),
                                           spokenRow(picture.plan,
                                                     picture.plan.cables[cable.cable],
                                                     picture.looks[cable.cable].laid),
                                           Zone::Paper,
                                           at);
        if (touch.clicked) out = cable.cable;
        if (touch.focused) drawFocusRing(leaf.pen.list, at, leaf.pen.px(4.0f));
    }
    return out;
}

} // namespace

std::string rowItem(const char* prefix, const plan::Plan& plan, std::size_t row) {
    int before = 0;
    for (std::size_t i = 0; i < row; ++i)
        if (plan.cables[i].label == plan.cables[row].label) ++before;
    std::string out = prefix + plan.cables[row].label;
    if (before > 0) out += "/" + std::to_string(before + 1);
    return out;
}

float planHeight(const Pen& pen, float width_px) {
    return width_px *
               static_cast<float>(plan::kPlanField_mm.height() / plan::kPlanField_mm.width()) +
           pen.px(kBand_px);
}

std::optional<std::size_t>
drawPlanCanvas(const Leaf& leaf, const Rect& area, const PlanPicture& picture) {
    const Pen& pen = leaf.pen;
    PlanSight& sight = leaf.ui.plan.sight;
    moveSight(leaf, area, sight);
    dragSight(leaf, area, sight);
    const PlanScale scale = scaleOf(pen, area, sight);
    std::optional<std::size_t> touched;
    const Touch touch = leaf.items.add("paper/plan", words("plan/drawing"), Zone::Paper, area);
    if (touch.focused) drawFocusRing(pen.list, shrunk(area, 2.0f), pen.px(6.0f));
    if (touch.clicked && !sight.dragging && area.contains(ImGui::GetIO().MousePos))
        touched = plan::cableAt(picture.drawing,
                                scale.mm(ImGui::GetIO().MousePos),
                                pen.px(kReach_px) / scale.px_per_mm);
    pen.list->PushClipRect(area.min, area.max, true);
    strokePlan(pen, scale, picture);
    const auto labelled = pressLabels(leaf, area, scale, picture);
    pen.list->PopClipRect();
    drawZoomButtons(leaf, area, sight);
    return labelled ? labelled : touched;
}

} // namespace loom::screen

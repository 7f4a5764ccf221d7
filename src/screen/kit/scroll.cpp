// SPDX-License-Identifier: MIT
#include "screen/kit/scroll.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr float kDragAfter_px = 8.0f;
constexpr float kWheelStep_px = 60.0f;
constexpr float kJumpTime_s = 0.05f; // nearly there after three of these

float along(Axis axis, ImVec2 p) {
    return axis == Axis::Down ? p.y : p.x;
}

float lengthOf(Axis axis, const Rect& area) {
    return axis == Axis::Down ? area.height() : area.width();
}

void dragged(Items& items, const Rect& area, Axis axis, bool free, float& at_px, Grip& grip) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.MouseClicked[0] && free && area.contains(io.MousePos))
        grip = {true, false, along(axis, io.MousePos), at_px, -1.0f, grip.lastFocus};
    if (!io.MouseDown[0]) grip.pressed = grip.dragging = false;
    if (!grip.pressed) return;
    const float moved = along(axis, io.MousePos) - grip.from_px;
    const Axis other = axis == Axis::Down ? Axis::Across : Axis::Down;
    const float aside = along(other, io.MousePos) - along(other, io.MouseClickedPos[0]);
    if (!grip.dragging && std::fabs(moved) > kDragAfter_px &&
        std::fabs(moved) > 1.5f * std::fabs(aside)) {
        grip.dragging = true;
        items.letGo();
    }
    if (grip.dragging) at_px = grip.atThen_px - moved;
}

void wheeled(const Rect& area, Axis axis, bool free, float& at_px, Grip& grip) {
    const ImGuiIO& io = ImGui::GetIO();
    if (!free || !area.contains(io.MousePos)) return;
    float turned = io.MouseWheel;
    if (axis == Axis::Across && io.MouseWheelH != 0.0f) turned = io.MouseWheelH;
    if (turned == 0.0f) return;
    at_px -= turned * kWheelStep_px;
    grip.target_px = -1.0f;
}

void jumped(float most_px, float& at_px, Grip& grip) {
    if (grip.target_px < 0.0f) return;
    const float goal = std::clamp(grip.target_px, 0.0f, most_px);
    const float share = 1.0f - std::exp(-ImGui::GetIO().DeltaTime / kJumpTime_s);
    at_px += (goal - at_px) * share;
    if (std::fabs(goal - at_px) > 0.5f) return;
    at_px = goal;
    grip.target_px = -1.0f;
}

} // namespace

void scrollBy(Items& items,
              const Rect& area,
              Axis axis,
              float content_px,
              bool free,
              float& at_px,
              Grip& grip) {
    const float most = std::max(0.0f, content_px - lengthOf(axis, area));
    if (most > 0.0f) {
        dragged(items, area, axis, free, at_px, grip);
        wheeled(area, axis, free, at_px, grip);
    } else {
        grip.pressed = grip.dragging = false;
    }
    jumped(most, at_px, grip);
    at_px = std::clamp(at_px, 0.0f, most);
}

void followFocus(const Window& window, Axis axis, float margin_px, float at_px, Grip& grip) {
    const bool came = window.focusInside && grip.lastFocus != window.focusedName;
    grip.lastFocus = window.focusInside ? window.focusedName : std::string();
    if (!came) return;
    const float before = along(axis, window.focused.min) - along(axis, window.area.min) - margin_px;
    const float after = along(axis, window.focused.max) - along(axis, window.area.max) + margin_px;
    if (before < 0.0f)
        grip.target_px = std::max(0.0f, at_px + before);
    else if (after > 0.0f)
        grip.target_px = at_px + std::min(after, before);
}

void pageByKeys(const Rect& area, float at_px, Grip& grip) {
    const float page = 0.85f * area.height();
    if (ImGui::IsKeyPressed(ImGuiKey_PageDown)) grip.target_px = at_px + page;
    if (ImGui::IsKeyPressed(ImGuiKey_PageUp)) grip.target_px = std::max(0.0f, at_px - page);
    if (ImGui::IsKeyPressed(ImGuiKey_Home)) grip.target_px = 0.0f;
    if (ImGui::IsKeyPressed(ImGuiKey_End)) grip.target_px = 1e6f;
}

Rect seen(const Rect& area, const Rect& rect) {
    Rect out{{std::max(rect.min.x, area.min.x), std::max(rect.min.y, area.min.y)},
             {std::min(rect.max.x, area.max.x), std::min(rect.max.y, area.max.y)}};
    // A hundredth of how far beyond the edge it is keeps the order of what is out of sight.
    const auto pin = [](float& low, float& high, float from, float edgeLow, float edgeHigh) {
        if (high > low) return;
        const float edge = from < edgeLow ? edgeLow : edgeHigh;
        low = high = edge + std::clamp((from - edge) * 0.01f, -4.0f, 4.0f);
    };
    pin(out.min.x, out.max.x, rect.centre().x, area.min.x, area.max.x);
    pin(out.min.y, out.max.y, rect.centre().y, area.min.y, area.max.y);
    return out;
}

void drawScrollBar(
    ImDrawList* list, const Rect& area, Axis axis, float content_px, float at_px, ImU32 colour) {
    const float length = lengthOf(axis, area);
    if (content_px <= length + 0.5f) return;
    const float thumb = std::max(24.0f, length * length / content_px);
    const float at = (length - thumb) * at_px / (content_px - length);
    const float thick = 4.0f;
    const Rect bar = axis == Axis::Down ? rectAt(area.max.x - thick, area.min.y + at, thick, thumb)
                                        : rectAt(area.min.x + at, area.max.y - thick, thumb, thick);
    list->AddRectFilled(bar.min, bar.max, colour, thick * 0.5f);
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
#include "screen/kit/items.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace loom::screen {

Rect shrunk(const Rect& r, float by) {
    return {{r.min.x + by, r.min.y + by}, {r.max.x - by, r.max.y - by}};
}

void Items::begin() {
    previous.swap(list);
    previousPressable.swap(pressable);
    list.clear();
    pressable.clear();
    const ImGuiIO& io = ImGui::GetIO();
    if (io.MouseClicked[0] || io.MouseWheel != 0.0f) showFocus = false;
    // A press that ended on nothing, or whose item is gone, is over.
    if (!io.MouseDown[0] && !io.MouseReleased[0]) active.clear();
}

bool Items::note(std::string_view name, std::string_view label, Zone zone, const Rect& rect) {
    list.push_back({std::string(name), std::string(label), zone, rect});
    pressable.push_back(false);
    return showFocus && focus == name;
}

Touch Items::add(std::string_view name, std::string_view label, Zone zone, const Rect& rect) {
    list.push_back({std::string(name), std::string(label), zone, rect});
    pressable.push_back(true);
    const ImGuiIO& io = ImGui::GetIO();
    Touch touch;
    const Item* top = rect.contains(io.MousePos) ? over(io.MousePos) : nullptr;
    const bool mine = top != nullptr && top->name == name;
    touch.hot = mine && !holdsOther(name);
    if (mine && io.MouseClicked[0]) {
        active = name;
        focus = name;
        touch.pressed = true;
    }
    touch.down = active == name && io.MouseDown[0];
    if (active == name && io.MouseReleased[0]) {
        touch.clicked = mine;
        active.clear();
    }
    touch.focused = showFocus && focus == name;
    if (touch.focused && !typedThisFrame &&
        (ImGui::IsKeyPressed(ImGuiKey_Enter, false) || ImGui::IsKeyPressed(ImGuiKey_Space, false) ||
         ImGui::IsKeyPressed(ImGuiKey_KeypadEnter, false))) {
        touch.clicked = true;
        typedThisFrame = true;
    }
    return touch;
}

bool Items::holdsOther(std::string_view name) const {
    return !active.empty() && active != name;
}

const Item* Items::find(std::string_view name) const {
    for (auto it = list.rbegin(); it != list.rend(); ++it)
        if (it->name == name) return &*it;
    for (auto it = previous.rbegin(); it != previous.rend(); ++it)
        if (it->name == name) return &*it;
    return nullptr;
}

bool Items::isRead(std::string_view name) const {
    return std::find(read.begin(), read.end(), name) != read.end();
}

const Item* Items::over(ImVec2 p) const {
    for (std::size_t i = previous.size(); i-- > 0;)
        if (previousPressable[i] && previous[i].rect.contains(p)) return &previous[i];
    return nullptr;
}

void Items::setFocus(std::string_view name) {
    focus = name;
    showFocus = true;
}

void Items::end() {
    typedThisFrame = false;
    const ImGuiIO& io = ImGui::GetIO();
    if (io.KeyCtrl || io.KeyAlt || io.KeySuper) return;
    if (ImGui::IsKeyPressed(ImGuiKey_Tab)) moveZone(io.KeyShift ? -1 : 1);
    const bool sideways = !sidewaysKept, upright = !uprightKept;
    sidewaysKept = uprightKept = false;
    if (io.KeyShift) return;
    if (sideways && ImGui::IsKeyPressed(ImGuiKey_LeftArrow)) moveFocus({-1, 0});
    if (sideways && ImGui::IsKeyPressed(ImGuiKey_RightArrow)) moveFocus({1, 0});
    if (upright && ImGui::IsKeyPressed(ImGuiKey_UpArrow)) moveFocus({0, -1});
    if (upright && ImGui::IsKeyPressed(ImGuiKey_DownArrow)) moveFocus({0, 1});
}

// The nearest item of the same zone that way: distance along the direction counts once, sideways
// twice, so that rows and columns are followed.
void Items::moveFocus(ImVec2 direction) {
    const Item* from = find(focus);
    if (from == nullptr) {
        moveZone(1);
        return;
    }
    showFocus = true;
    const ImVec2 at = from->rect.centre();
    const Item* best = nullptr;
    float bestCost = std::numeric_limits<float>::max();
    for (const Item& item : list) {
        if (item.zone != from->zone || item.name == from->name) continue;
        const ImVec2 to = item.rect.centre();
        const float ahead = (to.x - at.x) * direction.x + (to.y - at.y) * direction.y;
        const float aside =
            std::fabs((to.x - at.x) * direction.y) + std::fabs((to.y - at.y) * direction.x);
        const float cost = ahead + 2.0f * aside;
        if (ahead > 1.0f && cost < bestCost) {
            best = &item;
            bestCost = cost;
        }
    }
    if (best != nullptr) focus = best->name;
}

// To the first item of the next zone that has any.
void Items::moveZone(int step) {
    const Zone order[] = {Zone::Header,
                          Zone::Paper,
                          Zone::Board,
                          Zone::Card,
                          Zone::Events,
                          Zone::Tray,
                          Zone::Rail,
                          Zone::Sheet};
    constexpr int kCount = 8;
    const Item* from = find(focus);
    int at = step > 0 ? kCount - 1 : 0;
    if (from != nullptr)
        at = static_cast<int>(std::find(order, order + kCount, from->zone) - order);
    showFocus = true;
    for (int i = 1; i <= kCount; ++i) {
        const Zone zone = order[((at + step * i) % kCount + kCount) % kCount];
        const auto it = std::find_if(
            list.begin(), list.end(), [&](const Item& item) { return item.zone == zone; });
        if (it == list.end()) continue;
        focus = it->name;
        return;
    }
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// What a window too small for the bench shows instead of it.
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/room/fixtures.h"
#include "screen/sentences.h"

#include <algorithm>

namespace loom::screen {

void drawTooSmall(const View& view, ImDrawList* list) {
    const Pen pen(view, list);
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    list->AddRectFilled({0, 0}, window, tone::kRoom);
    const float wide = std::max(120.0f, std::min(window.x - pen.px(32.0f), pen.px(420.0f)));
    const float x = (window.x - wide) * 0.5f;
    const std::string title = words("product"), text = words("too-small");
    const float high =
        pen.line(Face::Large) + pen.px(12.0f) + pen.paragraphHeight(Face::Body, wide, text);
    float y = std::max(pen.px(16.0f), (window.y - high) * 0.5f);
    y += pen.paragraph(Face::Large, {x, y}, wide, tone::kOnRoom, title) + pen.px(12.0f);
    pen.paragraph(Face::Body, {x, y}, wide, tone::kOnRoom, text);
}

} // namespace loom::screen

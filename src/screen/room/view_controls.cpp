// SPDX-License-Identifier: MIT
// What helps to see the board: closer, further, whole, still. A small group in the board's corner
// that gives way while something is dragged.
#include "screen/board/camera.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/room/fixtures.h"
#include "screen/sentences.h"

#include <array>

namespace loom::screen {
namespace {

struct Icon {
    const Pen& pen;
    ImVec2 centre;
    ImU32 colour;

    ImVec2 at(float x, float y) const { return {centre.x + pen.px(x), centre.y + pen.px(y)}; }

    void line(float x1, float y1, float x2, float y2, float wide) const {
        const ImVec2 a = at(x1, y1), b = at(x2, y2);
        pen.list->AddLine(a, b, colour, pen.px(wide));
        pen.list->AddCircleFilled(a, pen.px(wide * 0.5f), colour);
        pen.list->AddCircleFilled(b, pen.px(wide * 0.5f), colour);
    }
};

void drawLens(const Icon& icon, bool closer) {
    icon.pen.list->AddCircle(icon.at(-2, -2), icon.pen.px(9.0f), icon.colour, 0, icon.pen.px(2.6f));
    icon.line(5, 5, 11, 11, 4.0f);
    icon.line(-6, -2, 2, -2, 2.2f);
    if (closer) icon.line(-2, -6, -2, 2, 2.2f);
}

// The four corners of the board.
void drawCorners(const Icon& icon) {
    for (const float x : {-1.0f, 1.0f})
        for (const float y : {-1.0f, 1.0f}) {
            icon.line(12 * x, 9 * y, 12 * x, 4 * y, 2.6f);
            icon.line(12 * x, 9 * y, 6 * x, 9 * y, 2.6f);
        }
}

void drawStill(const Icon& icon, bool still) {
    if (still)
        return icon.pen.list->AddTriangleFilled(
            icon.at(-6, -9), icon.at(9, 0), icon.at(-6, 9), icon.colour);
    icon.line(-4, -8, -4, 8, 4.0f);
    icon.line(4, -8, 4, 8, 4.0f);
}

enum class Control { Closer, Further, Whole, Still };

struct Labelled {
    Control control;
    const char *name, *said;
};

constexpr std::array<Labelled, 4> kControls{{
    {Control::Closer, "rail/zoom-in", "rail/closer-said"},
    {Control::Further, "rail/zoom-out", "rail/further-said"},
    {Control::Whole, "rail/fit", "rail/whole-said"},
    {Control::Still, "rail/still", "rail/still-said"},
}};

void drawIcon(const Icon& icon, Control control, bool still) {
    switch (control) {
    case Control::Closer:
        return drawLens(icon, true);
    case Control::Further:
        return drawLens(icon, false);
    case Control::Whole:
        return drawCorners(icon);
    case Control::Still:
        return drawStill(icon, still);
    }
}

void use(Control control, bool& still, const Camera& camera, Asked& out) {
    switch (control) {
    case Control::Closer:
        return out.push_back(LookAt{zoomed(camera, 1.25)});
    case Control::Further:
        return out.push_back(LookAt{zoomed(camera, 0.8)});
    case Control::Whole:
        return out.push_back(LookAt{});
    case Control::Still:
        still = !still;
    }
}

} // namespace

void drawViewControls(
    const View& view, Items& items, bool& still, const BoardUi& ui, ImDrawList* list, Asked& out) {
    if (ui.carried) return;
    const Pen pen(view, list);
    const float side = pen.px(44.0f), away = pen.px(8.0f);
    const Rect& board = view.layout.board;
    const Rect group = rectAt(board.max.x - away - side * static_cast<float>(kControls.size()),
                              board.max.y - away - side,
                              side * static_cast<float>(kControls.size()),
                              side);
    list->AddRectFilled(group.min, group.max, art::fade(tone::kRoomDeep, 0.88f), pen.px(10.0f));
    list->AddRect(group.min, group.max, tone::roomLine, pen.px(10.0f), 0, 1.0f);
    float x = group.min.x;
    for (const Labelled& each : kControls) {
        const Rect at = rectAt(x, group.min.y, side, side);
        const bool paused = each.control == Control::Still && still;
        const Touch touch =
            items.add(each.name, words(paused ? "rail/moving-said" : each.said), Zone::Rail, at);
        if (touch.hot || touch.down)
            list->AddRectFilled(
                at.min, at.max, touch.down ? tone::buttonDown : tone::kButtonHot, pen.px(10.0f));
        drawIcon({pen, at.centre(), tone::kOnRoom}, each.control, still);
        if (touch.focused) drawFocusRing(list, shrunk(at, 3.0f), pen.px(9.0f));
        if (touch.clicked) use(each.control, still, ui.camera, out);
        x += side;
    }
}

} // namespace loom::screen

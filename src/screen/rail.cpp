// SPDX-License-Identifier: MIT
// The wall of tools: the hand, what helps to see (closer, further, whole, still), and the hook with
// the isolator's key. Upright at the right, or as a row under the board.
#include "screen/art/part_art.h"
#include "screen/furniture.h"
#include "screen/sentences.h"
#include "screen/tones.h"
#include "screen/widgets.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

struct Icon {
    const Pen& pen;
    ImVec2 centre;
    ImU32 colour;

    ImVec2 at(float x, float y) const { return {centre.x + pen.px(x), centre.y + pen.px(y)}; }

    void line(float x1, float y1, float x2, float y2, float wide = 4.0f) const {
        const ImVec2 a = at(x1, y1), b = at(x2, y2);
        pen.list->AddLine(a, b, colour, pen.px(wide));
        pen.list->AddCircleFilled(a, pen.px(wide * 0.5f), colour);
        pen.list->AddCircleFilled(b, pen.px(wide * 0.5f), colour);
    }
};

// An open hand: palm, three fingers and a thumb at each side.
void drawHand(const Icon& icon) {
    icon.line(-10, 18, -13, -1);
    icon.line(-10, 18, 10, 18);
    icon.line(10, 18, 13, -5);
    icon.line(-6, 1, -6, -16);
    icon.line(0, 0, 0, -19);
    icon.line(6, 1, 6, -16);
}

void drawLens(const Icon& icon, bool closer) {
    icon.pen.list->AddCircle(
        icon.at(-3, -3), icon.pen.px(12.0f), icon.colour, 0, icon.pen.px(3.4f));
    icon.line(7, 7, 14, 14, 5.0f);
    icon.line(-8, -3, 2, -3, 3.0f);
    if (closer) icon.line(-3, -8, -3, 2, 3.0f);
}

// The four corners of the board.
void drawCorners(const Icon& icon) {
    for (const float x : {-1.0f, 1.0f})
        for (const float y : {-1.0f, 1.0f}) {
            icon.line(15 * x, 11 * y, 15 * x, 4 * y, 3.2f);
            icon.line(15 * x, 11 * y, 7 * x, 11 * y, 3.2f);
        }
}

void drawStill(const Icon& icon, bool still) {
    if (still) {
        icon.pen.list->AddTriangleFilled(
            icon.at(-8, -12), icon.at(12, 0), icon.at(-8, 12), icon.colour);
        return;
    }
    icon.line(-6, -10, -6, 10, 5.0f);
    icon.line(6, -10, 6, 10, 5.0f);
}

struct Tool {
    const char *name, *key, *said;
    int icon; // 0 hand, 1 closer, 2 further, 3 whole, 4 still
};

constexpr Tool tools[] = {
    {"rail/hand", "rail/hand", "rail/hand-said", 0},
    {"rail/zoom-in", "rail/closer", "rail/closer-said", 1},
    {"rail/zoom-out", "rail/further", "rail/further-said", 2},
    {"rail/fit", "rail/whole", "rail/whole-said", 3},
    {"rail/still", "rail/still", "rail/still-said", 4},
};

constexpr int toolCount = 5;

void drawIcon(const Icon& icon, int which, bool still) {
    switch (which) {
    case 0:
        return drawHand(icon);
    case 1:
        return drawLens(icon, true);
    case 2:
        return drawLens(icon, false);
    case 3:
        return drawCorners(icon);
    default:
        return drawStill(icon, still);
    }
}

struct Rail {
    const View& view;
    Items& items;
    FurnitureUi& ui;
    BenchUi& bench;
    const Pen& pen;
    bool upright = true;

    // Letters under the icon when there is height for both.
    void tile(const Tool& tool, const Rect& at) const {
        const bool still = ui.motionPaused;
        const bool chosen = tool.icon == 0 || (tool.icon == 4 && still);
        const std::string label = words(tool.icon == 4 && still ? "rail/moving" : tool.key);
        const std::string said = words(tool.icon == 4 && still ? "rail/moving-said" : tool.said);
        const Touch touch = items.add(tool.name, said, Zone::Rail, at);
        if (chosen || touch.hot || touch.down)
            pen.list->AddRectFilled(at.min,
                                    at.max,
                                    chosen       ? tone::toolChosen
                                    : touch.down ? tone::buttonDown
                                                 : tone::roomRaised,
                                    pen.px(9.0f));
        if (chosen)
            pen.list->AddRect(at.min, at.max, tone::attention, pen.px(9.0f), 0, pen.px(2.0f));
        const bool lettered = at.height() >= pen.px(56.0f);
        const float iconY =
            lettered ? at.min.y + (at.height() - pen.px(20.0f)) * 0.5f : at.centre().y;
        drawIcon({pen, {at.centre().x, iconY}, tone::onRoom}, tool.icon, still);
        if (lettered)
            pen.centred(Face::Bold,
                        {at.centre().x, at.max.y - pen.px(14.0f)},
                        tone::onRoom,
                        pen.cut(Face::Bold, label, at.width() - pen.px(2.0f)));
        if (touch.focused) drawFocusRing(pen.list, shrunk(at, 3.0f), pen.px(9.0f));
        if (touch.clicked) use(tool);
    }

    void use(const Tool& tool) const {
        switch (tool.icon) {
        case 0:
            return letGo(bench);
        case 1:
            return zoomBy(bench, 1.25);
        case 2:
            return zoomBy(bench, 0.8);
        case 3:
            return fitBoard(bench);
        default:
            ui.motionPaused = !ui.motionPaused;
        }
    }
};

enum class KeyPlace { NoIsolator, OnHook, InHand, InIsolator };

KeyPlace keyPlace(const bench::Bench& bench, const BenchUi& ui) {
    if (std::holds_alternative<KeyInHand>(ui.hand)) return KeyPlace::InHand;
    bool any = false;
    for (const bench::PartSlot& slot : bench.kit.parts)
        any = any || slot.kind == bench::PartKind::Isolator;
    for (const bench::Part& part : bench.parts) {
        if (part.kind != bench::PartKind::Isolator) continue;
        if (part.position > 0) return KeyPlace::InIsolator;
        any = true;
    }
    return any ? KeyPlace::OnHook : KeyPlace::NoIsolator;
}

void drawHook(const Pen& pen, ImVec2 top) {
    pen.list->PathArcTo(top, pen.px(10.0f), 0.0f, 3.14159265f, 14);
    pen.list->PathStroke(tone::brass, 0, pen.px(4.0f));
    pen.list->AddCircleFilled({top.x - pen.px(10.0f), top.y}, pen.px(2.0f), tone::brass);
    pen.list->AddCircleFilled({top.x + pen.px(10.0f), top.y}, pen.px(2.0f), tone::brass);
}

// The dashed place says where the key is.
void drawKeyPlace(const Rail& rail, const Rect& at, const char* key) {
    const Pen& pen = rail.pen;
    drawDashedBox(pen.list, at, pen.px(9.0f), art::rgb(0x6b9096), 1.4f);
    const std::string text = words(key);
    std::string spoken = text;
    std::replace(spoken.begin(), spoken.end(), '\n', ' ');
    readable(pen, rail.items, "rail/key", spoken, Zone::Rail, at, pen.px(9.0f));
    const float pitch = pen.px(20.0f);
    const auto lines =
        wrapped(pen.font(Face::Body), pen.size(Face::Body), at.width() - pen.px(6.0f), text);
    float y = at.centre().y - pitch * 0.5f * static_cast<float>(lines.size() - 1);
    for (const std::string_view line : lines) {
        pen.centred(Face::Body, {at.centre().x, y}, tone::onRoomSoft, line);
        y += pitch;
    }
}

// The key on its hook: taken by a drag or a tap.
void drawKeyOnHook(const Rail& rail, const Rect& at) {
    const Pen& pen = rail.pen;
    const Touch touch = rail.items.add("rail/key", words("rail/key-on-hook"), Zone::Rail, at);
    if (touch.hot || touch.down)
        pen.list->AddRectFilled(at.min, at.max, tone::roomRaised, pen.px(9.0f));
    const float keyHeight = at.height() - pen.px(30.0f);
    const float scale = keyHeight / 0.072f;
    drawHook(pen, {at.centre().x + pen.px(2.0f), at.min.y + pen.px(4.0f)});
    art::drawKey(
        pen.list, {at.centre().x, at.min.y + pen.px(6.0f) + keyHeight * 0.5f}, scale, 0.08f);
    pen.centred(
        Face::Body, {at.centre().x, at.max.y - pen.px(10.0f)}, tone::onRoom, words("rail/key"));
    if (touch.focused) drawFocusRing(pen.list, shrunk(at, 3.0f), pen.px(9.0f));
    const ImGuiIO& io = ImGui::GetIO();
    const float moved = std::hypot(io.MousePos.x - io.MouseClickedPos[0].x,
                                   io.MousePos.y - io.MouseClickedPos[0].y);
    if (touch.down && moved > 8.0f) {
        rail.items.letGo();
        pickUp(rail.bench, KeyInHand{}, true);
    } else if (touch.clicked) {
        pickUp(rail.bench, KeyInHand{}, false);
    }
}

void drawKeyCorner(const Rail& rail, const Rect& at) {
    switch (keyPlace(rail.view.session->attempt().bench(), rail.bench)) {
    case KeyPlace::NoIsolator:
        return;
    case KeyPlace::OnHook:
        return drawKeyOnHook(rail, at);
    case KeyPlace::InHand:
        return drawKeyPlace(rail, at, "rail/key-in-hand");
    case KeyPlace::InIsolator:
        return drawKeyPlace(rail, at, "rail/key-in-isolator");
    }
}

} // namespace

void drawRail(const View& view,
              Items& items,
              FurnitureUi& ui,
              BenchUi& bench,
              art::PictureStore&,
              ImDrawList* list,
              Intents&) {
    const Pen pen(view, list);
    const Rect& wall = view.layout.rail;
    drawPanel(list, wall, pen.px(10.0f));
    const Rail rail{view, items, ui, bench, pen, wall.height() > wall.width()};
    const float pad = pen.px(6.0f), gap = pen.px(4.0f);
    if (rail.upright) {
        const float keyHeight = std::min(pen.px(116.0f), wall.height() * 0.26f);
        const float room = wall.height() - 3.0f * pad - keyHeight;
        const float high = std::min(pen.px(78.0f), room / toolCount - gap);
        float y = wall.min.y + pad;
        for (const Tool& tool : tools) {
            rail.tile(tool, rectAt(wall.min.x + pad, y, wall.width() - 2.0f * pad, high));
            y += high + gap;
        }
        return drawKeyCorner(rail,
                             {{wall.min.x + pad, wall.max.y - pad - keyHeight},
                              {wall.max.x - pad, wall.max.y - pad}});
    }
    const float wide = (wall.width() - 2.0f * pad + gap) / (toolCount + 1) - gap;
    float x = wall.min.x + pad;
    for (const Tool& tool : tools) {
        rail.tile(tool, rectAt(x, wall.min.y + pad, wide, wall.height() - 2.0f * pad));
        x += wide + gap;
    }
    drawKeyCorner(
        rail, {{wall.max.x - pad - wide, wall.min.y + pad}, {wall.max.x - pad, wall.max.y - pad}});
}

} // namespace loom::screen

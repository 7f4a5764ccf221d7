// SPDX-License-Identifier: MIT
// Proportions of look/bench.svg (1280x800) and look/tablet.svg (768x1024), in design pixels; the
// board takes what is over.
#include "screen/kit/layout.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr float kLeastSide = 600.0f, kLeastWideWidth = 1000.0f;
constexpr float kMargin = 12.0f, kGap = 8.0f, kTouch = 44.0f;
constexpr float kLeastUpright = 780.0f;
constexpr float kShutTray = kTouch; // a shut drawer shows its front

// The controls grow with the window up to a quarter, in sixteenths so that 16 px letters stay whole.
// What a stand asks for on top gives way before the bench does.
float unitFor(float width, float height, float larger) {
    const float grown = std::clamp(std::min(width / 1280.0f, height / 800.0f), 1.0f, 1.25f);
    const float most = std::min(width, height) / kLeastSide;
    const float sixteenths = std::floor(std::min(grown * larger, most) * 16.0f + 0.25f);
    return std::max(1.0f, sixteenths / 16.0f);
}

Rect scaled(const Rect& r, float unit) {
    return {{r.min.x * unit, r.min.y * unit}, {r.max.x * unit, r.max.y * unit}};
}

// All in design pixels: w, h is the window in them.
Layout wide(float w, float h, bool trayOpen) {
    Layout out;
    out.form = Form::Wide;
    const float paperWidth = std::clamp(0.23f * w, 256.0f, 340.0f);
    const float railWidth = 76.0f, top = 64.0f, left = 18.0f;
    const float boardLeft = left + paperWidth + 18.0f;
    const float boardRight = w - kMargin - railWidth - 14.0f;
    const float boardWidth = boardRight - boardLeft;
    const float buttonsWidth = std::min(276.0f, 0.42f * boardWidth);

    out.name = rectAt(24.0f, 9.0f, boardLeft - 36.0f, kTouch);
    out.buttons = rectAt(boardRight - buttonsWidth, 9.0f, buttonsWidth, kTouch);
    out.status = rectAt(boardLeft, 9.0f, boardWidth - buttonsWidth - 14.0f, kTouch);
    out.paper = rectAt(left, 84.0f, paperWidth, h - 84.0f - kMargin);
    out.rail = rectAt(w - kMargin - railWidth, top, railWidth, h - top - kMargin);
    const float trayHeight = trayOpen ? 100.0f : kShutTray;
    out.tray = rectAt(boardLeft, h - kMargin - trayHeight, boardWidth, trayHeight);
    out.events = rectAt(boardLeft, out.tray.min.y - kGap - kTouch, boardWidth, kTouch);
    out.board = rectAt(boardLeft, top, boardWidth, out.events.min.y - kGap - top);
    return out;
}

// Upright: tools in a row under the board, two rows in the tray where there is height for them.
// Lying, or too low for that: tools at the right, one row.
Layout tablet(float w, float h, bool trayOpen) {
    Layout out;
    out.form = Form::Tablet;
    const bool lying = w >= h || h < kLeastUpright;
    const bool tall = h >= 900.0f;
    const float space = tall ? kMargin : kGap;
    const float inner = w - 2.0f * kMargin;
    const float buttonsWidth = std::min(276.0f, 0.42f * inner);

    out.status = rectAt(kMargin, 10.0f, inner - buttonsWidth - kMargin, kTouch);
    out.buttons = rectAt(w - kMargin - buttonsWidth, 10.0f, buttonsWidth, kTouch);
    out.strip = rectAt(kMargin, 10.0f + kTouch + space, inner, tall ? 66.0f : 60.0f);
    const float boardTop = out.strip.max.y + space;

    const float trayHeight = !trayOpen ? kShutTray : tall ? 166.0f : 100.0f;
    out.tray = rectAt(kMargin, h - kMargin - trayHeight, inner, trayHeight);
    float bottom = out.tray.min.y - space;
    float boardWidth = inner;
    if (lying) {
        const float railWidth = 76.0f; // down beside the tray: seven tools and the key are tall
        out.rail = rectAt(w - kMargin - railWidth, boardTop, railWidth, h - kMargin - boardTop);
        boardWidth -= railWidth + kGap;
        out.tray.max.x = out.tray.min.x + boardWidth;
    } else {
        const float railHeight = tall ? 100.0f : 88.0f;
        out.rail = rectAt(kMargin, bottom - railHeight, inner, railHeight);
        bottom = out.rail.min.y - space;
    }
    const float eventsHeight = tall ? 66.0f : kTouch;
    out.events = rectAt(kMargin, bottom - eventsHeight, boardWidth, eventsHeight);
    out.board = rectAt(kMargin, boardTop, boardWidth, out.events.min.y - space - boardTop);

    const float tabHeight = std::min(150.0f, 0.5f * out.board.height());
    out.leafTab = rectAt(0.0f, out.board.centre().y - 0.5f * tabHeight, kTouch, tabHeight);
    out.paper = rectAt(0.0f, 10.0f, std::clamp(0.6f * w, 340.0f, 520.0f), h - 10.0f - kMargin);
    return out;
}

} // namespace

Layout layOut(float width, float height, float larger, bool trayOpen) {
    Layout out;
    out.form = Form::TooSmall;
    if (!(width >= kLeastSide && height >= kLeastSide)) return out;
    const float unit = unitFor(width, height, larger);
    const float w = width / unit, h = height / unit;
    out = w < kLeastWideWidth || h > w ? tablet(w, h, trayOpen) : wide(w, h, trayOpen);
    out.unit = unit;
    for (Rect* r : {&out.name,
                    &out.status,
                    &out.buttons,
                    &out.paper,
                    &out.strip,
                    &out.leafTab,
                    &out.board,
                    &out.events,
                    &out.tray,
                    &out.rail})
        *r = scaled(*r, unit);
    return out;
}

} // namespace loom::screen

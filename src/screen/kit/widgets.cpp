// SPDX-License-Identifier: MIT
#include "screen/kit/widgets.h"

#include "screen/kit/tones.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr float kCorner = 9.0f;

struct Paint {
    ImU32 ground, line, letters;
};

Paint paintOf(ButtonLook look, const Touch& touch, bool enabled) {
    const bool down = touch.down && enabled, hot = touch.hot && enabled;
    switch (look) {
    case ButtonLook::Room:
        return {down  ? tone::buttonDown
                : hot ? tone::kButtonHot
                      : tone::kRoomRaised,
                enabled ? tone::kButtonLine : tone::roomLine,
                enabled ? tone::kOnRoom : tone::kOffOnRoom};
    case ButtonLook::Paper:
        return {down  ? tone::kPaperDown
                : hot ? tone::kPaperHot
                      : tone::kPaper,
                enabled ? tone::kInkSoft : tone::kPaperLine,
                enabled ? tone::kInk : tone::kOffOnPaper};
    case ButtonLook::Main:
        break;
    }
    if (!enabled) return {tone::kPaper, tone::kPaperLine, tone::kOffOnPaper};
    return {down  ? tone::kDoneDown
            : hot ? tone::kDoneHot
                  : tone::kDone,
            tone::kDoneDown,
            tone::kPaper};
}

std::string spoken(std::string_view label, bool enabled) {
    return enabled ? std::string(label) : words("spoken/off", {{"what", std::string(label)}});
}

// What the keyboard is on in a window that scrolls.
void noteFocus(const Pen& pen, std::string_view name, const Rect& rect) {
    pen.window->focusInside = true;
    pen.window->focusedName = name;
    pen.window->focused = rect;
}

// Ground, line and focus of a button; the letters are the caller's.
Paint drawButton(
    ImDrawList* list, const Rect& rect, ButtonLook look, const Touch& touch, bool enabled) {
    const Paint paint = paintOf(look, touch, enabled);
    list->AddRectFilled(rect.min, rect.max, paint.ground, kCorner);
    list->AddRect(rect.min, rect.max, paint.line, kCorner, 0, 1.2f);
    if (touch.focused) drawFocusRing(list, rect, kCorner);
    return paint;
}

// A quarter of a rounded box's edge as points, appended.
void appendRoundedBox(std::vector<ImVec2>& path, const Rect& r, float radius) {
    const ImVec2 centres[] = {{r.max.x - radius, r.min.y + radius},
                              {r.max.x - radius, r.max.y - radius},
                              {r.min.x + radius, r.max.y - radius},
                              {r.min.x + radius, r.min.y + radius}};
    for (int quarter = 0; quarter < 4; ++quarter) {
        for (int step = 0; step <= 6; ++step) {
            const float angle =
                1.57079633f * (static_cast<float>(quarter - 1) + static_cast<float>(step) / 6.0f);
            path.push_back({centres[quarter].x + radius * std::cos(angle),
                            centres[quarter].y + radius * std::sin(angle)});
        }
    }
}

} // namespace

void readable(const Pen& pen,
              Items& items,
              std::string_view name,
              std::string_view label,
              Zone zone,
              const Rect& rect,
              float rounding) {
    const Rect shown = pen.window ? seen(pen.window->area, rect) : rect;
    if (!items.note(name, label, zone, shown)) return;
    if (pen.window) noteFocus(pen, name, rect);
    drawFocusRing(pen.list, rect, rounding);
}

Touch press(const Pen& pen,
            Items& items,
            std::string_view name,
            std::string_view label,
            Zone zone,
            const Rect& rect) {
    if (!pen.window) return items.add(name, label, zone, rect);
    const Touch touch = items.add(name, label, zone, seen(pen.window->area, rect));
    if (touch.focused) noteFocus(pen, name, rect);
    return touch;
}

bool button(const Pen& pen,
            Items& items,
            std::string_view name,
            std::string_view label,
            Zone zone,
            const Rect& rect,
            ButtonLook look,
            bool enabled) {
    const Touch touch = press(pen, items, name, spoken(label, enabled), zone, rect);
    const Paint paint = drawButton(pen.list, rect, look, touch, enabled);
    const float side = pen.px(4.0f);
    pen.centredIn(Face::Bold,
                  {{rect.min.x + side, rect.min.y}, {rect.max.x - side, rect.max.y}},
                  paint.letters,
                  label);
    return touch.clicked && enabled;
}

float buttonWidth(const Pen& pen, std::string_view label) {
    return std::max(pen.px(44.0f), pen.width(Face::Bold, label) + pen.px(24.0f));
}

Touch row(const Pen& pen,
          Items& items,
          std::string_view name,
          std::string_view label,
          Zone zone,
          const Rect& rect,
          bool chosen) {
    const Touch touch = press(pen, items, name, label, zone, rect);
    const ImU32 ground = touch.down  ? tone::kPaperDown
                         : touch.hot ? tone::kPaperHot
                         : chosen    ? tone::kLeaf
                                     : 0;
    if (ground) pen.list->AddRectFilled(rect.min, rect.max, ground, pen.px(8.0f));
    if (touch.focused) drawFocusRing(pen.list, rect, pen.px(8.0f));
    return touch;
}

bool closeButton(const Pen& pen, Items& items, std::string_view name, Zone zone, ImVec2 centre) {
    const float half = pen.px(22.0f), arm = pen.px(6.5f);
    const Rect rect{{centre.x - half, centre.y - half}, {centre.x + half, centre.y + half}};
    const Touch touch = row(pen, items, name, words("close"), zone, rect, false);
    for (const float side : {-1.0f, 1.0f})
        pen.list->AddLine({centre.x - arm, centre.y - arm * side},
                          {centre.x + arm, centre.y + arm * side},
                          tone::kInkSoft,
                          pen.px(2.2f));
    return touch.clicked;
}

void drawMark(ImDrawList* list, ImVec2 centre, float radius, Mark mark) {
    const float r = radius, stroke = std::max(1.6f, radius * 0.19f);
    if (mark == Mark::Done) {
        list->AddCircleFilled(centre, r, tone::kDone);
        const ImVec2 tick[] = {{centre.x - 0.48f * r, centre.y + 0.02f * r},
                               {centre.x - 0.12f * r, centre.y + 0.4f * r},
                               {centre.x + 0.5f * r, centre.y - 0.4f * r}};
        list->AddPolyline(tick, 3, tone::kPaper, 0, stroke * 1.15f);
        return;
    }
    const ImU32 colour = mark == Mark::Wrong ? tone::kFault : tone::kMarkLine;
    list->AddCircle(centre, r - stroke * 0.5f, colour, 0, stroke * 0.85f);
    if (mark == Mark::Empty) return;
    const float arm = 0.36f * r;
    for (const float side : {-1.0f, 1.0f})
        list->AddLine({centre.x - arm, centre.y - arm * side},
                      {centre.x + arm, centre.y + arm * side},
                      colour,
                      stroke);
}

void drawWarning(const Pen& pen, ImVec2 centre, float radius, ImU32 colour) {
    const float r = radius, stroke = r * 0.2f;
    const ImVec2 at = centre;
    pen.list->AddTriangleFilled(
        {at.x, at.y - r}, {at.x + r, at.y + r * 0.8f}, {at.x - r, at.y + r * 0.8f}, colour);
    pen.list->AddLine({at.x, at.y - r * 0.35f}, {at.x, at.y + r * 0.25f}, tone::kPaper, stroke);
    pen.list->AddCircleFilled({at.x, at.y + r * 0.52f}, stroke * 0.7f, tone::kPaper);
}

void drawBadge(const Pen& pen, ImVec2 centre, std::string_view text) {
    const float half = std::max(pen.px(13.0f), pen.width(Face::Bold, text) * 0.5f + pen.px(7.0f));
    const float high = pen.px(13.0f);
    pen.list->AddRectFilled({centre.x - half, centre.y - high},
                            {centre.x + half, centre.y + high},
                            tone::kOnRoom,
                            high);
    pen.centred(Face::Bold, centre, tone::kInk, text);
}

void drawStamp(const Pen& pen, ImVec2 centre, ImU32 colour, std::string_view text) {
    const int from = pen.list->VtxBuffer.Size;
    const float half = pen.width(Face::Title, text) * 0.5f + pen.px(12.0f);
    const ImVec2 reach(half, pen.px(17.0f));
    const Rect box{{centre.x - reach.x, centre.y - reach.y},
                   {centre.x + reach.x, centre.y + reach.y}};
    pen.list->AddRect(box.min, box.max, colour, pen.px(6.0f), 0, pen.px(2.6f));
    const Rect inner = shrunk(box, pen.px(4.0f));
    pen.list->AddRect(
        inner.min, inner.max, art::fade(colour, 0.55f), pen.px(3.5f), 0, pen.px(1.0f));
    pen.centred(Face::Title, centre, colour, text);
    turnDrawn(pen.list, from, centre, -0.07f);
}

void drawGauge(ImDrawList* list, const Rect& rect, float share, float tooMuch) {
    const float filled = std::clamp(share, 0.0f, 1.0f), round = rect.height() * 0.5f;
    list->AddRectFilled(rect.min, rect.max, tone::kLeaf, round);
    const float end = rect.min.x + std::max(rect.height(), rect.width() * filled);
    if (filled > 0.0f)
        list->AddRectFilled(
            rect.min, {end, rect.max.y}, share >= tooMuch ? tone::kFault : tone::kBrassDark, round);
    list->AddRect(rect.min, rect.max, tone::kMarkLine, round, 0, 1.0f);
    if (tooMuch > 1.0f) return;
    const float x = rect.min.x + rect.width() * tooMuch;
    list->AddLine({x, rect.min.y - 2.0f}, {x, rect.max.y + 2.0f}, tone::kInk, 1.6f);
}

void drawDashedBox(ImDrawList* list, const Rect& rect, float rounding, ImU32 colour, float stroke) {
    std::vector<ImVec2> edge;
    appendRoundedBox(edge, rect, rounding);
    edge.push_back(edge.front());
    // Whole dashes only: their length gives way so that the line closes.
    float around = 0.0f;
    for (std::size_t i = 1; i < edge.size(); ++i)
        around += std::hypot(edge[i].x - edge[i - 1].x, edge[i].y - edge[i - 1].y);
    const float pitch = around / std::max(4.0f, std::round(around / 9.0f)), dash = pitch * 0.56f;
    float walked = 0.0f;
    for (std::size_t i = 1; i < edge.size(); ++i) {
        const ImVec2 a = edge[i - 1], b = edge[i];
        const float length = std::hypot(b.x - a.x, b.y - a.y);
        float done = 0.0f;
        while (done < length - 1e-3f) {
            const float phase = std::fmod(walked + done, pitch);
            const bool on = phase < dash;
            const float step = std::min((on ? dash : pitch) - phase + 1e-3f, length - done);
            const auto at = [&](float d) {
                return ImVec2(a.x + (b.x - a.x) * d / length, a.y + (b.y - a.y) * d / length);
            };
            if (on) list->AddLine(at(done), at(done + step), colour, stroke);
            done += step;
        }
        walked += length;
    }
}

void drawChevron(
    ImDrawList* list, ImVec2 centre, float size, ImVec2 towards, ImU32 colour, float stroke) {
    const ImVec2 along(towards.x * size * 0.5f, towards.y * size * 0.5f);
    const ImVec2 across(-towards.y * size, towards.x * size);
    const ImVec2 points[] = {{centre.x - along.x + across.x, centre.y - along.y + across.y},
                             {centre.x + along.x, centre.y + along.y},
                             {centre.x - along.x - across.x, centre.y - along.y - across.y}};
    list->AddPolyline(points, 3, colour, 0, stroke);
}

// Seven boxes, each a little larger and fainter than the last, add up to a soft edge.
void drawSoftShadow(ImDrawList* list, const Rect& rect, float rounding, float reach, float alpha) {
    constexpr int kLayers = 7;
    for (int i = kLayers; i >= 1; --i) {
        const float out = reach * static_cast<float>(i) / kLayers;
        const float share = alpha / kLayers * 1.3f;
        list->AddRectFilled({rect.min.x - out, rect.min.y - out * 0.6f},
                            {rect.max.x + out, rect.max.y + out + reach * 0.25f},
                            art::fade(art::rgb(0x0c1415), share),
                            rounding + out);
    }
}

void drawPanel(ImDrawList* list, const Rect& rect, float rounding) {
    list->AddRectFilled(rect.min, rect.max, tone::kRoomDeep, rounding);
    list->AddRect(rect.min, rect.max, tone::roomLine, rounding, 0, 1.0f);
}

void drawPaperSheet(ImDrawList* list, const Rect& rect) {
    drawSoftShadow(list, rect, 4.0f, 14.0f, 0.35f);
    list->AddRectFilled(rect.min, rect.max, tone::kPaper, 3.0f);
    list->AddRect(rect.min, rect.max, tone::kPaperLine, 3.0f, 0, 1.0f);
}

void drawClip(const Pen& pen, ImVec2 top) {
    ImDrawList* list = pen.list;
    const Rect jaw{{top.x - pen.px(34.0f), top.y - pen.px(14.0f)},
                   {top.x + pen.px(34.0f), top.y + pen.px(12.0f)}};
    const Rect lever{{top.x - pen.px(20.0f), top.y - pen.px(24.0f)},
                     {top.x + pen.px(20.0f), top.y - pen.px(10.0f)}};
    drawSoftShadow(list, jaw, pen.px(5.0f), pen.px(5.0f), 0.3f);
    list->AddRectFilled(lever.min, lever.max, tone::kClipShine, pen.px(4.0f));
    list->AddRect(lever.min, lever.max, tone::kClip, pen.px(4.0f), 0, 1.0f);
    list->AddRectFilled(jaw.min, jaw.max, tone::kClip, pen.px(4.0f));
    list->AddLine({jaw.min.x + pen.px(5.0f), jaw.min.y + pen.px(2.5f)},
                  {jaw.max.x - pen.px(5.0f), jaw.min.y + pen.px(2.5f)},
                  tone::kClipShine,
                  pen.px(1.4f));
}

void drawNote(ImDrawList* list, const Rect& rect) {
    list->AddRectFilled(rect.min, rect.max, tone::kPaperWarm, 8.0f);
    list->AddRect(rect.min, rect.max, tone::kEventLine, 8.0f, 0, 1.0f);
}

void drawFocusRing(ImDrawList* list, const Rect& rect, float rounding) {
    const Rect outer = shrunk(rect, -3.0f);
    list->AddRect(outer.min, outer.max, tone::kOnRoom, rounding + 3.0f, 0, 4.6f);
    list->AddRect(outer.min, outer.max, tone::kAttention, rounding + 3.0f, 0, 2.6f);
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
#include "screen/art/part_frame.h"

#include "screen/art/palette.h"

#include <imgui_internal.h>

namespace loom::art {

PartFrame::PartFrame(const PartLook& look)
    : centre(look.centre), k(look.px_per_m / 1000.0f), turns(look.quarterTurns & 3),
      alpha(look.alpha) {}

PartFrame::PartFrame(ImVec2 centre_px, float px_per_mm, float alpha_share)
    : centre(centre_px), k(px_per_mm), alpha(alpha_share) {}

ImVec2 PartFrame::at(float x_mm, float y_mm) const {
    switch (turns) {
    case 1:
        return ImVec2(centre.x - y_mm * k, centre.y + x_mm * k);
    case 2:
        return ImVec2(centre.x - x_mm * k, centre.y - y_mm * k);
    case 3:
        return ImVec2(centre.x + y_mm * k, centre.y - x_mm * k);
    default:
        return ImVec2(centre.x + x_mm * k, centre.y + y_mm * k);
    }
}

ImU32 PartFrame::shown(ImU32 colour) const {
    return alpha < 1.0f ? fade(colour, alpha) : colour;
}

namespace {

// Shades what was drawn since `first` from the part's upper side to its lower.
void shade(ImDrawList* list,
           const PartFrame& frame,
           int first,
           ImVec2 top_mm,
           ImVec2 bottom_mm,
           ImU32 top,
           ImU32 bottom) {
    ImGui::ShadeVertsLinearColorGradientKeepAlpha(list,
                                                  first,
                                                  list->VtxBuffer.Size,
                                                  frame.at(top_mm.x, top_mm.y),
                                                  frame.at(bottom_mm.x, bottom_mm.y),
                                                  top,
                                                  bottom);
}

} // namespace

void fillRound(ImDrawList* list,
               const PartFrame& frame,
               float x0,
               float y0,
               float x1,
               float y1,
               float radius,
               ImU32 top,
               ImU32 bottom) {
    const ImVec2 a = frame.at(x0, y0), b = frame.at(x1, y1);
    const int first = list->VtxBuffer.Size;
    list->AddRectFilled(ImVec2(ImMin(a.x, b.x), ImMin(a.y, b.y)),
                        ImVec2(ImMax(a.x, b.x), ImMax(a.y, b.y)),
                        frame.shown(top),
                        radius * frame.k);
    if (top != bottom) shade(list, frame, first, ImVec2(x0, y0), ImVec2(x0, y1), top, bottom);
}

void fillDisc(ImDrawList* list,
              const PartFrame& frame,
              float x,
              float y,
              float radius,
              ImU32 top,
              ImU32 bottom) {
    const int first = list->VtxBuffer.Size;
    list->AddCircleFilled(frame.at(x, y), radius * frame.k, frame.shown(top));
    if (top != bottom)
        shade(list, frame, first, ImVec2(x, y - radius), ImVec2(x, y + radius), top, bottom);
}

void drawBar(
    ImDrawList* list, const PartFrame& frame, ImVec2 a_mm, ImVec2 b_mm, float width, ImU32 colour) {
    const ImVec2 a = frame.at(a_mm.x, a_mm.y), b = frame.at(b_mm.x, b_mm.y);
    const float dx = b.x - a.x, dy = b.y - a.y;
    const float turn = ImAtan2(dy, dx), r = 0.5f * width * frame.k;
    list->PathArcTo(b, r, turn - IM_PI * 0.5f, turn + IM_PI * 0.5f, 8);
    list->PathArcTo(a, r, turn + IM_PI * 0.5f, turn + IM_PI * 1.5f, 8);
    list->PathFillConvex(frame.shown(colour));
}

void strokeCircle(ImDrawList* list,
                  const PartFrame& frame,
                  float x,
                  float y,
                  float radius,
                  float width,
                  ImU32 colour) {
    list->AddCircle(
        frame.at(x, y), radius * frame.k, frame.shown(colour), 0, ImMax(1.0f, width * frame.k));
}

void drawSpot(const PartDrawing& d, float x, float y, float radius, ImU32 colour) {
    const ImVec2 at = d.frame.at(x, y);
    const float r = radius * d.frame.k;
    d.list->PushTextureID(d.pictures->softSpot());
    d.list->PrimReserve(6, 4);
    d.list->PrimRectUV(ImVec2(at.x - r, at.y - r),
                       ImVec2(at.x + r, at.y + r),
                       ImVec2(0, 0),
                       ImVec2(1, 1),
                       d.frame.shown(colour));
    d.list->PopTextureID();
}

void drawLegend(const PartDrawing& d,
                float x,
                float y,
                float size,
                bool bold,
                ImU32 colour,
                const char* text,
                float least_px) {
    if (d.frame.k < 0.3f) return;
    const float wanted = size * d.frame.k;
    drawText(d.list,
             *d.fonts,
             {ImMax(wanted, ImMin(least_px * d.fonts->scale, wanted * 1.5f)),
              bold,
              d.frame.shown(colour)},
             d.frame.at(x, y),
             text);
}

} // namespace loom::art

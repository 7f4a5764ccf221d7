// SPDX-License-Identifier: MIT
#include "screen/art/board_art.h"

#include "screen/art/palette.h"

#include <imgui_internal.h>
#include <string>
#include <vector>

namespace loom::art {

namespace {

void quadUV(ImDrawList* list, Box box, ImVec2 uvMin, ImVec2 uvMax, ImU32 colour) {
    if (box.max.x <= box.min.x || box.max.y <= box.min.y) return;
    list->PrimReserve(6, 4);
    list->PrimRectUV(box.min, box.max, uvMin, uvMax, colour);
}

ImVec2 onCircle(ImVec2 centre, float radius, float turn) {
    return ImVec2(centre.x + radius * ImCos(turn), centre.y + radius * ImSin(turn));
}

} // namespace

void drawRoom(ImDrawList* list, Box window) {
    // A grid of corners shaded by their distance from the lamp over the bench.
    constexpr int kAcross = 8, kDown = 6;
    const ImVec2 white = ImGui::GetFontTexUvWhitePixel();
    list->PrimReserve(kAcross * kDown * 6, (kAcross + 1) * (kDown + 1));
    const ImDrawIdx first = static_cast<ImDrawIdx>(list->_VtxCurrentIdx);
    for (int y = 0; y <= kDown; ++y) {
        for (int x = 0; x <= kAcross; ++x) {
            const float u = static_cast<float>(x) / kAcross, v = static_cast<float>(y) / kDown;
            const float d = (u - 0.55f) * (u - 0.55f) + (v - 0.42f) * (v - 0.42f);
            const ImU32 colour = d < 0.12f ? blend(rgb(0x294245), tone::kRoom, d / 0.12f)
                                           : blend(tone::kRoom, rgb(0x1b2e30), (d - 0.12f) / 0.42f);
            list->PrimWriteVtx(
                ImVec2(window.min.x + u * window.width(), window.min.y + v * window.height()),
                white,
                colour);
        }
    }
    for (int y = 0; y < kDown; ++y) {
        for (int x = 0; x < kAcross; ++x) {
            const ImDrawIdx a = first + static_cast<ImDrawIdx>(y * (kAcross + 1) + x);
            const ImDrawIdx b = a + static_cast<ImDrawIdx>(kAcross + 1);
            for (const ImDrawIdx corner : {a, a + 1, b + 1, a, b + 1, b})
                list->PrimWriteIdx(corner);
        }
    }
}

void drawBoxShadow(ImDrawList* list, PictureStore& pictures, Box box, float reach_px, float alpha) {
    // The soft spot cut in nine: its corners stay, its middle is stretched.
    const ImU32 colour = fade(rgb(0x0d0a04), alpha);
    const float in = ImMin(reach_px, 0.5f * ImMin(box.width(), box.height()));
    const float x[4] = {box.min.x - reach_px, box.min.x + in, box.max.x - in, box.max.x + reach_px};
    const float y[4] = {box.min.y - reach_px, box.min.y + in, box.max.y - in, box.max.y + reach_px};
    const float uv[4] = {0.0f, 0.5f, 0.5f, 1.0f};
    list->PushTextureID(pictures.softSpot());
    for (int j = 0; j < 3; ++j)
        for (int i = 0; i < 3; ++i)
            quadUV(list,
                   {ImVec2(x[i], y[j]), ImVec2(x[i + 1], y[j + 1])},
                   ImVec2(uv[i], uv[j]),
                   ImVec2(uv[i + 1], uv[j + 1]),
                   colour);
    list->PopTextureID();
}

void drawBoard(ImDrawList* list, PictureStore& pictures, Box board) {
    constexpr float kRound = 10.0f;
    drawBoxShadow(
        list,
        pictures,
        {ImVec2(board.min.x, board.min.y + 5.0f), ImVec2(board.max.x, board.max.y + 5.0f)},
        15.0f,
        0.55f);
    // Its thickness shows at the lower edge.
    list->AddRectFilled(ImVec2(board.min.x, board.min.y + 4.0f),
                        ImVec2(board.max.x, board.max.y + 3.0f),
                        rgb(0x8d7647),
                        kRound);
    list->AddImageRounded(
        pictures.birch(), board.min, board.max, ImVec2(0, 0), ImVec2(1, 1), IM_COL32_WHITE, kRound);
    list->AddRect(board.min, board.max, tone::kBoardEdge, kRound, 0, 1.5f);
    list->AddRect(ImVec2(board.min.x + 1.6f, board.min.y + 1.6f),
                  ImVec2(board.max.x - 1.6f, board.max.y - 1.6f),
                  fade(IM_COL32_WHITE, 0.35f),
                  kRound - 1.5f,
                  0,
                  1.2f);
    const float inset = 18.0f, side = 13.0f;
    for (const ImVec2 at : {ImVec2(board.min.x + inset, board.min.y + inset),
                            ImVec2(board.max.x - inset, board.min.y + inset),
                            ImVec2(board.min.x + inset, board.max.y - inset),
                            ImVec2(board.max.x - inset, board.max.y - inset)}) {
        list->AddCircleFilled(
            ImVec2(at.x + 0.7f, at.y + 1.6f), side * 0.5f, fade(tone::kShadow, 0.35f));
        pictures.drawFitted(list, "fittings/screw", at, side);
    }
}

void drawTakesRing(ImDrawList* list, ImVec2 centre, float radius_px, float turn_rad) {
    // Pale under the dashes, so that the ring shows on dark plastic and on birch alike.
    list->AddCircle(centre, radius_px, fade(tone::kPaper, 0.75f), 0, 5.0f);
    const int dashes = ImClamp(static_cast<int>(radius_px * 0.52f), 8, 40);
    const float each = 2.0f * IM_PI / static_cast<float>(dashes);
    for (int i = 0; i < dashes; ++i) {
        const float from = turn_rad + each * static_cast<float>(i);
        list->PathArcTo(centre, radius_px, from, from + each * 0.58f, 4);
        list->PathStroke(tone::kAttention, 0, 3.2f);
    }
}

void drawRefusesRing(ImDrawList* list, ImVec2 centre, float radius_px) {
    const ImVec2 a = onCircle(centre, radius_px, 2.356f), b = onCircle(centre, radius_px, -0.785f);
    list->AddCircle(centre, radius_px, fade(tone::kPaper, 0.85f), 0, 5.5f);
    list->AddLine(a, b, fade(tone::kPaper, 0.85f), 5.5f);
    list->AddCircle(centre, radius_px, tone::kFault, 0, 3.0f);
    list->AddLine(a, b, tone::kFault, 3.0f);
}

void drawRing(ImDrawList* list, ImVec2 centre, float radius_px, bool focused) {
    list->AddCircle(centre, radius_px, fade(tone::kPaper, 0.85f), 0, 5.0f);
    list->AddCircle(centre, radius_px, tone::kAttention, 0, 3.0f);
    if (!focused) return;
    list->AddCircle(centre, radius_px + 5.0f, fade(tone::kPaper, 0.85f), 0, 4.0f);
    list->AddCircle(centre, radius_px + 5.0f, tone::kInk, 0, 2.0f);
}

void drawFrame(ImDrawList* list, Box box, float rounding_px, bool focused) {
    const auto grown = [&](float by, ImU32 colour, float thick) {
        list->AddRect(ImVec2(box.min.x - by, box.min.y - by),
                      ImVec2(box.max.x + by, box.max.y + by),
                      colour,
                      rounding_px + by,
                      0,
                      thick);
    };
    grown(3.0f, fade(tone::kPaper, 0.85f), 5.0f);
    grown(3.0f, tone::kAttention, 3.0f);
    if (!focused) return;
    grown(7.5f, fade(tone::kPaper, 0.85f), 4.0f);
    grown(7.5f, tone::kInk, 2.0f);
}

Box drawTag(ImDrawList* list,
            PictureStore& pictures,
            const FontSet& fonts,
            Box bounds,
            ImVec2 at_px,
            const char* first,
            const char* second,
            TagMark mark) {
    const float k = fonts.scale;
    const Lettering head{15.0f * k, true, tone::kInk}, body{14.0f * k, false, tone::kInkSoft};
    const ImVec2 a = textSize(fonts, head, first);
    std::vector<std::string> lines;
    for (const std::string_view said : linesOf(fonts, body, bounds.width() - 36.0f * k, second))
        lines.emplace_back(said);
    ImVec2 b(0, 0);
    for (const std::string& said : lines)
        b.x = ImMax(b.x, textSize(fonts, body, said.c_str()).x);
    b.y = static_cast<float>(lines.size()) * (body.size_px + 5.0f * k);
    const float w = ImMax(a.x, b.x) + 24.0f * k;
    const float h = head.size_px + b.y + 16.0f * k;
    const float beside = 30.0f * k;
    float x = at_px.x + beside, y = at_px.y - h - beside * 0.4f;
    if (x + w > bounds.max.x - 6.0f) x = at_px.x - beside - w;
    if (y < bounds.min.y + 6.0f) y = at_px.y + beside * 0.6f;
    x = ImMax(bounds.min.x + 6.0f, ImMin(x, bounds.max.x - 6.0f - w));
    y = ImMax(bounds.min.y + 6.0f, ImMin(y, bounds.max.y - 6.0f - h));
    const Box box{ImVec2(ImFloor(x) + 0.5f, ImFloor(y) + 0.5f),
                  ImVec2(ImFloor(x + w) + 0.5f, ImFloor(y + h) + 0.5f)};
    drawBoxShadow(list,
                  pictures,
                  {ImVec2(box.min.x, box.min.y + 3.0f), ImVec2(box.max.x, box.max.y + 3.0f)},
                  8.0f * k,
                  0.4f);
    list->AddRectFilled(box.min, box.max, tone::kPaper, 7.0f * k);
    const ImU32 line = mark == TagMark::Fault       ? tone::kFault
                       : mark == TagMark::Attention ? tone::kAttention
                                                    : tone::kPaperLine;
    list->AddRect(box.min, box.max, line, 7.0f * k, 0, 1.8f * k);
    const float middle = 0.5f * (box.min.x + box.max.x);
    const float firstY = box.min.y + 8.0f * k + head.size_px * 0.5f;
    drawText(list, fonts, head, ImVec2(middle, firstY), first);
    float lineY = firstY + head.size_px * 0.5f + 5.0f * k + body.size_px * 0.5f;
    for (const std::string& said : lines) {
        drawText(list, fonts, body, ImVec2(middle, lineY), said.c_str());
        lineY += body.size_px + 5.0f * k;
    }
    return box;
}

} // namespace loom::art

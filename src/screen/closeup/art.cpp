// SPDX-License-Identifier: MIT
#include "screen/closeup/art.h"

#include "screen/art/ribbon.h"

#include <algorithm>
#include <cmath>
#include <imgui_internal.h>

namespace loom::art {

namespace {

constexpr ImU32 kTin = rgb(0xc3cacb), kTinDark = rgb(0x4b5558), kTinPale = rgb(0xe7ebeb);
constexpr ImU32 kStrand = rgb(0xd98a45), kStrandPale = rgb(0xf0b778), kStrandDark = rgb(0x8a4a1a);
constexpr ImU32 kMoulding = rgb(0xf4eee2), kMouldingEdge = rgb(0xaa9f86), kHole = rgb(0x3a3222);
constexpr ImU32 kBoot = rgb(0x2f62b3), kCollar = rgb(0x87928f);

constexpr float kTongue_mm = 13.0f; // of a ring or spade, before its barrel
constexpr float kCollar_mm = 5.0f;  // plastic of a ferrule
constexpr float kPlate_mm = 1.1f;   // half the thickness of a ring's eye, seen from the side

bool isRing(bench::EndKind kind) {
    return kind == bench::EndKind::RingM6 || kind == bench::EndKind::RingM8;
}

bool isSpade(bench::EndKind kind) {
    return kind == bench::EndKind::Spade || kind == bench::EndKind::Piggyback;
}

void box(ImDrawList* list,
         const CutFrame& f,
         float x0,
         float y0,
         float x1,
         float y1,
         ImU32 fill,
         ImU32 edge,
         float round_mm = 0.4f) {
    list->AddRectFilled(f.at(x0, y0), f.at(x1, y1), fill, f.px(round_mm));
    list->AddRect(f.at(x0, y0), f.at(x1, y1), edge, f.px(round_mm), 0, 1.4f);
}

TubeTone tube(ImU32 body, float gloss) {
    return {body, gloss, 1.4f, 1.0f};
}

// Of the foremost of the end, where its barrel begins: a bare end has none.
float tongue_mm(bench::EndKind kind) {
    return isRing(kind) || isSpade(kind) ? kTongue_mm : 0.0f;
}

// One strand from the sleeve to the tip. share -1..1: its place across the bundle.
void drawStrand(ImDrawList* list, const CutFrame& f, const LargeEnd& end, float share, int number) {
    const EndPlaces p = placesOf(end);
    const float half = copperHalf_mm(end.area_m2) * 0.86f, length = p.copper_mm - p.sleeve_mm;
    const bool held = end.twisted || end.kind != bench::EndKind::Bare;
    constexpr int kSteps = 14;
    ImVec2 points[kSteps + 1];
    for (int i = 0; i <= kSteps; ++i) {
        const float along = static_cast<float>(i) / kSteps;
        float across = share * half;
        if (end.twisted && end.kind == bench::EndKind::Bare) { // round each other
            const float turn = std::asin(std::clamp(share, -1.0f, 1.0f)) + along * length * 0.55f;
            across = half * (1.0f - 0.18f * along) * std::sin(turn);
        } else if (!held) { // apart, the more the further out
            const float wave = std::sin(1.7f * static_cast<float>(number) + 2.4f * along);
            across = share * half * (1.0f + 0.75f * along * along) + 0.22f * half * along * wave;
        }
        points[i] = f.at(p.sleeve_mm + along * length, across);
    }
    const float wide = std::max(1.5f, f.px(half * 0.24f));
    list->AddPolyline(points, kSteps + 1, kStrandDark, 0, wide + 1.2f);
    list->AddPolyline(points, kSteps + 1, number % 2 == 0 ? kStrand : kStrandPale, 0, wide);
}

void drawStrandOut(ImDrawList* list, const CutFrame& f, const LargeEnd& end) {
    const EndPlaces p = placesOf(end);
    const float half = copperHalf_mm(end.area_m2);
    const ImVec2 a = f.at(p.sleeve_mm, half * 0.5f);
    const ImVec2 b = f.at(p.sleeve_mm + 3.2f, half * 0.6f);
    const ImVec2 c = f.at(p.strand_mm.x - 2.2f, p.strand_mm.y - 2.4f);
    const ImVec2 d = f.at(p.strand_mm.x, p.strand_mm.y);
    const float wide = std::max(2.0f, f.px(0.28f));
    list->AddBezierCubic(a, b, c, d, kStrandDark, wide + 1.4f);
    list->AddBezierCubic(a, b, c, d, kStrand, wide);
}

void drawStrands(ImDrawList* list, const CutFrame& f, const LargeEnd& end) {
    const EndPlaces p = placesOf(end);
    if (p.copper_mm <= p.sleeve_mm) return;
    if (end.twisted && end.kind == bench::EndKind::Bare)
        drawBarrel(list,
                   f.at(p.sleeve_mm, 0),
                   f.at(p.copper_mm, 0),
                   f.px(copperHalf_mm(end.area_m2) * 0.86f),
                   tube(kStrandDark, 0.3f));
    constexpr int kStrands = 9;
    for (int i = 0; i < kStrands; ++i)
        drawStrand(list, f, end, (static_cast<float>(i) - 4.0f) / 4.2f, (i * 5) % kStrands);
    if (end.strandOut) drawStrandOut(list, f, end);
}

void drawSleeve(ImDrawList* list, const CutFrame& f, const LargeEnd& end) {
    const EndPlaces p = placesOf(end);
    const float half = sleeveHalf_mm(end.area_m2);
    if (p.sleeve_mm <= end.from_mm + 0.1f) return;
    drawBarrel(
        list, f.at(end.from_mm, 0), f.at(p.sleeve_mm, 0), f.px(half), tube(end.sleeve, 1.0f));
    const float rim = f.px(0.5f); // the cut face, seen a little from the side
    list->AddRectFilled({f.at(p.sleeve_mm, 0).x - rim, f.at(0, -half).y},
                        {f.at(p.sleeve_mm, 0).x + rim * 0.4f, f.at(0, half).y},
                        blend(end.sleeve, IM_COL32_BLACK, 0.35f),
                        rim);
}

// A metal tube cut open: back and rim behind the copper.
void drawTubeBack(ImDrawList* list, const CutFrame& f, float x0, float x1, float half) {
    list->AddRectFilled(f.at(x0, -half), f.at(x1, half), blend(kTinDark, kTin, 0.35f), f.px(0.3f));
}

// Its walls above and below the copper, and the dents of the press.
void drawTubeFront(
    ImDrawList* list, const CutFrame& f, float x0, float x1, float half, bool pressed) {
    const float wall = 0.55f;
    for (const float side : {-1.0f, 1.0f}) {
        const float a = side * half, b = side * (half + wall);
        box(list, f, x0, std::min(a, b), x1, std::max(a, b), kTin, kTinDark, 0.2f);
        list->AddLine(f.at(x0 + 0.3f, (a + b) * 0.5f - 0.1f),
                      f.at(x1 - 0.3f, (a + b) * 0.5f - 0.1f),
                      kTinPale,
                      1.2f);
    }
    if (!pressed) return;
    for (const float share : {0.3f, 0.7f}) { // the walls bite
        const float x = x0 + (x1 - x0) * share;
        for (const float side : {-1.0f, 1.0f}) {
            const ImVec2 dent[] = {f.at(x - 1.2f, side * half),
                                   f.at(x + 1.2f, side * half),
                                   f.at(x, side * half * 0.55f)};
            list->AddTriangleFilled(dent[0], dent[1], dent[2], kTin);
            list->AddTriangle(dent[0], dent[1], dent[2], kTinDark, 1.2f);
        }
    }
}

void drawRingEye(ImDrawList* list, const CutFrame& f, float front, float half) {
    const float back = front - kTongue_mm;
    const ImVec2 neck[] = {f.at(back, -half - 0.5f),
                           f.at(back + 2.2f, -kPlate_mm),
                           f.at(back + 2.2f, kPlate_mm),
                           f.at(back, half + 0.5f)};
    list->AddConvexPolyFilled(neck, 4, kTin);
    list->AddPolyline(neck, 4, kTinDark, 0, 1.4f);
    box(list, f, back + 1.8f, -kPlate_mm, front, kPlate_mm, kTin, kTinDark, 0.3f);
    list->AddLine(f.at(back + 2.4f, -kPlate_mm + 0.4f),
                  f.at(front - 0.5f, -kPlate_mm + 0.4f),
                  kTinPale,
                  1.6f);
}

// From above: the folded receptacle with its rolled edges, open towards the tab.
void drawReceptacle(ImDrawList* list, const CutFrame& f, const LargeEnd& end) {
    const float front = end.front_mm, back = front - kTongue_mm + 0.5f;
    const float neck = copperHalf_mm(end.area_m2) + 0.3f;
    box(list, f, back - 1.2f, -neck, back + 1.5f, neck, kTin, kTinDark, 0.3f);
    if (end.kind == bench::EndKind::Piggyback) {
        box(list, f, back + 1.0f, -8.6f, front - 3.0f, -4.6f, kTin, kTinDark);
        box(list, f, front - 4.0f, -8.4f, front + 3.5f, -4.8f, kTinPale, kTinDark);
    }
    box(list, f, back, -4.2f, front, 4.2f, fade(kTin, 0.55f), kTinDark);
    for (const float side : {-1.0f, 1.0f}) {
        const float a = side * 3.2f, b = side * 4.6f;
        box(list, f, back + 1.0f, std::min(a, b), front, std::max(a, b), kTin, kTinDark, 0.6f);
    }
    list->AddCircle(f.at(front - 4.5f, 0), f.px(0.9f), kTinDark, 0, 1.4f); // where it catches
}

void drawFittingFront(ImDrawList* list, const CutFrame& f, const LargeEnd& end) {
    const float half = copperHalf_mm(end.area_m2) + (end.pressed ? 0.0f : 0.7f);
    const float head = end.front_mm - tongue_mm(end.kind);
    const float tail = head - end.barrel_mm;
    drawTubeFront(list, f, tail, head, half, end.pressed);
    if (isRing(end.kind)) drawRingEye(list, f, end.front_mm, half);
    if (isSpade(end.kind)) drawReceptacle(list, f, end);
    if (isRing(end.kind)) return;
    // The plastic at the rear of a ferrule or a spade, open on this side.
    const ImU32 plastic = isSpade(end.kind) ? kBoot : kCollar;
    const float wide = sleeveHalf_mm(end.area_m2) + 0.25f;
    for (const float side : {-1.0f, 1.0f}) {
        const ImVec2 lip[] = {f.at(tail + 1.0f, side * (half + 0.5f)),
                              f.at(tail + 1.0f, side * (half + 1.2f)),
                              f.at(tail - 1.6f, side * (wide + 0.8f)),
                              f.at(tail - kCollar_mm, side * (wide + 0.8f)),
                              f.at(tail - kCollar_mm, side * wide),
                              f.at(tail - 1.4f, side * wide)};
        list->AddConvexPolyFilled(lip, 6, plastic);
        list->AddPolyline(lip, 6, blend(plastic, IM_COL32_BLACK, 0.5f), ImDrawFlags_Closed, 1.2f);
    }
}

// A thread seen from the side.
void drawThread(ImDrawList* list, const CutFrame& f, float x, float y0, float y1, float half) {
    box(list, f, x - half, y0, x + half, y1, rgb(0xaeb6b8), rgb(0x6d787b), 0.2f);
    for (float y = y0 + 0.7f; y < y1 - 0.4f; y += 0.95f)
        list->AddLine(f.at(x - half, y + 0.35f), f.at(x + half, y - 0.25f), rgb(0x7c888b), 1.6f);
    list->AddRectFilled(f.at(x - half * 0.62f, y0 + 0.2f),
                        f.at(x - half * 0.3f, y1 - 0.2f),
                        IM_COL32(255, 255, 255, 90));
}

float channelHalf(const CutTerminal& t) {
    return std::max(3.1f, t.half_mm + 0.35f);
}

void drawClampBack(ImDrawList* list, const CutFrame& f, const CutTerminal& t) {
    const float end = t.deep_mm + 3.5f, half = channelHalf(t);
    list->AddRectFilled(f.at(0.3f, -half - 6.1f),
                        f.at(end + 0.4f, half + 5.2f),
                        fade(tone::kShadow, 0.25f),
                        f.px(0.9f));
    box(list, f, 0.0f, -half - 6.5f, end, half + 4.6f, kMoulding, kMouldingEdge, 0.9f);
    list->AddRectFilled(f.at(0.0f, -half - 0.2f), f.at(t.deep_mm, half + 0.2f), kHole, f.px(0.3f));
    // The brass cage that carries the current.
    list->AddRect(f.at(1.8f, -half - 0.7f),
                  f.at(t.deep_mm - 0.8f, half + 0.7f),
                  tone::kBrassDark,
                  f.px(0.6f),
                  0,
                  f.px(1.25f));
    list->AddRect(f.at(1.8f, -half - 0.7f),
                  f.at(t.deep_mm - 0.8f, half + 0.7f),
                  tone::kBrass,
                  f.px(0.6f),
                  0,
                  f.px(0.95f));
    // Open again where the cable goes in.
    list->AddRectFilled(f.at(-0.1f, -half + 0.1f), f.at(3.0f, half - 0.1f), kHole);
    list->AddLine(f.at(t.deep_mm, -half), f.at(t.deep_mm, half), kMouldingEdge, 2.0f);
}

void drawClampScrew(ImDrawList* list, const CutFrame& f, const CutTerminal& t) {
    const float tip = -t.half_mm - t.lifted_mm, head = screwHead_mm(t).y;
    const int from = list->VtxBuffer.Size;
    drawThread(list, f, t.screw_mm, head + 1.8f, tip - 1.3f, 1.9f);
    box(list,
        f,
        t.screw_mm - 1.2f,
        tip - 1.6f,
        t.screw_mm + 1.2f,
        tip,
        rgb(0x9aa4a6),
        rgb(0x5d686b),
        0.3f);
    box(list,
        f,
        t.screw_mm - 2.8f,
        head,
        t.screw_mm + 2.8f,
        head + 2.2f,
        rgb(0xb9c1c3),
        rgb(0x5d686b),
        0.5f);
    box(list,
        f,
        t.screw_mm - 1.7f,
        head + 0.2f,
        t.screw_mm + 1.7f,
        head + 0.75f,
        rgb(0x4b5558),
        rgb(0x4b5558),
        0.1f);
    if (!t.broken) return;
    ImGui::ShadeVertsTransformPos(list,
                                  from,
                                  list->VtxBuffer.Size,
                                  f.at(t.screw_mm, head),
                                  std::cos(0.16f),
                                  std::sin(0.16f),
                                  f.at(t.screw_mm, head));
    const ImVec2 crack[] = {f.at(t.screw_mm - 2.2f, head + 3.4f),
                            f.at(t.screw_mm - 0.6f, head + 2.7f),
                            f.at(t.screw_mm + 0.4f, head + 3.9f),
                            f.at(t.screw_mm + 2.1f, head + 3.0f)};
    list->AddPolyline(crack, 4, tone::kFault, 0, 3.0f);
}

float studHalf(const CutTerminal& t) {
    return t.kind == bench::TerminalKind::StudM8 ? 4.0f : 3.0f;
}

void drawStudBack(ImDrawList* list, const CutFrame& f, const CutTerminal& t) {
    const float half = studHalf(t);
    box(list,
        f,
        -1.5f,
        kPlate_mm + 1.0f,
        18.0f,
        kPlate_mm + 6.5f,
        rgb(0x39464a),
        rgb(0x1d2526),
        0.8f);
    box(list,
        f,
        t.screw_mm - half * 2.0f,
        kPlate_mm,
        t.screw_mm + half * 2.0f,
        kPlate_mm + 1.2f,
        tone::kBrass,
        tone::kBrassDark,
        0.2f);
    drawThread(list, f, t.screw_mm, -12.0f, kPlate_mm, half);
}

void drawNut(ImDrawList* list, const CutFrame& f, const CutTerminal& t) {
    const float half = studHalf(t), flat = half * 1.75f, high = half * 1.6f;
    const float foot = -kPlate_mm - t.lifted_mm;
    box(list,
        f,
        t.screw_mm - flat - 0.8f,
        foot - 0.9f,
        t.screw_mm + flat + 0.8f,
        foot,
        kTin,
        kTinDark,
        0.2f);
    box(list,
        f,
        t.screw_mm - flat,
        foot - 0.9f - high,
        t.screw_mm + flat,
        foot - 0.9f,
        tone::kBrass,
        tone::kBrassDark,
        0.6f);
    for (const float side : {-0.45f, 0.45f})
        list->AddLine(f.at(t.screw_mm + side * flat, foot - 1.1f),
                      f.at(t.screw_mm + side * flat, foot - 0.7f - high),
                      tone::kBrassDark,
                      1.6f);
    list->AddRectFilled(f.at(t.screw_mm - flat * 0.38f, foot - 0.6f - high),
                        f.at(t.screw_mm - flat * 0.2f, foot - 1.3f),
                        fade(IM_COL32_WHITE, 0.45f));
    if (!t.broken) return;
    const ImVec2 crack[] = {f.at(t.screw_mm - half, foot - high - 2.2f),
                            f.at(t.screw_mm - 0.8f, foot - high - 3.1f),
                            f.at(t.screw_mm + 0.9f, foot - high - 1.9f),
                            f.at(t.screw_mm + half, foot - high - 2.8f)};
    list->AddPolyline(crack, 4, tone::kFault, 0, 3.0f);
}

void drawTabBack(ImDrawList* list, const CutFrame& f, const CutTerminal& t) {
    box(list, f, t.deep_mm, -8.0f, t.deep_mm + 7.0f, 8.0f, rgb(0x39464a), rgb(0x1d2526), 0.8f);
    box(list, f, 0.8f, -3.15f, t.deep_mm + 1.0f, 3.15f, tone::kBrass, tone::kBrassDark, 0.2f);
    const ImVec2 tip[] = {
        f.at(0.9f, -3.15f), f.at(0.9f, 3.15f), f.at(0.0f, 2.2f), f.at(0.0f, -2.2f)};
    list->AddConvexPolyFilled(tip, 4, tone::kBrass);
    list->AddLine(f.at(0.6f, -2.3f), f.at(t.deep_mm, -2.3f), tone::kBrassPale, 2.0f);
    list->AddCircleFilled(f.at(t.deep_mm * 0.5f, 0), f.px(0.8f), tone::kBrassDark);
}

} // namespace

float copperHalf_mm(double area_m2) {
    const double across_mm = 1.15 * 2.0 * std::sqrt(area_m2 * 1e6 / 3.14159265);
    return static_cast<float>(0.8 * std::sqrt(across_mm * std::sqrt(across_mm)));
}

float sleeveHalf_mm(double area_m2) {
    return copperHalf_mm(area_m2) + 0.9f;
}

EndPlaces placesOf(const LargeEnd& end) {
    EndPlaces p;
    const float head = end.front_mm - tongue_mm(end.kind); // where the copper could reach to
    if (end.kind == bench::EndKind::Bare) {
        p.copper_mm = end.front_mm;
        p.sleeve_mm = end.front_mm - end.strip_mm;
    } else { // the sleeve cannot follow into the barrel
        p.sleeve_mm = std::min(head - end.barrel_mm, head - end.strip_mm);
        p.copper_mm = p.sleeve_mm + end.strip_mm;
    }
    p.strand_mm = {p.sleeve_mm + 5.5f, sleeveHalf_mm(end.area_m2) + 4.6f};
    return p;
}

void drawLargeEnd(ImDrawList* list, const CutFrame& f, const LargeEnd& end) {
    const bool fitted = end.kind != bench::EndKind::Bare;
    const float head = end.front_mm - tongue_mm(end.kind);
    const float half = copperHalf_mm(end.area_m2) + (end.pressed ? 0.0f : 0.7f);
    if (fitted) drawTubeBack(list, f, head - end.barrel_mm, head, half);
    drawStrands(list, f, end);
    drawSleeve(list, f, end);
    if (fitted) drawFittingFront(list, f, end);
}

ImVec2 screwHead_mm(const CutTerminal& t) {
    if (t.kind == bench::TerminalKind::Clamp)
        return {t.screw_mm, -channelHalf(t) - 5.0f - t.lifted_mm * 0.8f};
    return {t.screw_mm, -12.0f};
}

void drawTerminalBack(ImDrawList* list, const CutFrame& frame, const CutTerminal& t) {
    if (t.kind == bench::TerminalKind::Clamp) return drawClampBack(list, frame, t);
    if (t.kind == bench::TerminalKind::Tab) return drawTabBack(list, frame, t);
    drawStudBack(list, frame, t);
}

void drawTerminalFront(ImDrawList* list, const CutFrame& frame, const CutTerminal& t) {
    if (t.kind == bench::TerminalKind::Clamp) return drawClampScrew(list, frame, t);
    if (t.kind == bench::TerminalKind::Tab) return;
    // The stud in front of the ring's far half.
    const float half = studHalf(t);
    drawThread(list, frame, t.screw_mm, -12.0f, -kPlate_mm, half);
    drawNut(list, frame, t);
}

void drawToolOn(
    ImDrawList* list, const CutFrame& f, const CutTerminal& t, float top_px, float turned) {
    if (t.kind == bench::TerminalKind::Clamp) {
        const ImVec2 head = f.at(t.screw_mm, screwHead_mm(t).y + 0.6f);
        const float shaft = f.px(0.75f), grip = f.px(1.9f);
        const float grip_px = std::min(top_px + f.px(5.0f), head.y - f.px(2.0f));
        drawBarrel(list, {head.x, grip_px}, head, shaft, tube(rgb(0xb9c1c3), 1.0f));
        drawBarrel(list, {head.x, top_px}, {head.x, grip_px}, grip, tube(rgb(0xe0a23a), 1.0f));
        const float rib = grip * std::sin(turned * IM_PI); // a flute that goes round with it
        if (std::cos(turned * IM_PI) > -0.2f)
            list->AddLine({head.x + rib, top_px + grip * 0.5f},
                          {head.x + rib, grip_px - grip * 0.4f},
                          rgb(0x7a4f12),
                          2.0f);
        return;
    }
    if (t.kind == bench::TerminalKind::Tab) return;
    // From the side: the jaw over the nut, the handle towards the right, nearer or further.
    const float half = studHalf(t), high = half * 1.6f, foot = -kPlate_mm - t.lifted_mm - 0.9f;
    const float reach = 11.0f + 6.0f * std::fabs(std::cos(turned * IM_PI));
    const float y = foot - high * 0.5f;
    box(list,
        f,
        t.screw_mm + half * 0.8f,
        y - high * 0.28f,
        t.screw_mm + reach,
        y + high * 0.28f,
        rgb(0xaeb6b8),
        rgb(0x5d686b),
        0.8f);
    box(list,
        f,
        t.screw_mm - half * 2.1f,
        y - high * 0.4f,
        t.screw_mm + half * 2.1f,
        y + high * 0.4f,
        rgb(0xc3cacb),
        rgb(0x5d686b),
        0.9f);
}

void drawTorqueDial(ImDrawList* list, ImVec2 hub, float radius_px, const TorqueDial& dial) {
    const auto angleOf = [&](float torque) {
        return IM_PI * (1.0f + std::clamp(torque / dial.end, 0.0f, 1.0f));
    };
    const auto arc = [&](float from, float to, ImU32 colour) {
        list->PathArcTo(hub, radius_px, angleOf(from), angleOf(to), 32);
        list->PathStroke(colour, 0, radius_px * 0.2f);
    };
    arc(0.0f, dial.end, rgb(0xcabb93));
    arc(dial.most, dial.end, tone::kFault);
    arc(dial.least, dial.most, tone::kDone);
    // Beyond the breaking point: hatched, so that it does not rest on colour.
    for (int i = 0; i < 5; ++i) {
        const float share =
            dial.breaks + (dial.end - dial.breaks) * (0.1f + 0.2f * static_cast<float>(i));
        const float a = angleOf(share);
        list->AddLine(
            {hub.x + std::cos(a) * radius_px * 0.91f, hub.y + std::sin(a) * radius_px * 0.91f},
            {hub.x + std::cos(a) * radius_px * 1.09f, hub.y + std::sin(a) * radius_px * 1.09f},
            tone::kPaper,
            2.0f);
    }
    const float head = radius_px * 0.3f;
    const float a = angleOf(dial.broken ? dial.end : dial.now);
    list->AddLine(
        {hub.x + std::cos(a) * head, hub.y + std::sin(a) * head},
        {hub.x + std::cos(a) * radius_px * 0.86f, hub.y + std::sin(a) * radius_px * 0.86f},
        tone::kInk,
        std::max(3.0f, radius_px * 0.05f));
    list->AddCircleFilled(hub, head, dial.hexagon ? tone::kBrassDark : tone::kSteelDark);
    if (dial.hexagon) {
        for (int i = 0; i < 6; ++i) {
            const float t = dial.turned_rad + static_cast<float>(i) * IM_PI / 3.0f;
            list->PathLineTo(
                {hub.x + std::cos(t) * head * 0.95f, hub.y + std::sin(t) * head * 0.95f});
        }
        list->PathFillConvex(tone::kBrass);
        list->AddCircleFilled(hub, head * 0.45f, tone::kBrassDark);
        return;
    }
    list->AddCircleFilled(hub, head * 0.9f, tone::kSteel);
    const ImVec2 slot(std::cos(dial.turned_rad) * head * 0.75f,
                      std::sin(dial.turned_rad) * head * 0.75f);
    list->AddLine({hub.x - slot.x, hub.y - slot.y},
                  {hub.x + slot.x, hub.y + slot.y},
                  tone::kInk,
                  head * 0.24f);
}

} // namespace loom::art

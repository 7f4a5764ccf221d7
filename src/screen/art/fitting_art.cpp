// SPDX-License-Identifier: MIT
#include "screen/art/fitting_art.h"

#include "screen/art/palette.h"
#include "screen/art/ribbon.h"
#include "yard/seat.h"

#include <imgui_internal.h>

namespace loom::art {

namespace {

constexpr ImU32 kTin = rgb(0xc3cacb), kTinDark = rgb(0x4b5558);

// Measures in metres, along the cable from the fitting's middle.
constexpr float kRingM6_m = 0.0138f, kRingM8_m = 0.0152f, kRingHole_m = 0.0068f;
constexpr float kRingBarrel_m = 0.021f, kRingTube_m = 0.031f;
constexpr float kSpadeMouth_m = -0.0045f, kBoot_m = 0.004f;
constexpr float kBootEnd_m = static_cast<float>(yard::kBootEnd_m);
constexpr float kSpareTab_m = static_cast<float>(yard::kSpareTab_m);
constexpr float kPin_m = static_cast<float>(yard::kFerrulePin_m);
constexpr float kCollar_m = static_cast<float>(yard::kFerruleCollar_m);
constexpr float kCopper_m = static_cast<float>(yard::kBareCopper_m);

// Insulated crimps: red, blue and yellow by size (common practice, no source).
ImU32 bootColour(double area_m2) {
    if (area_m2 <= 1.55e-6) return rgb(0xc23a2e);
    return area_m2 <= 2.6e-6 ? rgb(0x2f62b3) : rgb(0xe0bd35);
}

// Ferrule collars by area, DIN 46228-4 (from memory).
ImU32 collarColour(double area_m2) {
    const double area_mm2 = area_m2 * 1e6;
    if (area_mm2 < 0.6) return rgb(0xe9ebe7);
    if (area_mm2 < 0.9) return rgb(0x87928f);
    if (area_mm2 < 1.2) return rgb(0xc8392c);
    if (area_mm2 < 2.0) return rgb(0x2a3335);
    if (area_mm2 < 3.0) return rgb(0x2f5fb0);
    if (area_mm2 < 5.0) return rgb(0x87928f);
    return area_mm2 < 8.0 ? rgb(0xe0bd35) : rgb(0xc8392c);
}

// A fitting's own axes on the screen.
struct Frame {
    ImVec2 at, out, across;
    float k; // px per metre

    ImVec2 place(float along_m, float across_m = 0.0f) const {
        return ImVec2(at.x + (out.x * along_m + across.x * across_m) * k,
                      at.y + (out.y * along_m + across.y * across_m) * k);
    }
};

TubeTone metal(ImU32 body, float k, float alpha) {
    return {body, 0.9f, ImClamp(0.0009f * k, 0.6f, 1.4f), alpha};
}

void drawRing(
    ImDrawList* list, const Frame& f, float outer_m, float barrel_m, ImU32 tube, float alpha) {
    const TubeTone tin = metal(kTin, f.k, alpha);
    drawBarrel(list, f.place(outer_m * 0.72f), f.place(kRingBarrel_m), barrel_m * f.k, tin);
    const float middle = 0.5f * (outer_m + kRingHole_m) * f.k,
                thick = (outer_m - kRingHole_m) * f.k;
    list->AddCircle(f.at, middle, fade(kTinDark, alpha), 0, thick + 1.6f);
    list->AddCircle(f.at, middle, fade(kTin, alpha), 0, thick - 0.4f);
    // Light from the upper left runs round the eyelet.
    list->PathArcTo(f.at, outer_m * 0.90f * f.k, 2.7f, 5.2f, 14);
    list->PathStroke(fade(IM_COL32_WHITE, 0.75f * alpha), 0, ImMax(1.0f, 0.0011f * f.k));
    list->PathArcTo(f.at, outer_m * 0.86f * f.k, -0.4f, 2.0f, 14);
    list->PathStroke(fade(kTinDark, 0.35f * alpha), 0, ImMax(1.0f, 0.0013f * f.k));
    drawBarrel(list,
               f.place(kRingBarrel_m - 0.004f),
               f.place(kRingTube_m),
               (barrel_m + 0.0009f) * f.k,
               {tube, 0.35f, ImClamp(0.0009f * f.k, 0.6f, 1.4f), alpha});
}

void drawReceptacle(ImDrawList* list, const Frame& f, bool hasSpareTab, ImU32 boot, float alpha) {
    if (hasSpareTab) {
        drawBarrel(list,
                   f.place(0.003f, 0.006f),
                   f.place(0.003f, kSpareTab_m + 0.002f),
                   0.0024f * f.k,
                   metal(kTin, f.k, alpha));
        drawBarrel(list,
                   f.place(0.006f, kSpareTab_m),
                   f.place(kSpadeMouth_m - 0.004f, kSpareTab_m),
                   0.0034f * f.k,
                   metal(kTin, f.k, alpha));
    }
    drawBarrel(list,
               f.place(kSpadeMouth_m),
               f.place(kBoot_m + 0.003f),
               0.0058f * f.k,
               metal(kTin, f.k, alpha));
    // The rolled edges of the receptacle.
    for (float side : {-1.0f, 1.0f})
        list->AddLine(f.place(kSpadeMouth_m + 0.001f, side * 0.0034f),
                      f.place(kBoot_m, side * 0.0034f),
                      fade(kTinDark, 0.8f * alpha),
                      ImMax(1.0f, 0.0008f * f.k));
    Line line;
    float half[4];
    TubeTone tones[4];
    const float share[4] = {0.0f, 0.55f, 0.7f, 1.0f},
                wide_m[4] = {0.0064f, 0.0062f, 0.0046f, 0.0043f};
    for (int i = 0; i < 4; ++i) {
        line.add(f.place(kBoot_m + (kBootEnd_m - kBoot_m) * share[i]));
        half[i] = wide_m[i] * f.k;
        tones[i] = {boot, 0.8f, ImClamp(0.0009f * f.k, 0.6f, 1.4f), alpha};
    }
    line.findNormals();
    drawTube(list, line, half, tones);
    list->AddLine(
        f.place(kBoot_m, -0.0064f), f.place(kBoot_m, 0.0064f), fade(tone::kTubeEdge, alpha), 1.0f);
}

void drawCopper(
    ImDrawList* list, const Frame& f, float from_m, float to_m, float half_m, float alpha) {
    drawBarrel(
        list, f.place(from_m), f.place(to_m), half_m * f.k, metal(rgb(0xd08a4a), f.k, alpha));
    // Strands, a little twisted.
    for (int i = -1; i <= 1; ++i)
        list->AddLine(f.place(from_m, (static_cast<float>(i) * 0.55f - 0.2f) * half_m),
                      f.place(to_m, (static_cast<float>(i) * 0.55f + 0.2f) * half_m),
                      fade(rgb(0x7d4418), 0.7f * alpha),
                      ImMax(0.8f, 0.0005f * f.k));
}

} // namespace

void drawStudNut(ImDrawList* list, ImVec2 at_px, float px_per_m, bool isM8, float alpha) {
    const float k = px_per_m * (isM8 ? 1.12f : 1.0f);
    const auto hexagon = [&](float radius_m, ImU32 colour) {
        for (int i = 0; i < 6; ++i) {
            const float turn = 0.244f + static_cast<float>(i) * IM_PI / 3.0f;
            list->PathLineTo(
                ImVec2(at_px.x + ImCos(turn) * radius_m * k, at_px.y + ImSin(turn) * radius_m * k));
        }
        list->PathFillConvex(fade(colour, alpha));
    };
    hexagon(0.0092f, rgb(0x4d3a12));
    hexagon(0.0083f, rgb(0xcfae5a));
    list->PathArcTo(at_px, 0.0066f * k, 2.6f, 5.3f, 10);
    list->PathStroke(fade(rgb(0xf8ecc4), 0.85f * alpha), 0, ImMax(1.0f, 0.0011f * k));
    list->AddCircleFilled(at_px, 0.0046f * k, fade(rgb(0x6a5220), alpha));
    list->AddCircleFilled(at_px, 0.0039f * k, fade(rgb(0xd9bd74), alpha));
    list->AddCircleFilled(ImVec2(at_px.x - 0.0005f * k, at_px.y - 0.0006f * k),
                          0.0023f * k,
                          fade(rgb(0xf1dfa6), alpha));
}

void drawEnd(ImDrawList* list,
             ImVec2 at_px,
             float px_per_m,
             const EndSeat& seat,
             double area_m2,
             ImU32 sleeve,
             float alpha) {
    const Frame f{at_px, seat.leaves, ImVec2(-seat.leaves.y, seat.leaves.x), px_per_m};
    const float half_m = 0.5f * sleeveWidth_m(area_m2);
    switch (seat.kind) {
    case bench::EndKind::RingM6:
    case bench::EndKind::RingM8: {
        const bool isM8 = seat.kind == bench::EndKind::RingM8;
        drawRing(list,
                 f,
                 isM8 ? kRingM8_m : kRingM6_m,
                 ImMax(0.0035f, half_m * 0.86f),
                 blend(sleeve, rgb(0x15191a), 0.55f),
                 alpha);
        if (seat.joined) drawStudNut(list, at_px, px_per_m, isM8, alpha);
        break;
    }
    case bench::EndKind::Spade:
    case bench::EndKind::Piggyback:
        drawReceptacle(list, f, seat.kind == bench::EndKind::Piggyback, bootColour(area_m2), alpha);
        break;
    case bench::EndKind::Ferrule: {
        const float from_m = seat.joined ? 0.0f : kPin_m;
        if (!seat.joined)
            drawBarrel(list,
                       f.place(0.0f),
                       f.place(kPin_m + 0.002f),
                       0.55f * half_m * px_per_m,
                       metal(kTin, px_per_m, alpha));
        drawBarrel(list,
                   f.place(from_m),
                   f.place(from_m + kCollar_m),
                   1.12f * half_m * px_per_m,
                   {collarColour(area_m2), 0.5f, ImClamp(0.0009f * px_per_m, 0.6f, 1.4f), alpha});
        break;
    }
    case bench::EndKind::Bare:
        if (!seat.joined) drawCopper(list, f, 0.0f, kCopper_m, 0.62f * half_m, alpha);
        break;
    }
}

void drawFitting(
    ImDrawList* list, ImVec2 centre, float length_px, bench::EndKind kind, double area_m2) {
    constexpr float kTall_m = 0.046f;
    const float k = length_px / kTall_m;
    EndSeat seat;
    seat.kind = kind;
    seat.leaves = ImVec2(0, 1);
    const ImVec2 at(centre.x, centre.y - 0.5f * length_px + 0.014f * k);
    const float half_px = 0.5f * sleeveWidth_m(area_m2) * k;
    drawBarrel(list,
               ImVec2(at.x, at.y + sleeveStart_m(seat, sleeveWidth_m(area_m2)) * k),
               ImVec2(at.x, centre.y + 0.5f * length_px),
               half_px,
               {sleeveTone(bench::Sleeve::Red).body, 1.0f, 1.0f, 1.0f});
    drawEnd(list, at, k, seat, area_m2, sleeveTone(bench::Sleeve::Red).body, 1.0f);
}

} // namespace loom::art

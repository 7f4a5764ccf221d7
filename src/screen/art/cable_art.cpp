// SPDX-License-Identifier: MIT
#include "screen/art/cable_art.h"

#include "screen/art/cable_heat.h"
#include "screen/art/fitting_art.h"
#include "screen/art/palette.h"
#include "screen/art/ribbon.h"

#include <cmath>
#include <imgui_internal.h>

namespace loom::art {

namespace {

constexpr float kShimmerEvery_m = 0.092f;
constexpr float kLeastCurrent_A = 1e-3f;
constexpr int kStrokePoints = 12;

void toLine(const BoardView& view, const Route& route, Line& line) {
    for (const ImVec2& point : route.points_m)
        line.add(view.toScreen(point));
    line.findNormals();
}

// 0 at 1 mA, 1 at 100 A.
float logShare(float current_A) {
    return ImClamp(std::log10(std::fabs(current_A) / kLeastCurrent_A) / 5.0f, 0.0f, 1.25f);
}

// One stroke from tail to head, thin end behind.
void drawStroke(ImDrawList* list,
                const BoardView& view,
                const Route& route,
                float tail_m,
                float head_m,
                float half_px,
                float alpha) {
    Line line;
    float widths[kStrokePoints];
    for (int i = 0; i < kStrokePoints; ++i) {
        const float s = static_cast<float>(i) / (kStrokePoints - 1);
        const float along = ImClamp(tail_m + (head_m - tail_m) * s, 0.0f, route.drawn_m);
        line.add(view.toScreen(pointAlong(route, along).at_m));
        const float nose =
            s > 0.8f ? ImSqrt(ImMax(0.0f, 1.0f - (s - 0.8f) * (s - 0.8f) * 25.0f)) : 1.0f;
        widths[i] = half_px * ImMin(1.0f, s * 1.15f) * nose;
    }
    line.findNormals();
    const ImU32 core = fade(rgb(0xfffbe9), 0.95f * alpha), rim = fade(rgb(0x3a2a08), 0.42f * alpha);
    const ImU32 none = fade(rim, 0.0f);
    drawStrip(list, line, 6, [&](int i, int lane) -> LaneVertex {
        const float w = widths[i], sign = lane < 3 ? 1.0f : -1.0f;
        const int depth = lane < 3 ? lane : 5 - lane;
        if (depth == 0) return {sign * (w + 1.5f), none};
        if (depth == 1) return {sign * (w + 0.6f), rim};
        return {sign * ImMax(0.0f, w - 0.3f), core};
    });
}

void drawShimmer(ImDrawList* list,
                 const BoardView& view,
                 const Route& route,
                 const CableLook& look) {
    if (!(std::fabs(look.current_A) >= kLeastCurrent_A) || route.drawn_m <= 0.0f) return;
    const float share = logShare(look.current_A);
    const float length_m = 0.014f + 0.058f * share;
    const float half_px = 0.5f * route.width_m * view.px_per_m * (0.16f + 0.38f * share);
    const float sign = look.current_A > 0.0f ? 1.0f : -1.0f;
    const float phase = std::fmod(look.phase_m, kShimmerEvery_m);
    // Heads stand at phase, phase + every, ... along the current; the ends cut them off.
    for (float head = phase; head - length_m < route.drawn_m; head += kShimmerEvery_m) {
        const float tail = ImMax(head - length_m, 0.0f), tip = ImMin(head, route.drawn_m);
        if (tip - tail < 0.15f * length_m) continue;
        if (sign > 0.0f)
            drawStroke(list, view, route, tail, tip, half_px, look.alpha);
        else
            drawStroke(
                list, view, route, route.drawn_m - tail, route.drawn_m - tip, half_px, look.alpha);
    }
}

// A line of light round the whole cable.
void drawGlow(ImDrawList* list, const Line& line, float half_px, ImU32 colour) {
    drawSoftBand(list, line, half_px + 3.5f, 2.0f, colour);
}

} // namespace

void drawCableShadow(ImDrawList* list,
                     const BoardView& view,
                     const Route& route,
                     const CableLook& look) {
    if (route.points_m.size() < 2) return;
    const float k = view.px_per_m / 800.0f, lift = look.held ? 2.4f : 1.0f;
    Line line;
    const ImVec2 fall(1.6f * k * lift, 4.2f * k * lift);
    const auto shifted = [&](ImVec2 at_m) {
        const ImVec2 at = view.toScreen(at_m);
        return ImVec2(at.x + fall.x, at.y + fall.y);
    };
    // Under the fittings too; a bare end that is clamped begins inside.
    const auto reaches = [&](int end) {
        return sleeveStart_m(route.ends[end], route.width_m) > 0.0f;
    };
    if (reaches(0)) line.add(shifted(route.ends[0].terminal_m));
    for (const ImVec2& point : route.points_m)
        line.add(shifted(point));
    if (reaches(1)) line.add(shifted(route.ends[1].terminal_m));
    line.findNormals();
    drawSoftBand(list,
                 line,
                 0.5f * route.width_m * view.px_per_m,
                 (2.2f + 1.6f * lift) * k,
                 fade(tone::kShadow, (look.held ? 0.26f : 0.34f) * look.alpha));
}

void drawCable(ImDrawList* list,
               PictureStore& pictures,
               const BoardView& view,
               const Route& route,
               const CableLook& look) {
    if (route.points_m.size() < 2) return;
    Line line;
    toLine(view, route, line);
    const float half_px = 0.5f * route.width_m * view.px_per_m;
    if (look.held || look.selected)
        drawGlow(list, line, half_px, fade(tone::kAttention, 0.9f * look.alpha));
    if (look.focused) {
        drawSoftBand(list, line, half_px + 6.5f, 1.0f, fade(tone::kAttention, 0.9f * look.alpha));
        drawSoftBand(list, line, half_px + 4.0f, 1.0f, fade(tone::kBoard, look.alpha));
    }
    const ImU32 body = sleeveTone(look.sleeve).body;
    const SleeveHeat heat = sleeveHeat(look);
    if (heat.isCool)
        drawTube(list,
                 line,
                 half_px,
                 {body,
                  look.sleeve == bench::Sleeve::Black ? 1.25f : 1.0f,
                  ImClamp(0.0014f * view.px_per_m, 0.7f, 1.8f),
                  look.alpha});
    else
        drawHotSleeve(list, pictures, line, half_px, body, heat, look);
    if (look.condition != bench::CableCondition::Parted) drawShimmer(list, view, route, look);
    for (const EndSeat& seat : route.ends)
        drawEnd(list,
                view.toScreen(seat.terminal_m),
                view.px_per_m,
                seat,
                look.area_m2,
                body,
                look.alpha);
}

void drawCableSmoke(ImDrawList* list,
                    PictureStore& pictures,
                    const BoardView& view,
                    const Route& route,
                    const CableLook& look) {
    if (route.points_m.size() < 2) return;
    const float amount = smokeOf(look);
    if (amount <= 0.0f) return;
    const float every_m = 0.045f;
    int which = 0;
    for (float along = 0.5f * every_m; along < route.drawn_m; along += every_m, ++which)
        drawWisp(list,
                 pictures,
                 view.toScreen(pointAlong(route, along).at_m),
                 view.px_per_m,
                 look.time_s + 1.7f * static_cast<float>(which * 37 % 11),
                 which,
                 amount * look.alpha);
}

void drawHungCable(ImDrawList* list,
                   PictureStore& pictures,
                   ImVec2 centre,
                   float px_per_m,
                   const CableLook& look) {
    Route route;
    CableSpan span;
    span.width_m = sleeveWidth_m(look.area_m2);
    span.length_m = 0.12f;
    for (int i = 0; i < 2; ++i) {
        span.ends[i].kind = bench::EndKind::Bare;
        span.ends[i].terminal_m = ImVec2(i == 0 ? -0.012f : 0.012f, 0.024f);
        span.ends[i].leaves = ImVec2(0, -1);
    }
    layRoute(span, route);
    const BoardView view{centre, px_per_m};
    drawCableShadow(list, view, route, look);
    drawCable(list, pictures, view, route, look);
}

void drawReel(ImDrawList* list, ImVec2 centre, float radius_px, bench::Sleeve sleeve) {
    const ImU32 body = sleeveTone(sleeve).body;
    list->AddCircleFilled(centre, radius_px + 1.0f, rgb(0x0f1516));
    for (int ring = 0; ring < 5; ++ring) {
        const float r = radius_px * (1.0f - 0.13f * static_cast<float>(ring));
        list->AddCircleFilled(centre, r, blend(body, rgb(0x000000), 0.45f));
        list->AddCircleFilled(ImVec2(centre.x - 0.4f, centre.y - 0.5f),
                              r - ImMax(1.0f, radius_px * 0.03f),
                              blend(body, IM_COL32_WHITE, 0.04f * static_cast<float>(4 - ring)));
    }
    list->AddCircleFilled(centre, radius_px * 0.42f, rgb(0x3a3122));
    list->AddCircleFilled(centre, radius_px * 0.38f, rgb(0xd9cdb0));
    list->AddCircleFilled(centre, radius_px * 0.16f, rgb(0x22383a));
    list->PathArcTo(centre, radius_px * 0.78f, 3.4f, 4.9f, 12);
    list->PathStroke(fade(IM_COL32_WHITE, 0.35f), 0, ImMax(1.0f, radius_px * 0.06f));
}

} // namespace loom::art

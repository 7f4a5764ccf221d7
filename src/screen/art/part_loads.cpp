// SPDX-License-Identifier: MIT
// What uses the current: headlamp, horn, resistor, diode, motor.
#include "screen/art/palette.h"
#include "screen/art/part_frame.h"

#include <cmath>
#include <cstdio>
#include <imgui_internal.h>

namespace loom::art {

namespace {

bool isBroken(const PartDrawing& d) {
    return d.look->condition != bench::Condition::Sound;
}

// Soot and a crack: a part that failed looks failed.
void drawScorch(const PartDrawing& d, float x, float y, float radius) {
    drawSpot(d, x, y, radius, rgb(0x0e0a07, 235));
    drawSpot(d, x + radius * 0.3f, y - radius * 0.2f, radius * 0.6f, rgb(0x1c130c, 220));
    const ImVec2 crack[5] = {
        {-0.55f, -0.2f}, {-0.2f, 0.12f}, {0.02f, -0.1f}, {0.28f, 0.22f}, {0.6f, 0.05f}};
    for (const ImVec2& p : crack)
        d.list->PathLineTo(d.frame.at(x + p.x * radius, y + p.y * radius));
    d.list->PathStroke(d.frame.shown(rgb(0xd8c9b0, 200)), 0, ImMax(1.0f, 1.0f * d.frame.k));
}

} // namespace

void drawHeadlamp(const PartDrawing& d) {
    const PartFrame& f = d.frame;
    const float light = ImClamp(d.look->light, 0.0f, 1.0f);
    const ImVec2 bulb(0.0f, -7.0f);
    if (light > 0.01f) {
        // Dim is orange, bright nearly white, as a filament is.
        const ImU32 warm = blend(rgb(0xff9a3c), rgb(0xfff2c4), light);
        drawSpot(d, bulb.x, bulb.y, 60.0f + 70.0f * light, fade(rgb(0xffd75e), 0.85f * light));
        fillDisc(
            d.list, f, bulb.x, bulb.y, 41.0f, fade(warm, 0.9f * light), fade(warm, 0.75f * light));
        drawSpot(d, bulb.x, bulb.y, 46.0f, fade(rgb(0xfffbe8), ImMin(1.0f, 0.35f + light)));
        drawSpot(d, bulb.x, bulb.y, 30.0f, fade(rgb(0xffffff), light));
        for (int i = 0; i < 8;
             ++i) { // rays, so that light is not only a colour; none over the tabs
            if (i == 1 || i == 2) continue;
            const float turn = IM_PI * (0.25f * static_cast<float>(i) + 0.125f);
            const float inner = 55.0f, outer = 55.0f + 14.0f * light;
            drawBar(d.list,
                    f,
                    ImVec2(bulb.x + inner * ImCos(turn), bulb.y + inner * ImSin(turn)),
                    ImVec2(bulb.x + outer * ImCos(turn), bulb.y + outer * ImSin(turn)),
                    3.0f,
                    fade(rgb(0xe79a17), light));
        }
    }
    const ImU32 wire = light > 0.01f ? blend(rgb(0xff6a1a), rgb(0xffffff), light) : rgb(0x59646a);
    const float thick = ImMax(1.2f, 1.6f * f.k);
    const bool broken = isBroken(d);
    const ImVec2 coil[7] = {{-6, 0}, {-4, -3}, {-2, 3}, {0, -3}, {2, 3}, {4, -3}, {6, 0}};
    const int gap = broken ? 3 : 99;
    for (int i = 0; i + 1 < 7; ++i) {
        if (i == gap) continue;
        d.list->AddLine(f.at(bulb.x + coil[i].x, bulb.y + coil[i].y),
                        f.at(bulb.x + coil[i + 1].x, bulb.y + coil[i + 1].y),
                        f.shown(wire),
                        thick);
    }
    if (broken) drawSpot(d, bulb.x, bulb.y, 26.0f, rgb(0x1a1410, 190));
}

void drawHorn(const PartDrawing& d) {
    const PartFrame& f = d.frame;
    const float sound = ImClamp(d.look->sounding, 0.0f, 1.0f);
    if (isBroken(d)) drawScorch(d, 0.0f, -6.0f, 30.0f);
    if (sound <= 0.02f) return;
    const float beat = d.look->time_s * 1.6f;
    for (int wave = 0; wave < 3; ++wave) {
        const float phase = beat + static_cast<float>(wave) / 3.0f;
        const float age = phase - std::floor(phase);
        const float radius = (52.0f + 30.0f * age) * f.k;
        const ImU32 colour = f.shown(fade(tone::kAttention, sound * (1.0f - age)));
        for (const float side : {0.0f, IM_PI}) {
            d.list->PathArcTo(f.at(0.0f, -6.0f), radius, side - 0.55f, side + 0.55f, 14);
            d.list->PathStroke(colour, 0, ImMax(1.5f, 3.4f * f.k));
        }
    }
    strokeCircle(d.list, f, 0.0f, -6.0f, 15.5f, 1.6f, fade(rgb(0xf3eddc), 0.7f * sound));
}

void drawResistor(const PartDrawing& d) {
    char text[24];
    std::snprintf(text, sizeof text, "%s \xCE\xA9", numberText(d.look->rating).text);
    if (isBroken(d)) drawScorch(d, 0.0f, 0.0f, 22.0f);
    if (d.look->rating > 0.0) drawLegend(d, 0.0f, 0.2f, 13.5f, true, rgb(0xf3e6c0), text, 10.0f);
}

void drawDiode(const PartDrawing& d) {
    // Its sign, pointing the way current may go: towards the band.
    const PartFrame& f = d.frame;
    const ImU32 colour = f.shown(rgb(0xdfe4e3));
    const float thick = ImMax(1.2f, 1.7f * f.k);
    d.list->AddTriangle(f.at(-12.0f, -6.5f), f.at(-12.0f, 6.5f), f.at(-1.0f, 0.0f), colour, thick);
    d.list->AddLine(f.at(-0.4f, -6.5f), f.at(-0.4f, 6.5f), colour, thick);
    d.list->AddLine(f.at(-18.0f, 0.0f), f.at(-12.0f, 0.0f), colour, thick);
    d.list->AddLine(f.at(0.0f, 0.0f), f.at(6.0f, 0.0f), colour, thick);
    if (isBroken(d)) drawScorch(d, 0.0f, 0.0f, 20.0f);
}

namespace {

// One opening between two spokes, as a rounded wedge.
void drawOpening(const PartDrawing& d, ImVec2 hub, float from, float to, ImU32 colour) {
    const ImVec2 at = d.frame.at(hub.x, hub.y);
    const float turned = 0.5f * IM_PI * static_cast<float>(d.frame.turns), k = d.frame.k;
    constexpr int kSteps = 8;
    for (int i = 0; i <= kSteps; ++i) {
        const float turn = turned + from + (to - from) * static_cast<float>(i) / kSteps;
        d.list->PathLineTo(ImVec2(at.x + 33.0f * k * ImCos(turn), at.y + 33.0f * k * ImSin(turn)));
    }
    const float middle = turned + 0.5f * (from + to), narrow = 0.22f * (to - from);
    for (const float turn : {middle + narrow, middle - narrow})
        d.list->PathLineTo(ImVec2(at.x + 14.0f * k * ImCos(turn), at.y + 14.0f * k * ImSin(turn)));
    d.list->PathFillConvex(d.frame.shown(colour));
}

void drawTurningArrow(const PartDrawing& d, ImVec2 hub, bool isClockwise, float share) {
    const ImVec2 at = d.frame.at(hub.x, hub.y);
    const float r = 66.0f * d.frame.k, thick = ImMax(2.0f, 3.6f * d.frame.k);
    const float from = isClockwise ? -0.85f : 0.35f, to = isClockwise ? 0.35f : -0.85f;
    const ImU32 colour = d.frame.shown(fade(tone::kAttention, share));
    d.list->PathArcTo(at, r, ImMin(from, to), ImMax(from, to), 16);
    d.list->PathStroke(colour, 0, thick);
    const ImVec2 tip(at.x + r * ImCos(to), at.y + r * ImSin(to));
    const float sign = isClockwise ? 1.0f : -1.0f, size = 8.5f * d.frame.k + 1.0f;
    const ImVec2 ahead(-ImSin(to) * sign, ImCos(to) * sign), out(ImCos(to), ImSin(to));
    d.list->AddTriangleFilled(ImVec2(tip.x + ahead.x * size * 1.3f, tip.y + ahead.y * size * 1.3f),
                              ImVec2(tip.x + out.x * size, tip.y + out.y * size),
                              ImVec2(tip.x - out.x * size, tip.y - out.y * size),
                              colour);
}

} // namespace

void drawMotor(const PartDrawing& d) {
    const PartFrame& f = d.frame;
    const ImVec2 hub(105.0f, 0.0f);
    const float speed = std::fabs(d.look->speed_rad_s);
    // Fast spokes melt into a haze: openings that jumped about would only flicker.
    const float haze = ImClamp((speed - 10.0f) / 22.0f, 0.0f, 1.0f);
    if (haze > 0.0f) {
        d.list->AddCircle(f.at(hub.x, hub.y),
                          23.5f * f.k,
                          f.shown(fade(rgb(0x2b2212), 0.62f * haze)),
                          0,
                          19.0f * f.k);
        for (int i = 0; i < 3; ++i)
            strokeCircle(d.list,
                         f,
                         hub.x,
                         hub.y,
                         18.0f + 5.5f * static_cast<float>(i),
                         0.9f,
                         fade(rgb(0xf4e2a8), 0.30f * haze));
    }
    constexpr int kSpokes = 5;
    constexpr float kEach = 2.0f * IM_PI / kSpokes, kHalf = 0.36f * kEach;
    for (int i = 0; i < kSpokes && haze < 1.0f; ++i) {
        const float middle = d.look->angle_rad + kEach * static_cast<float>(i);
        drawOpening(d,
                    hub,
                    middle - kHalf - 0.03f,
                    middle + kHalf + 0.03f,
                    fade(rgb(0x5a4416), 1.0f - haze));
        drawOpening(d, hub, middle - kHalf, middle + kHalf, fade(rgb(0x1d1a12), 1.0f - haze));
    }
    fillDisc(d.list, f, hub.x, hub.y, 11.0f, rgb(0x6a5220), rgb(0x6a5220));
    fillDisc(d.list, f, hub.x, hub.y, 10.0f, rgb(0xeef1f1), rgb(0x7c878a));
    fillDisc(d.list, f, hub.x, hub.y, 4.4f, rgb(0x2f393b), rgb(0x59646a));
    if (haze < 1.0f) { // a chalk mark on the tyre shows slow turning
        const float turn = d.look->angle_rad;
        const ImVec2 a(hub.x + 47.0f * ImCos(turn), hub.y + 47.0f * ImSin(turn)),
            b(hub.x + 52.0f * ImCos(turn), hub.y + 52.0f * ImSin(turn));
        drawBar(d.list, f, a, b, 3.2f, fade(rgb(0xf3eddc), 0.85f * (1.0f - haze)));
    }
    if (speed > 1.0f)
        drawTurningArrow(d, hub, d.look->speed_rad_s > 0.0f, ImMin(1.0f, speed / 4.0f));
    if (isBroken(d)) drawScorch(d, -50.0f, 18.0f, 40.0f);
}

} // namespace loom::art

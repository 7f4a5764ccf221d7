// SPDX-License-Identifier: MIT
#include "screen/meter/art.h"

#include "screen/art/palette.h"
#include "screen/art/ribbon.h"

#include <algorithm>
#include <cmath>

namespace loom::art {

namespace {

constexpr ImU32 kShell = rgb(0xe0a23a), kShellLight = rgb(0xedb656), kShellEdge = rgb(0x7a5510);
constexpr ImU32 kGlass = rgb(0xdfe7d0), kGlassEdge = rgb(0x6f7d66), kGlassOff = rgb(0xc3ccb6);
constexpr ImU32 kKnobBody = rgb(0x222c2f), kKnobEdge = rgb(0x0d1213), kPointer = rgb(0xf7f4ea);
constexpr ImU32 kRed = rgb(0xc3302a), kBlack = rgb(0x1f2628);

ImVec2 plus(ImVec2 a, ImVec2 b, float times = 1.0f) {
    return {a.x + b.x * times, a.y + b.y * times};
}

void softShadow(ImDrawList* list, Box box, float rounding, float reach) {
    constexpr int kLayers = 6;
    for (int i = kLayers; i >= 1; --i) {
        const float out = reach * static_cast<float>(i) / kLayers;
        list->AddRectFilled({box.min.x - out, box.min.y - out * 0.4f},
                            {box.max.x + out, box.max.y + out + reach * 0.4f},
                            fade(tone::kShadow, 0.07f),
                            rounding + out);
    }
}

ImVec2 onCircle(ImVec2 centre, float radius, float angle_rad) {
    return {centre.x + radius * std::sin(angle_rad), centre.y - radius * std::cos(angle_rad)};
}

void drawKnob(ImDrawList* list, ImVec2 centre, float unit, float angle_rad) {
    const float r = meter::kKnobRadius * unit;
    list->AddCircleFilled(
        {centre.x, centre.y + 4.0f * unit}, r + 2.0f * unit, fade(tone::kShadow, 0.35f));
    list->AddCircleFilled(centre, r, kKnobEdge);
    list->AddCircleFilled({centre.x, centre.y - 1.0f * unit}, r - 2.0f * unit, kKnobBody);
    // A grip across it, thin end towards the range.
    const ImVec2 nose = onCircle(centre, r - 4.0f * unit, angle_rad);
    const ImVec2 tail = onCircle(centre, r - 6.0f * unit, angle_rad + 3.14159265f);
    list->AddLine(nose, tail, rgb(0x3b484c), 17.0f * unit);
    list->AddLine(nose, onCircle(centre, 6.0f * unit, angle_rad), kPointer, 4.5f * unit);
}

void drawWaves(ImDrawList* list, const MeterLook& look) {
    const ImVec2 from{look.topLeft.x + (meter::kWidth + 8.0f) * look.unit,
                      look.topLeft.y + 46.0f * look.unit};
    for (int i = 0; i < 3; ++i) {
        const float phase = look.time_s * 2.2f - static_cast<float>(i);
        const float pulse = look.time_s > 0.0f ? 0.6f + 0.4f * std::sin(phase * 2.0f) : 1.0f;
        list->PathArcTo(from, (9.0f + 9.0f * static_cast<float>(i)) * look.unit, -0.9f, 0.9f, 16);
        list->PathStroke(fade(tone::kAttention, look.sounding * pulse), 0, 4.0f * look.unit);
    }
}

// One segment between two points of a digit's grid.
void segment(ImDrawList* list, ImVec2 a, ImVec2 b, float thick, ImU32 colour) {
    const float dx = b.x - a.x, dy = b.y - a.y, length = std::hypot(dx, dy);
    const ImVec2 along{dx / length, dy / length}, side{-along.y, along.x};
    const float h = thick * 0.5f, gap = thick * 0.56f;
    const ImVec2 from = plus(a, along, gap * 0.2f), to = plus(b, along, -gap * 0.2f);
    const ImVec2 points[] = {from,
                             plus(plus(from, along, gap), side, -h),
                             plus(plus(to, along, -gap), side, -h),
                             to,
                             plus(plus(to, along, -gap), side, h),
                             plus(plus(from, along, gap), side, h)};
    list->AddConvexPolyFilled(points, 6, colour);
}

// Bits: top, upper right, lower right, bottom, lower left, upper left, middle.
unsigned segmentsOf(char c) {
    constexpr unsigned kFigures[] = {0x3f, 0x06, 0x5b, 0x4f, 0x66, 0x6d, 0x7d, 0x07, 0x7f, 0x6f};
    if (c >= '0' && c <= '9') return kFigures[c - '0'];
    return c == '-' ? 0x40u : 0u;
}

void figure(ImDrawList* list, ImVec2 foot, float high, char c) {
    const float wide = high * 0.5f, thick = high * 0.13f, lean = 0.07f;
    const auto at = [&](float x, float y) { // x, y: 0..1 from the foot's left, upwards
        return ImVec2(foot.x + x * wide + y * high * lean, foot.y - y * high);
    };
    const ImVec2 ends[7][2] = {{at(0, 1), at(1, 1)},
                               {at(1, 1), at(1, 0.5f)},
                               {at(1, 0.5f), at(1, 0)},
                               {at(0, 0), at(1, 0)},
                               {at(0, 0.5f), at(0, 0)},
                               {at(0, 1), at(0, 0.5f)},
                               {at(0, 0.5f), at(1, 0.5f)}};
    const unsigned lit = segmentsOf(c);
    for (unsigned i = 0; i < 7; ++i)
        if (lit >> i & 1u) segment(list, ends[i][0], ends[i][1], thick, tone::kInk);
}

ImVec2 bezier(ImVec2 a, ImVec2 b, ImVec2 c, ImVec2 d, float t) {
    const float u = 1.0f - t;
    const float wa = u * u * u, wb = 3 * u * u * t, wc = 3 * u * t * t, wd = t * t * t;
    return {wa * a.x + wb * b.x + wc * c.x + wd * d.x, wa * a.y + wb * b.y + wc * c.y + wd * d.y};
}

} // namespace

float meter::rangeAngle_rad(bench::MeterRange range) {
    constexpr float kStep = 1.25663706f; // a fifth of a turn
    switch (range) {
    case bench::MeterRange::Off:
        return -2.0f * kStep;
    case bench::MeterRange::Volts:
        return -kStep;
    case bench::MeterRange::Ohms:
        return 0.0f;
    case bench::MeterRange::Tone:
        return kStep;
    case bench::MeterRange::Amperes:
        break;
    }
    return 2.0f * kStep;
}

Box meterBox(const MeterLook& look) {
    return {
        look.topLeft,
        {look.topLeft.x + meter::kWidth * look.unit, look.topLeft.y + meter::kHeight * look.unit}};
}

void drawSegments(ImDrawList* list, ImVec2 rightFoot, float high, const std::string& digits) {
    const float pitch = high * 0.72f, point = high * 0.22f;
    float x = rightFoot.x - high * 0.07f;
    for (std::size_t i = digits.size(); i-- > 0;) {
        if (digits[i] == '.') {
            x -= point;
            const float r = high * 0.075f;
            list->AddCircleFilled({x + point * 0.42f, rightFoot.y - r * 0.4f}, r, tone::kInk);
            continue;
        }
        x -= high * 0.5f;
        figure(list, {x, rightFoot.y}, high, digits[i]);
        x -= pitch - high * 0.5f;
    }
}

void drawMeterBody(ImDrawList* list, const MeterLook& look) {
    const float u = look.unit;
    const Box box = meterBox(look);
    const auto at = [&](float x, float y) {
        return ImVec2(look.topLeft.x + x * u, look.topLeft.y + y * u);
    };
    softShadow(list, box, 18.0f * u, (look.held ? 16.0f : 9.0f) * u);
    list->AddRectFilled(box.min, box.max, kShellEdge, 18.0f * u);
    list->AddRectFilled({box.min.x + 2 * u, box.min.y + 2 * u},
                        {box.max.x - 2 * u, box.max.y - 2 * u},
                        kShell,
                        16.0f * u);
    list->AddLine(at(18, 4.5f), at(meter::kWidth - 18, 4.5f), kShellLight, 3.0f * u);
    // Jacks, where the leads go in.
    for (int i = 0; i < 2; ++i)
        list->AddRectFilled(at(meter::kJackX[i] - 9, meter::kHeight - 5),
                            at(meter::kJackX[i] + 9, meter::kHeight + 7),
                            i == 0 ? kRed : kBlack,
                            4.0f * u);
    const ImVec2 a = at(meter::kDisplayLeft, meter::kDisplayTop),
                 b = at(meter::kDisplayRight, meter::kDisplayBottom);
    list->AddRectFilled(a, b, look.lit ? kGlass : kGlassOff, 6.0f * u);
    list->AddRect(a, b, kGlassEdge, 6.0f * u, 0, 1.6f * u);
    list->AddLine(
        {a.x + 5 * u, a.y + 3 * u}, {b.x - 5 * u, a.y + 3 * u}, rgb(0xffffff, 120), 2.0f * u);
    drawSegments(list, at(meter::kDisplayRight - 10, 64), 40.0f * u, look.digits);
    drawKnob(list, at(meter::kKnobX, meter::kKnobY), u, look.knob_rad);
    if (look.sounding > 0.0f) drawWaves(list, look);
}

void drawProbe(ImDrawList* list, const ProbeLook& look) {
    const float u = look.unit;
    const ImU32 body = look.which == 0 ? kRed : kBlack;
    const ImVec2 collar = plus(look.tip, look.away, kProbeTip * u);
    const ImVec2 end = plus(look.tip, look.away, (kProbeTip + kProbeHandle) * u);
    const float lift = (look.held ? 9.0f : 4.0f) * u;
    list->AddLine({collar.x + lift * 0.6f, collar.y + lift},
                  {end.x + lift * 0.6f, end.y + lift},
                  fade(tone::kShadow, 0.28f),
                  14.0f * u);
    // The metal ends in a point.
    const ImVec2 side{-look.away.y, look.away.x};
    const ImVec2 metal[] = {look.tip,
                            plus(plus(look.tip, look.away, 6.0f * u), side, 2.0f * u),
                            plus(collar, side, 2.2f * u),
                            plus(collar, side, -2.2f * u),
                            plus(plus(look.tip, look.away, 6.0f * u), side, -2.0f * u)};
    list->AddConvexPolyFilled(metal, 5, tone::kSteel);
    list->AddPolyline(metal, 5, tone::kSteelDark, ImDrawFlags_Closed, 1.0f * u);
    const TubeTone tube{body, 1.0f, 1.4f * u, 1.0f};
    drawBarrel(list, collar, plus(collar, look.away, 7.0f * u), 9.0f * u, tube); // finger guard
    drawBarrel(list, plus(collar, look.away, 6.0f * u), end, 7.0f * u, tube);
    // + or -, so that red and black are told apart without their colours.
    const ImVec2 middle = plus(collar, look.away, kProbeHandle * 0.45f * u);
    const ImU32 mark = kPointer;
    list->AddLine(plus(middle, side, -3.6f * u), plus(middle, side, 3.6f * u), mark, 2.0f * u);
    if (look.which == 0)
        list->AddLine(
            plus(middle, look.away, -3.6f * u), plus(middle, look.away, 3.6f * u), mark, 2.0f * u);
}

void drawLead(ImDrawList* list, ImVec2 jack, const ProbeLook& probe, float sag) {
    const float u = probe.unit;
    const ImVec2 end = plus(probe.tip, probe.away, (kProbeTip + kProbeHandle - 2.0f) * u);
    const ImVec2 out{jack.x, jack.y + sag}, in = plus(end, probe.away, sag);
    Line line;
    for (int i = 0; i <= 40; ++i)
        line.add(bezier(jack, out, in, end, static_cast<float>(i) / 40.0f));
    line.findNormals();
    Line under = line;
    for (int i = 0; i < under.count; ++i)
        under.at[i] = {under.at[i].x + 3.0f * u, under.at[i].y + 5.0f * u};
    drawSoftBand(list, under, 2.0f * u, 4.0f * u, fade(tone::kShadow, 0.3f));
    drawTube(
        list, line, 3.2f * u, TubeTone{probe.which == 0 ? kRed : kBlack, 0.9f, 1.2f * u, 1.0f});
}

} // namespace loom::art

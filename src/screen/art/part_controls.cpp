// SPDX-License-Identifier: MIT
// What a hand moves: isolator, rocker, push button, selector, toggle.
#include "bench/catalogue.h"
#include "screen/art/palette.h"
#include "screen/art/part_frame.h"

#include <imgui_internal.h>

namespace loom::art {

namespace {

constexpr ImU32 kCream = rgb(0xe9e6da);
constexpr float kDegree = IM_PI / 180.0f;

ImVec2 polar(ImVec2 from, float radius, float turn_deg) { // 0 is up, clockwise
    return ImVec2(from.x + radius * ImSin(turn_deg * kDegree),
                  from.y - radius * ImCos(turn_deg * kDegree));
}

ImVec2 towards(ImVec2 a, ImVec2 b, float share) {
    return ImVec2(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share);
}

// The key's grip across the dial, its mark towards `turn_deg`.
void drawKeyGrip(const PartDrawing& d, ImVec2 middle, float turn_deg, float share) {
    PartFrame f = d.frame;
    f.alpha *= share;
    const ImVec2 tip = polar(middle, 25.0f, turn_deg), tail = polar(middle, -25.0f, turn_deg);
    const ImVec2 fall(1.8f, 3.2f);
    drawBar(d.list,
            f,
            ImVec2(tail.x + fall.x, tail.y + fall.y),
            ImVec2(tip.x + fall.x, tip.y + fall.y),
            21.0f,
            fade(rgb(0x000000), 0.42f));
    drawBar(d.list, f, tail, tip, 20.0f, rgb(0x5a0f08));
    drawBar(d.list, f, tail, tip, 17.6f, rgb(0xcf3a2c));
    const ImVec2 side(-2.6f * ImCos(turn_deg * kDegree), -2.6f * ImSin(turn_deg * kDegree));
    const ImVec2 a = towards(tail, tip, 0.08f), b = towards(tail, tip, 0.92f);
    drawBar(d.list,
            f,
            ImVec2(a.x + side.x, a.y + side.y),
            ImVec2(b.x + side.x, b.y + side.y),
            4.0f,
            fade(rgb(0xff9a88), 0.75f));
    drawBar(d.list, f, towards(middle, tip, 0.62f), tip, 5.0f, rgb(0xfff6ea));
    const ImVec2 hole = towards(middle, tail, 0.72f);
    d.list->AddCircleFilled(f.at(hole.x, hole.y), 4.4f * f.k, f.shown(rgb(0x3a0f0a)));
}

} // namespace

void drawIsolator(const PartDrawing& d) {
    const ImVec2 middle(0.0f, -16.0f);
    const float p = d.look->position;
    const float turn = -45.0f + 90.0f * ImClamp(p - 1.0f, 0.0f, 1.0f);
    fillDisc(d.list, d.frame, middle.x, middle.y, 30.5f, rgb(0x2a3335), rgb(0x4a5659));
    strokeCircle(d.list, d.frame, middle.x, middle.y, 30.0f, 1.4f, rgb(0x101617));
    drawBar(d.list,
            d.frame,
            polar(middle, 19.0f, turn),
            polar(middle, -19.0f, turn),
            7.0f,
            rgb(0x0a0d0e));
    strokeCircle(d.list, d.frame, middle.x, middle.y, 7.5f, 1.2f, rgb(0x8d979a));
    d.list->AddCircleFilled(
        d.frame.at(middle.x, middle.y), 6.5f * d.frame.k, d.frame.shown(rgb(0x0a0d0e)));
    if (p > 0.01f) drawKeyGrip(d, middle, turn, ImMin(p, 1.0f));
    const bool isOn = p > 1.5f;
    drawLegend(d, -37.0f, -59.0f, 15.0f, !isOn, isOn ? rgb(0xaab3b3) : rgb(0xfbf8f0), "off", 10.5f);
    drawLegend(d, 38.0f, -59.0f, 15.0f, isOn, isOn ? rgb(0xfbf8f0) : rgb(0xaab3b3), "on", 10.5f);
}

void drawKey(ImDrawList* list, ImVec2 centre, float px_per_m, float angle_rad, float alpha) {
    const PartFrame f(centre, px_per_m / 1000.0f, alpha);
    const float deg = angle_rad / kDegree;
    const ImVec2 middle(0, 0);
    const ImVec2 head = polar(middle, 24.0f, deg), neck = polar(middle, 12.0f, deg),
                 tip = polar(middle, -32.0f, deg);
    for (int pass = 0; pass < 2; ++pass) {
        const ImU32 colour = pass == 0 ? rgb(0x5a0f08) : rgb(0xcf3a2c);
        const float rim = pass == 0 ? 1.4f : 0.0f;
        drawBar(list, f, head, neck, 22.0f + 2.0f * rim, colour);
        drawBar(list, f, neck, tip, 10.0f + 2.0f * rim, colour);
    }
    drawBar(list, f, towards(neck, tip, 0.2f), towards(neck, tip, 0.9f), 2.4f, rgb(0x8d2015));
    list->AddCircleFilled(f.at(head.x, head.y), 4.6f * f.k, f.shown(rgb(0x2b0b07)));
    const ImVec2 shine = polar(head, 7.5f, deg - 60.0f);
    drawBar(list, f, shine, polar(neck, 7.5f, deg - 90.0f), 2.4f, fade(rgb(0xff9a88), 0.8f));
}

void drawRocker(const PartDrawing& d) {
    // The paddle tips about its middle: the pressed half is dark and short, the raised one bright.
    const float press = ImClamp(d.look->position, 0.0f, 1.0f); // 1: the upper half is pressed, on
    const PartFrame& f = d.frame;
    const float top = -50.5f + 2.5f * press, foot = 25.5f - 2.5f * (1.0f - press), middle = -12.5f;
    const ImU32 raised = rgb(0x566265), pressed = rgb(0x252d2f);
    const ImU32 upper = blend(raised, pressed, press), lower = blend(pressed, raised, press);
    fillRound(d.list, f, -24.5f, top, 24.5f, foot, 4.5f, rgb(0x0d1112), rgb(0x0d1112));
    fillRound(d.list,
              f,
              -23.5f,
              top + 1.0f,
              23.5f,
              middle + 1.0f,
              4.0f,
              blend(upper, IM_COL32_WHITE, 0.10f),
              upper);
    fillRound(d.list,
              f,
              -23.5f,
              middle - 1.0f,
              23.5f,
              foot - 1.0f,
              4.0f,
              lower,
              blend(lower, rgb(0x000000), 0.35f));
    drawBar(d.list,
            f,
            ImVec2(-20.0f, middle),
            ImVec2(20.0f, middle),
            1.1f,
            fade(IM_COL32_WHITE, 0.20f));
    drawBar(d.list,
            f,
            ImVec2(-18.0f, press > 0.5f ? foot - 3.0f : top + 3.0f),
            ImVec2(18.0f, press > 0.5f ? foot - 3.0f : top + 3.0f),
            1.4f,
            fade(IM_COL32_WHITE, 0.28f));
    // I on the half that is pressed to switch on, O on the other.
    drawBar(d.list, f, ImVec2(0.0f, -44.5f + press), ImVec2(0.0f, -38.0f + press), 2.2f, kCream);
    strokeCircle(d.list, f, 0.0f, 12.0f, 5.6f, 2.0f, kCream);
    // The live lamp: a lens that has rays as well as light.
    const float light = d.look->light;
    const ImVec2 lens(0.0f, -25.5f + press);
    if (light > 0.02f) {
        drawSpot(d, lens.x, lens.y, 42.0f, fade(rgb(0xff4a30), 0.75f * light));
        for (int i = 0; i < 8; ++i) {
            const float turn = 22.5f + 45.0f * static_cast<float>(i);
            const ImVec2 a = polar(lens, 14.0f, turn), b = polar(lens, 18.5f, turn);
            drawBar(d.list, f, a, b, 1.7f, fade(rgb(0xffc2b4), light));
        }
    }
    const ImVec2 at = f.at(lens.x, lens.y);
    const bool sideways = (f.turns & 1) != 0;
    const ImVec2 radii(sideways ? 7.4f * f.k : 11.5f * f.k, sideways ? 11.5f * f.k : 7.4f * f.k);
    const auto oval = [&](float grow, ImU32 colour) {
        for (int i = 0; i < 24; ++i) {
            const float turn = 2.0f * IM_PI * static_cast<float>(i) / 24.0f;
            d.list->PathLineTo(ImVec2(at.x + ImCos(turn) * (radii.x + grow * f.k),
                                      at.y + ImSin(turn) * (radii.y + grow * f.k)));
        }
        d.list->PathFillConvex(f.shown(colour));
    };
    oval(1.6f, rgb(0x0d1112));
    oval(0.0f, blend(rgb(0x5b1a13), rgb(0xe0301f), light));
    oval(-2.6f, blend(rgb(0x7a2b22), rgb(0xff8a74), light));
    if (light > 0.3f) oval(-4.8f, fade(rgb(0xfff0ea), light));
}

void drawPushButton(const PartDrawing& d) {
    const PartFrame& f = d.frame;
    const float down = ImClamp(d.look->position, 0.0f, 1.0f);
    const float r = 29.5f - 1.5f * down;
    const ImU32 face = blend(rgb(0x2f855c), rgb(0x24694a), down);
    if (down < 0.5f)
        fillDisc(d.list, f, 0.8f, -6.6f, r, fade(rgb(0x000000), 0.45f), fade(rgb(0x000000), 0.45f));
    fillDisc(d.list, f, 0.0f, -10.0f, r, rgb(0x143d2a), rgb(0x0f2f20));
    fillDisc(d.list,
             f,
             0.0f,
             -10.0f,
             r - 1.4f,
             blend(face, IM_COL32_WHITE, 0.26f * (1.0f - down)),
             blend(face, rgb(0x000000), 0.30f));
    fillDisc(d.list,
             f,
             0.0f,
             -10.0f,
             r - 5.0f,
             blend(face, rgb(0x000000), 0.12f),
             blend(face, IM_COL32_WHITE, 0.08f));
    if (down < 0.5f) {
        d.list->PathArcTo(f.at(0.0f, -10.0f),
                          (r - 3.2f) * f.k,
                          3.5f + 1.5708f * static_cast<float>(f.turns),
                          5.2f + 1.5708f * static_cast<float>(f.turns),
                          14);
        d.list->PathStroke(f.shown(fade(IM_COL32_WHITE, 0.55f)), 0, ImMax(1.0f, 1.6f * f.k));
    } else {
        drawSpot(d, 0.0f, -20.0f, 24.0f, fade(rgb(0x000000), 0.25f));
    }
    drawLegend(d, 0.0f, -10.0f + 0.6f * down, 16.0f, true, rgb(0xf4fff9), "hold", 11.0f);
}

void drawSelector(const PartDrawing& d) {
    const PartFrame& f = d.frame;
    const ImVec2 middle(0.0f, -8.0f);
    const float turn = 55.0f * (1.0f - ImClamp(d.look->position, 0.0f, 2.0f));
    fillDisc(d.list,
             f,
             middle.x + 1.4f,
             middle.y + 3.2f,
             25.5f,
             fade(rgb(0x000000), 0.5f),
             fade(rgb(0x000000), 0.5f));
    fillDisc(d.list, f, middle.x, middle.y, 25.5f, rgb(0x0a0d0e), rgb(0x0a0d0e));
    fillDisc(d.list, f, middle.x, middle.y, 24.3f, rgb(0x5d696c), rgb(0x20282a));
    // The grip: a raised bar with a white mark.
    const ImVec2 tip = polar(middle, 19.5f, turn), tail = polar(middle, -19.5f, turn);
    drawBar(d.list, f, tail, tip, 14.0f, rgb(0x0d1112));
    drawBar(d.list, f, tail, tip, 11.8f, rgb(0x3b474a));
    const ImVec2 side(-3.4f * ImCos(turn * kDegree), -3.4f * ImSin(turn * kDegree));
    drawBar(d.list,
            f,
            ImVec2(tail.x + side.x, tail.y + side.y),
            ImVec2(tip.x + side.x, tip.y + side.y),
            1.8f,
            fade(rgb(0xa9b5b7), 0.8f));
    drawBar(
        d.list, f, towards(middle, tip, 0.35f), towards(middle, tip, 1.05f), 3.4f, rgb(0xfbf8f0));
    const int state = d.look->position < 0.5f ? 0 : d.look->position < 1.5f ? 1 : 2;
    const auto mark = [&](float x, float y, const char* text, bool isHere) {
        drawLegend(d, x, y, 14.5f, isHere, isHere ? rgb(0xfbf8f0) : rgb(0xaab3b3), text, 10.5f);
    };
    mark(-41.0f, -31.5f, "F", state == 2);
    mark(0.0f, -53.0f, "0", state == 1);
    mark(41.0f, -31.5f, "R", state == 0);
}

void drawPosition(const PartDrawing& d) {
    const PartLook& look = *d.look;
    const bench::PartSpec& kind = bench::spec(look.kind);
    const auto position = static_cast<std::size_t>(look.position + 0.5f);
    if (position >= kind.positions.size()) return;
    const std::string name = kind.drawing + "-" + kind.positions[position];
    const ImU32 tint = d.frame.shown(IM_COL32_WHITE);
    d.pictures->draw(d.list, name.c_str(), look.centre, look.px_per_m, look.quarterTurns, tint);
}

void drawToggle(const PartDrawing& d) {
    const PartFrame& f = d.frame;
    const float on = ImClamp(d.look->position, 0.0f, 1.0f);
    const float reach = 15.5f - 31.0f * on; // the lever points up when on
    const ImVec2 root(0.0f, -9.0f), tip(0.0f, -9.0f + reach);
    drawBar(d.list,
            f,
            ImVec2(2.4f, root.y + 4.0f),
            ImVec2(3.4f, tip.y + 5.0f),
            11.0f,
            fade(rgb(0x000000), 0.35f));
    drawBar(d.list, f, root, towards(root, tip, 0.7f), 8.6f, rgb(0x39444a));
    drawBar(d.list, f, root, towards(root, tip, 0.7f), 6.6f, rgb(0xaeb6b8));
    fillDisc(d.list, f, tip.x, tip.y, 7.6f, rgb(0x39444a), rgb(0x39444a));
    fillDisc(d.list, f, tip.x, tip.y, 6.6f, rgb(0xf3f5f5), rgb(0x8d979a));
    fillDisc(d.list, f, tip.x - 1.6f, tip.y - 2.0f, 2.2f, IM_COL32_WHITE, IM_COL32_WHITE);
    drawLegend(
        d, 0.0f, -40.0f, 11.5f, on > 0.5f, on > 0.5f ? tone::kInk : rgb(0x465052), "on", 9.5f);
    drawLegend(
        d, 0.0f, 24.0f, 11.5f, on <= 0.5f, on <= 0.5f ? tone::kInk : rgb(0x465052), "off", 9.5f);
}

} // namespace loom::art

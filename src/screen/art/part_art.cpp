// SPDX-License-Identifier: MIT
#include "screen/art/part_art.h"

#include "bench/catalogue.h"
#include "screen/art/board_art.h"
#include "screen/art/cable_heat.h"
#include "screen/art/palette.h"
#include "screen/art/part_frame.h"

#include <cstdio>
#include <imgui_internal.h>

namespace loom::art {

namespace {

using bench::NameSide;

NameSide nameSide(const PartLook& look) {
    const NameSide side = bench::spec(look.kind).nameSide;
    return side == NameSide::Left && look.quarterTurns % 2 != 0 ? NameSide::Above : side;
}

struct NameText {
    char text[48];
};

NameText nameText(const PartLook& look) {
    NameText out;
    if (bench::spec(look.kind).ratingInName && look.rating > 0.0)
        std::snprintf(
            out.text, sizeof out.text, "%s  %s A", look.ref, numberText(look.rating).text);
    else
        std::snprintf(out.text, sizeof out.text, "%s", look.ref);
    return out;
}

Lettering nameStyle(const FontSet& fonts, const PartLook& look) {
    const float grown = ImClamp(15.0f * look.px_per_m / 800.0f, 12.0f, 19.0f);
    return {grown * fonts.scale * (nameSide(look) == NameSide::On ? 1.2f : 1.0f),
            true,
            look.alpha < 1.0f ? fade(tone::kInk, look.alpha) : tone::kInk};
}

// From the middle of a part to the middle of its name.
ImVec2 nameOffset(const PartLook& look, ImVec2 text, const Box& box) {
    const float gap = 2.0f + 0.5f * text.y + (look.focused ? 9.0f : look.selected ? 5.0f : 0.0f);
    switch (nameSide(look)) {
    case NameSide::Below:
        return ImVec2(0.0f, 0.5f * box.height() + gap);
    case NameSide::Left:
        return ImVec2(-0.5f * box.width() - 8.0f - 0.5f * text.x, 0.0f);
    case NameSide::On: {
        const ImVec2 at = PartFrame(look).at(-38.0f, 0.0f);
        return ImVec2(at.x - look.centre.x, at.y - look.centre.y);
    }
    case NameSide::Above:
        break;
    }
    return ImVec2(0.0f, -0.5f * box.height() - gap);
}

ImVec2 nameCentre(const FontSet& fonts, const PartLook& look, const char* text) {
    const ImVec2 size = textSize(fonts, nameStyle(fonts, look), text);
    const ImVec2 offset = nameOffset(look, size, partBox(look));
    return ImVec2(look.centre.x + offset.x, look.centre.y + offset.y);
}

void drawMovingBits(const PartDrawing& d) {
    switch (d.look->kind) {
    case bench::PartKind::Battery:
        return drawBattery(d);
    case bench::PartKind::Isolator:
        return drawIsolator(d);
    case bench::PartKind::StripFuse:
        return drawStripFuse(d);
    case bench::PartKind::BladeHolder:
        return drawBladeHolder(d);
    case bench::PartKind::Block:
        return drawBlock(d);
    case bench::PartKind::Relay:
        return drawRelay(d);
    case bench::PartKind::Rocker:
        return drawRocker(d);
    case bench::PartKind::PushButton:
        return drawPushButton(d);
    case bench::PartKind::Selector:
        return drawSelector(d);
    case bench::PartKind::Toggle:
        return drawToggle(d);
    case bench::PartKind::Headlamp:
        return drawHeadlamp(d);
    case bench::PartKind::Horn:
        return drawHorn(d);
    case bench::PartKind::Resistor:
        return drawResistor(d);
    case bench::PartKind::Diode:
        return drawDiode(d);
    case bench::PartKind::Motor:
        return drawMotor(d);
    case bench::PartKind::Breaker:
        return drawPosition(d);
    }
}

ImU32 inkOf(bench::LegendInk ink) {
    switch (ink) {
    case bench::LegendInk::Pale:
        return rgb(0xd9dedb);
    case bench::LegendInk::White:
        return rgb(0xe9ece6);
    case bench::LegendInk::Dark:
        break;
    }
    return tone::kInk;
}

// Beside a tab on the board, or on the body above it; a kind whose row has none draws them itself.
void drawLegends(const PartDrawing& d) {
    const bench::PartSpec& spec = bench::spec(d.look->kind);
    for (const bench::TerminalSpec& t : spec.terminals)
        for (const bench::LegendSpec& legend : spec.legends)
            if (legend.beside == t.kind)
                drawLegend(d,
                           static_cast<float>(t.x_m) * 1000.0f + static_cast<float>(legend.x_mm),
                           static_cast<float>(t.y_m) * 1000.0f + static_cast<float>(legend.y_mm),
                           static_cast<float>(legend.size_mm),
                           true,
                           inkOf(legend.ink),
                           t.legend,
                           static_cast<float>(legend.least_px));
}

// Smoke, scorch and glow of a part that runs hot.
void drawHeat(const PartDrawing& d) {
    const PartLook& look = *d.look;
    const float hot = ImClamp((look.temp_K - 400.0f) / 150.0f, 0.0f, 1.0f);
    if (hot > 0.0f)
        drawSpot(d,
                 0.0f,
                 0.0f,
                 70.0f,
                 fade(rgb(0xff5a1f), 0.35f * ImClamp((look.temp_K - 650.0f) / 300.0f, 0.0f, 1.0f)));
    if (look.temp_K > 450.0f)
        for (int i = 0; i < 3; ++i)
            drawWisp(d.list,
                     *d.pictures,
                     d.frame.at(-18.0f + 18.0f * static_cast<float>(i), -6.0f),
                     look.px_per_m,
                     look.time_s + 1.3f * static_cast<float>(i),
                     i,
                     hot * look.alpha);
}

} // namespace

Box partBox(const PartLook& look) {
    const bench::PartSpec& spec = bench::spec(look.kind);
    float w = static_cast<float>(spec.width_m) * look.px_per_m,
          h = static_cast<float>(spec.height_m) * look.px_per_m;
    if (look.quarterTurns & 1) ImSwap(w, h);
    return {ImVec2(look.centre.x - w * 0.5f, look.centre.y - h * 0.5f),
            ImVec2(look.centre.x + w * 0.5f, look.centre.y + h * 0.5f)};
}

ImVec2 terminalAt_px(const PartLook& look, int terminal) {
    const auto& terminals = bench::spec(look.kind).terminals;
    if (terminal < 0 || terminal >= static_cast<int>(terminals.size())) return look.centre;
    const bench::TerminalSpec& t = terminals[static_cast<std::size_t>(terminal)];
    return PartFrame(look).at(static_cast<float>(t.x_m) * 1000.0f,
                              static_cast<float>(t.y_m) * 1000.0f);
}

Box nameBox(const FontSet& fonts, const PartLook& look) {
    const NameText name = nameText(look);
    const ImVec2 size = textSize(fonts, nameStyle(fonts, look), name.text);
    const ImVec2 at = nameCentre(fonts, look, name.text);
    return {ImVec2(at.x - size.x * 0.5f, at.y - size.y * 0.5f),
            ImVec2(at.x + size.x * 0.5f, at.y + size.y * 0.5f)};
}

void appendObstacles(const FontSet& fonts, const PartLook& look, std::vector<Box>& out) {
    if (look.ref[0]) out.push_back(nameBox(fonts, look));
    const bench::PartSpec& spec = bench::spec(look.kind);
    const float k = look.px_per_m / 1000.0f;
    for (std::size_t i = 0; i < spec.terminals.size(); ++i) {
        const ImVec2 at = terminalAt_px(look, static_cast<int>(i));
        const float r = (spec.terminals[i].kind == bench::TerminalKind::Clamp ? 9.0f : 14.0f) * k;
        out.push_back({ImVec2(at.x - r, at.y - r), ImVec2(at.x + r, at.y + r)});
    }
    // Everything else on a part is its face: a control, a rating, a window.
    const Box box = partBox(look);
    const float in = 5.0f * k;
    out.push_back({ImVec2(box.min.x + in, box.min.y + in), ImVec2(box.max.x - in, box.max.y - in)});
}

void drawPart(ImDrawList* list,
              PictureStore& pictures,
              const FontSet& fonts,
              const PartLook& look) {
    const PartDrawing d{list, &pictures, &fonts, &look, PartFrame(look)};
    const char* body = bench::spec(look.kind).drawing.c_str();
    const float lift = look.held ? 2.6f : 1.0f;
    const ImVec2 fall(2.2f * d.frame.k * lift, 4.6f * d.frame.k * lift);
    pictures.drawShadow(list,
                        body,
                        look.centre,
                        look.px_per_m,
                        look.quarterTurns,
                        fall,
                        (look.held ? 0.42f : 0.62f) * look.alpha);
    if (look.selected || look.focused)
        drawFrame(list, partBox(look), 9.0f * d.frame.k, look.focused);
    const ImU32 tint = d.frame.shown(IM_COL32_WHITE);
    if (!pictures.draw(list, body, look.centre, look.px_per_m, look.quarterTurns, tint)) {
        const Box box = partBox(look);
        list->AddRectFilled(box.min, box.max, d.frame.shown(rgb(0x3a4446)), 8.0f * d.frame.k);
    }
    drawMovingBits(d);
    drawLegends(d);
    drawHeat(d);
    if (!look.ref[0] || look.nameLater) return;
    const NameText name = nameText(look);
    drawText(list, fonts, nameStyle(fonts, look), nameCentre(fonts, look, name.text), name.text);
}

void drawPartName(ImDrawList* list, const FontSet& fonts, const PartLook& look) {
    if (!look.ref[0]) return;
    const NameText name = nameText(look);
    const ImVec2 at = nameCentre(fonts, look, name.text);
    Lettering style = nameStyle(fonts, look);
    const ImU32 ink = style.colour;
    if (nameSide(look) != NameSide::On) { // that name stands on metal
        style.colour = fade(tone::kBoard, 0.7f * look.alpha);
        for (const ImVec2 aside :
             {ImVec2(-1.5f, 0), ImVec2(1.5f, 0), ImVec2(0, -1.5f), ImVec2(0, 1.5f)})
            drawText(list, fonts, style, ImVec2(at.x + aside.x, at.y + aside.y), name.text);
    }
    style.colour = ink;
    drawText(list, fonts, style, at, name.text);
}

void drawCutOut(ImDrawList* list, const PartLook& look) {
    const Box box = partBox(look);
    const float round = 8.0f * look.px_per_m / 1000.0f + 2.0f;
    list->AddRectFilled(box.min, box.max, rgb(0x1d3033), round);
    list->AddRectFilled(ImVec2(box.min.x, box.min.y + 3.0f), box.max, rgb(0x263b3e), round);
    list->AddRect(box.min, box.max, rgb(0x6a898d), round, 0, 1.4f);
    const int terminals = static_cast<int>(bench::spec(look.kind).terminals.size());
    for (int i = 0; i < terminals && terminals <= 5; ++i)
        list->AddCircle(terminalAt_px(look, i),
                        ImMax(1.5f, 7.0f * look.px_per_m / 1000.0f),
                        rgb(0x56757a),
                        0,
                        1.0f);
}

} // namespace loom::art

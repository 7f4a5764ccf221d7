// SPDX-License-Identifier: MIT
// What carries and guards the supply: battery, fuses, connector block, relay.
#include "bench/catalogue.h"
#include "screen/art/palette.h"
#include "screen/art/part_frame.h"

#include <imgui_internal.h>

namespace loom::art {

void drawBattery(const PartDrawing& d) {
    // Signs as strokes that stay upright however the battery lies.
    const auto sign = [&](float x_mm, bool isPlus, ImU32 colour) {
        const ImVec2 at = d.frame.at(x_mm, -43.0f);
        const float r = 5.6f * d.frame.k, thick = ImMax(2.0f, 2.6f * d.frame.k);
        const ImU32 shown = d.frame.shown(colour);
        d.list->AddLine(ImVec2(at.x - r, at.y), ImVec2(at.x + r, at.y), shown, thick);
        if (isPlus) d.list->AddLine(ImVec2(at.x, at.y - r), ImVec2(at.x, at.y + r), shown, thick);
    };
    sign(33.5f, true, rgb(0xffb4a8));
    sign(-33.5f, false, rgb(0xe9eceb));
    drawLegend(d, 0.0f, 9.0f, 25.0f, true, rgb(0xf2efe4), "12 V", 13.0f);
    if (d.frame.k > 0.5f)
        drawLegend(d, 0.0f, 35.0f, 15.5f, false, rgb(0xd5d8d2), "24 Ah sealed", 10.0f);
}

namespace {

// A fuse element from (-half,0) to (half,0): wide ends, narrow neck. melting 0..1, or gone.
void drawElement(const PartDrawing& d,
                 const PartFrame& f,
                 float half,
                 float thick,
                 float melting,
                 bool melted,
                 ImU32 metal) {
    const ImU32 edge = blend(metal, rgb(0x000000), 0.5f);
    const ImVec2 points[6] = {{-half, 0},
                              {-half * 0.42f, 0},
                              {-half * 0.17f, -thick},
                              {half * 0.17f, thick},
                              {half * 0.42f, 0},
                              {half, 0}};
    const auto stroke = [&](int from, int to, float width, ImU32 colour) {
        for (int i = from; i <= to; ++i) {
            const ImVec2 p = points[i];
            d.list->PathLineTo(f.at(p.x, p.y));
        }
        d.list->PathStroke(f.shown(colour), 0, ImMax(1.2f, width * f.k));
    };
    if (!melted) {
        const ImU32 hot = blend(metal, rgb(0xff6a1a), melting);
        stroke(0, 5, thick * 0.85f + 1.0f, edge);
        stroke(0, 5, thick * 0.85f, hot);
        return;
    }
    stroke(0, 1, thick * 0.85f + 1.0f, edge);
    stroke(0, 1, thick * 0.85f, metal);
    stroke(4, 5, thick * 0.85f + 1.0f, edge);
    stroke(4, 5, thick * 0.85f, metal);
    // Beads of metal where it parted.
    for (const float x : {-half * 0.40f, half * 0.40f}) {
        d.list->AddCircleFilled(f.at(x, 0.0f), thick * 0.85f * f.k, f.shown(edge));
        d.list->AddCircleFilled(f.at(x - 0.3f, -0.3f), thick * 0.62f * f.k, f.shown(metal));
    }
}

} // namespace

void drawStripFuse(const PartDrawing& d) {
    const PartLook& look = *d.look;
    const bool melted = look.condition == bench::Condition::Open;
    if (melted) {
        drawSpot(d, 0.0f, 0.0f, 34.0f, rgb(0x17120e, 215));
        drawSpot(d, 4.0f, -3.0f, 20.0f, rgb(0x2a1c10, 200));
    } else if (look.melting > 0.0f) {
        drawSpot(d, 0.0f, 0.0f, 30.0f, fade(rgb(0xff8a2a), 0.8f * look.melting));
    }
    drawElement(d, d.frame, 32.0f, 6.0f, look.melting, melted, rgb(0xb98a35));
    // The clear cover over it.
    drawBar(d.list,
            d.frame,
            ImVec2(-30.0f, -11.0f),
            ImVec2(22.0f, -11.0f),
            1.8f,
            fade(IM_COL32_WHITE, 0.7f));
}

void drawBlade(ImDrawList* list,
               const FontSet& fonts,
               ImVec2 centre,
               float px_per_m,
               double rating_A,
               float melting,
               bool melted,
               float alpha) {
    const PartFrame f(centre, px_per_m / 1000.0f, alpha);
    const BladeTone colours = bladeTone(rating_A);
    const ImU32 dark = blend(colours.body, rgb(0x000000), 0.5f);
    for (const float x : {-12.5f, 12.5f})
        fillRound(list, f, x - 4.0f, 10.0f, x + 4.0f, 24.0f, 1.2f, rgb(0xd5dadb), rgb(0x8d979a));
    fillRound(list, f, -21.5f, -17.5f, 21.5f, 15.0f, 4.0f, dark, dark);
    fillRound(list,
              f,
              -20.3f,
              -16.3f,
              20.3f,
              13.8f,
              3.2f,
              blend(colours.body, IM_COL32_WHITE, 0.20f),
              blend(colours.body, rgb(0x000000), 0.18f));
    fillRound(list,
              f,
              -18.0f,
              -14.8f,
              18.0f,
              -12.9f,
              1.0f,
              fade(IM_COL32_WHITE, 0.4f),
              fade(IM_COL32_WHITE, 0.4f));
    // Its window, with the wire whole or parted.
    fillRound(list, f, -15.5f, 4.6f, 15.5f, 12.4f, 1.6f, rgb(0x0c0f10, 190), rgb(0x20282a, 170));
    const ImU32 wire =
        f.shown(melted ? rgb(0xb9c0c1) : blend(rgb(0xd5dadb), rgb(0xff7a1a), melting));
    const float thick = ImMax(1.2f, 1.8f * f.k);
    if (melted) {
        list->AddLine(f.at(-13.5f, 9.0f), f.at(-5.0f, 8.0f), wire, thick);
        list->AddLine(f.at(13.5f, 9.0f), f.at(5.5f, 9.6f), wire, thick);
        list->AddCircleFilled(f.at(-4.6f, 8.0f), 1.7f * f.k, wire);
        list->AddCircleFilled(f.at(5.0f, 9.6f), 1.7f * f.k, wire);
        list->AddCircleFilled(f.at(0.0f, 8.8f), 3.2f * f.k, f.shown(rgb(0x050606, 220)));
    } else {
        list->AddBezierCubic(f.at(-13.5f, 9.5f),
                             f.at(-6.0f, 2.5f),
                             f.at(6.0f, 14.5f),
                             f.at(13.5f, 7.5f),
                             wire,
                             thick,
                             10);
    }
    const NumberText number = numberText(rating_A);
    drawText(list,
             fonts,
             {ImMax(17.5f * f.k, 6.0f), true, f.shown(colours.number)},
             f.at(0.0f, -5.2f),
             number.text);
}

void drawBladeHolder(const PartDrawing& d) {
    if (d.look->rating <= 0.0) return;
    const ImVec2 at = d.frame.at(0.0f, -20.0f);
    // The blade's number stays upright, so the blade does; in a turned holder it is a touch smaller.
    const float k = d.look->px_per_m * ((d.frame.turns & 1) != 0 ? 0.92f : 1.0f);
    d.list->AddRectFilled(ImVec2(at.x - 17.0f * d.frame.k, at.y - 11.0f * d.frame.k),
                          ImVec2(at.x + 22.0f * d.frame.k, at.y + 21.0f * d.frame.k),
                          d.frame.shown(rgb(0x000000, 110)),
                          6.0f * d.frame.k);
    drawBlade(d.list,
              *d.fonts,
              at,
              k,
              d.look->rating,
              d.look->melting,
              d.look->condition == bench::Condition::Open,
              d.look->alpha);
    if (d.look->condition == bench::Condition::Open)
        drawSpot(d, 0.0f, -12.0f, 17.0f, rgb(0x120c06, 120));
}

void drawBlock(const PartDrawing& d) {
    const auto& terminals = bench::spec(d.look->kind).terminals;
    for (std::size_t i = 0; i < terminals.size(); i += 2)
        drawLegend(d,
                   static_cast<float>(terminals[i].x_m) * 1000.0f,
                   0.0f,
                   14.0f,
                   true,
                   tone::kInkSoft,
                   terminals[i].legend,
                   10.0f);
}

void drawRelay(const PartDrawing& d) {
    // The window: armature hinged at the left; its tip rests on the upper contact (normally closed)
    // and is drawn down on the lower one (normally open).
    const PartFrame& f = d.frame;
    const bool welded = d.look->condition == bench::Condition::Welded;
    const float in = welded ? 1.0f : ImClamp(d.look->armature, 0.0f, 1.0f);
    const auto contact = [&](float y, float bladeY) {
        drawBar(d.list, f, ImVec2(37.0f, bladeY), ImVec2(24.0f, bladeY), 2.4f, rgb(0x9aa4a6));
        fillDisc(d.list, f, 25.0f, y, 2.6f, rgb(0xf1dfa6), rgb(0xa98540));
    };
    contact(5.2f, 4.2f);
    contact(23.4f, 24.4f);
    // Coil, brighter while it pulls.
    fillRound(d.list,
              f,
              -35.0f,
              16.5f,
              4.0f,
              23.5f,
              1.4f,
              blend(rgb(0x7a4a22), rgb(0xd08a4a), in),
              blend(rgb(0x4a2c12), rgb(0x8a5526), in));
    for (float x = -31.0f; x < 3.0f; x += 4.0f)
        drawBar(d.list, f, ImVec2(x, 17.0f), ImVec2(x, 23.0f), 0.7f, rgb(0x2c180a));
    const ImVec2 hinge(-34.0f, 10.0f), tip(25.5f, 8.4f + 11.8f * in);
    drawBar(d.list,
            f,
            ImVec2(hinge.x, hinge.y + 2.0f),
            ImVec2(tip.x, tip.y + 1.6f),
            4.0f,
            fade(rgb(0x000000), 0.5f));
    drawBar(d.list, f, hinge, tip, 5.0f, rgb(0x5a4416));
    drawBar(d.list, f, hinge, tip, 3.8f, rgb(0xcfae5a));
    drawBar(d.list,
            f,
            ImVec2(hinge.x + 3.0f, hinge.y - 0.9f),
            ImVec2(tip.x - 3.0f, tip.y - 0.9f),
            0.9f,
            rgb(0xf4e2a8));
    fillDisc(d.list, f, tip.x, tip.y, 3.0f, rgb(0xf6ead0), rgb(0xb08f40));
    fillDisc(d.list, f, hinge.x, hinge.y, 3.0f, rgb(0xe3e7e8), rgb(0x7c878a));
    if (!welded) return;
    drawSpot(d, 25.0f, 22.0f, 12.0f, rgb(0x140c06, 235));
    drawSpot(d, 26.0f, 21.0f, 6.0f, rgb(0x6a5a4a, 200));
    fillDisc(d.list, f, 25.0f, 22.0f, 3.4f, rgb(0x8d8478), rgb(0x3a332c)); // the bead that holds it
}

} // namespace loom::art

// SPDX-License-Identifier: MIT
#include "screen/art/cable_heat.h"

#include "screen/art/palette.h"

#include <cmath>
#include <imgui_internal.h>

namespace loom::art {

namespace {

float ramp(float value, float from, float to) {
    const float t = ImClamp((value - from) / (to - from), 0.0f, 1.0f);
    return t * t * (3.0f - 2.0f * t);
}

// Uneven along the cable, the same every frame. 0..1.
float uneven(int i, int seed) {
    unsigned h = static_cast<unsigned>(i) * 0x9e3779b1u + static_cast<unsigned>(seed) * 0x85ebca6bu;
    h ^= h >> 15;
    h *= 0x2c1b3c6du;
    h ^= h >> 13;
    return static_cast<float>(h & 0xffffu) / 65535.0f;
}

float bumps(int i, int seed) {
    const int whole = i / 2;
    const float t = static_cast<float>(i % 2) / 2.0f;
    return uneven(whole, seed) * (1.0f - t) + uneven(whole + 1, seed) * t;
}

void drawEmbers(ImDrawList* list,
                PictureStore& pictures,
                const Line& line,
                float half_px,
                const SleeveHeat& heat,
                const CableLook& look) {
    // Slow breathing, under two a second and never off: no flashes (WCAG 2.3.1).
    const float breath = 0.82f + 0.18f * std::sin(look.time_s * 6.0f);
    list->PushTextureID(pictures.softSpot());
    for (int i = 0; i < line.count; i += 2) {
        const float r = half_px * (2.2f + 1.6f * uneven(i, 5));
        const ImU32 colour =
            fade(rgb(0xff8a1f), 0.55f * heat.glow * breath * look.alpha * uneven(i, 9));
        list->PrimReserve(6, 4);
        list->PrimRectUV(ImVec2(line.at[i].x - r, line.at[i].y - r),
                         ImVec2(line.at[i].x + r, line.at[i].y + r),
                         ImVec2(0, 0),
                         ImVec2(1, 1),
                         colour);
    }
    list->PopTextureID();
}

// The two halves of a parted cable: the line with its middle taken out.
void halves(const Line& line, Line (&parts)[2]) {
    const int cut = line.count / 2, gap = ImMax(1, line.count / 16);
    for (int i = 0; i <= cut - gap; ++i)
        parts[0].add(line.at[i]);
    for (int i = cut + gap; i < line.count; ++i)
        parts[1].add(line.at[i]);
    parts[0].findNormals();
    parts[1].findNormals();
}

void drawBurntTube(ImDrawList* list,
                   const Line& line,
                   int firstIndex,
                   float half_px,
                   ImU32 body,
                   const SleeveHeat& heat,
                   float alpha) {
    float widths[kLinePoints];
    TubeTone tones[kLinePoints];
    for (int i = 0; i < line.count; ++i) {
        const int place = firstIndex + i;
        const float bump = bumps(place, 1);
        widths[i] = half_px * (1.0f + heat.swollen * (0.04f + 0.42f * bump) -
                               0.30f * heat.charred * bumps(place, 2));
        const float burnt = ImClamp(heat.charred * (0.55f + 0.9f * bumps(place, 3)), 0.0f, 1.0f);
        const ImU32 dulled = blend(body, rgb(0x8a7a66), 0.22f * heat.dull);
        const ImU32 scorched = blend(dulled, rgb(0x4a2f1a), ImMin(1.0f, 1.4f * burnt));
        const ImU32 coal =
            blend(rgb(0x14100d), rgb(0x5b5149), 0.8f * bumps(place, 4) * bumps(place, 5));
        tones[i] = {blend(scorched, coal, burnt * burnt),
                    1.0f - heat.dull,
                    ImClamp(half_px * 0.24f, 0.7f, 1.8f),
                    alpha};
    }
    drawTube(list, line, widths, tones);
    if (heat.split <= 0.0f) return;
    // Where the sleeve has cracked open the strands show, in long pointed gaps.
    const ImU32 copper = blend(tone::kCopper, rgb(0xff7a1a), heat.glow);
    for (int i = 1; i + 3 < line.count; i += 2) {
        if (uneven(firstIndex + i, 7) > 0.5f * heat.split) continue;
        const float wide = half_px * (0.30f + 0.35f * uneven(firstIndex + i, 8));
        const float aside = half_px * 0.5f * (uneven(firstIndex + i, 10) - 0.5f);
        Line crack;
        for (int k = 0; k < 4; ++k)
            crack.add(ImVec2(line.at[i + k].x + line.normal[i + k].x * aside,
                             line.at[i + k].y + line.normal[i + k].y * aside));
        crack.findNormals();
        const float widths_px[4] = {
            0.1f, wide, wide * (0.4f + uneven(firstIndex + i, 11) * 0.6f), 0.1f};
        const TubeTone strand{copper, 0.7f, 1.2f, alpha};
        const TubeTone strands[4] = {strand, strand, strand, strand};
        drawTube(list, crack, widths_px, strands);
    }
}

} // namespace

SleeveHeat sleeveHeat(const CableLook& look) {
    const bool softened = look.condition != bench::CableCondition::Sound;
    const bool charred = look.condition == bench::CableCondition::Charred ||
                         look.condition == bench::CableCondition::Parted;
    SleeveHeat heat;
    // PVC: softens from 70..80 C, smokes from about 160..200 C, chars beyond 250 C (bpks.ru, pslc.ws).
    heat.dull = ImMax(ramp(look.temp_K, 341.0f, 356.0f), softened ? 0.85f : 0.0f);
    heat.swollen = ImMax(ramp(look.temp_K, 350.0f, 440.0f), softened ? 0.55f : 0.0f);
    heat.charred = ImMax(0.9f * ramp(look.temp_K, 440.0f, 560.0f), charred ? 1.0f : 0.0f);
    heat.split = ImMax(ramp(look.temp_K, 520.0f, 620.0f), charred ? 0.8f : 0.0f);
    heat.glow = ramp(look.temp_K, 580.0f, 800.0f);
    heat.isParted = look.condition == bench::CableCondition::Parted;
    heat.isCool = heat.dull <= 0.0f && !heat.isParted;
    return heat;
}

float smokeOf(const CableLook& look) {
    return ramp(look.temp_K, 425.0f, 520.0f);
}

void drawHotSleeve(ImDrawList* list,
                   PictureStore& pictures,
                   const Line& line,
                   float half_px,
                   ImU32 body,
                   const SleeveHeat& heat,
                   const CableLook& look) {
    if (heat.charred > 0.0f) // the board under it is scorched too
        drawSoftBand(list,
                     line,
                     half_px * 1.25f,
                     half_px * 1.3f,
                     fade(rgb(0x2a1405), 0.30f * heat.charred * look.alpha));
    if (heat.isParted) {
        Line parts[2];
        halves(line, parts);
        drawBurntTube(list, parts[0], 0, half_px, body, heat, look.alpha);
        drawBurntTube(list, parts[1], line.count - parts[1].count, half_px, body, heat, look.alpha);
        for (int side = 0; side < 2; ++side) { // frayed copper at the gap
            const Line& part = parts[side];
            if (part.count < 2) continue;
            const int end = side == 0 ? part.count - 1 : 0;
            const ImVec2 n = part.normal[end],
                         forward(side == 0 ? -n.y : n.y, side == 0 ? n.x : -n.x);
            for (int strand = -2; strand <= 2; ++strand) {
                const float s = static_cast<float>(strand) * 0.34f * half_px;
                const float reach = half_px * (0.9f + 0.5f * uneven(strand + 9, side));
                list->AddLine(
                    ImVec2(part.at[end].x + n.x * s * 0.7f, part.at[end].y + n.y * s * 0.7f),
                    ImVec2(part.at[end].x + forward.x * reach + n.x * s * 1.5f,
                           part.at[end].y + forward.y * reach + n.y * s * 1.5f),
                    fade(tone::kCopper, look.alpha),
                    ImMax(1.0f, half_px * 0.2f));
            }
        }
    } else {
        drawBurntTube(list, line, 0, half_px, body, heat, look.alpha);
    }
    if (heat.glow > 0.0f) drawEmbers(list, pictures, line, half_px, heat, look);
}

void drawWisp(ImDrawList* list,
              PictureStore& pictures,
              ImVec2 at_px,
              float px_per_m,
              float time_s,
              int which,
              float amount) {
    if (amount <= 0.0f) return;
    constexpr int kPuffs = 6;
    constexpr float kLife_s = 2.6f;
    const float k = px_per_m / 800.0f;
    list->PushTextureID(pictures.softSpot());
    for (int i = 0; i < kPuffs; ++i) {
        const float phase = time_s / kLife_s + static_cast<float>(i) / kPuffs;
        const float age = phase - std::floor(phase);
        const float sway = std::sin(phase * 5.0f + static_cast<float>(which) * 2.1f);
        const ImVec2 at(at_px.x + (6.0f * sway + 16.0f * age) * age * k, at_px.y - 62.0f * age * k);
        const float r = (6.0f + 26.0f * age) * k;
        const float thick = amount * 0.34f * ImMin(1.0f, age * 6.0f) * (1.0f - age);
        list->PrimReserve(6, 4);
        list->PrimRectUV(ImVec2(at.x - r, at.y - r),
                         ImVec2(at.x + r, at.y + r),
                         ImVec2(0, 0),
                         ImVec2(1, 1),
                         fade(rgb(0x5f5a57), thick));
    }
    list->PopTextureID();
}

} // namespace loom::art

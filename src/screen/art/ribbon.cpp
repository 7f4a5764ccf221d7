// SPDX-License-Identifier: MIT
#include "screen/art/ribbon.h"

#include "screen/art/palette.h"

#include <imgui_internal.h>

namespace loom::art {

namespace {

// Towards the lamp over the bench (x right, y down, z to the eye), and halfway between it and the
// eye: where gloss shows.
struct Direction {
    float x, y, z;
};

constexpr Direction kLamp{-0.30f, -0.66f, 0.69f};
constexpr Direction kGlint{-0.164f, -0.360f, 0.918f};

ImU32 lit(ImU32 body, float light, float glint, float alpha) {
    const auto tint = [&](int shift) {
        const float c = static_cast<float>((body >> shift) & 255u) * light + 255.0f * glint;
        return static_cast<ImU32>(c > 255.0f ? 255.0f : c) << shift;
    };
    return tint(IM_COL32_R_SHIFT) | tint(IM_COL32_G_SHIFT) | tint(IM_COL32_B_SHIFT) |
           (static_cast<ImU32>(255.0f * alpha + 0.5f) << IM_COL32_A_SHIFT);
}

// Where the lanes of a tube's surface lie, as a share of half its width, and how steeply the surface
// faces the eye there.
constexpr int kTubeLanes = kMostLanes;
constexpr int kSurfaceLanes = kTubeLanes - 4;
constexpr float kTubeShares[kSurfaceLanes] = {
    0.97f, 0.74f, 0.46f, 0.16f, -0.16f, -0.46f, -0.74f, -0.97f};

struct Steepness {
    float up[kSurfaceLanes];

    Steepness() {
        for (int i = 0; i < kSurfaceLanes; ++i)
            up[i] = ImSqrt(1.0f - kTubeShares[i] * kTubeShares[i]);
    }
};

// The lanes across a tube at a point with the given normal: a soft dark edge, the lit surface, the
// other edge.
void tubeRow(const TubeTone& tone, ImVec2 n, float half_px, LaneVertex* across) {
    static const Steepness steepness;
    const ImU32 edge = fade(tone::kTubeEdge, tone.alpha), none = fade(edge, 0.0f);
    const float rim_px = half_px + tone.outline_px + 0.6f,
                edge_px = half_px + tone.outline_px * 0.45f;
    across[0] = {rim_px, none};
    across[1] = {edge_px, edge};
    across[kTubeLanes - 2] = {-edge_px, edge};
    across[kTubeLanes - 1] = {-rim_px, none};
    const float lamp = n.x * kLamp.x + n.y * kLamp.y, sheen = n.x * kGlint.x + n.y * kGlint.y;
    for (int i = 0; i < kSurfaceLanes; ++i) {
        const float u = kTubeShares[i], up = steepness.up[i];
        const float side = u * lamp + up * kLamp.z, glint = u * sheen + up * kGlint.z;
        const float g2 = glint > 0.0f ? glint * glint : 0.0f, g4 = g2 * g2, g8 = g4 * g4;
        const float shine = g8 * g8 * g4;
        across[i + 2] = {u * half_px,
                         lit(tone.body,
                             0.38f + 0.78f * ImMax(side, 0.0f),
                             tone.gloss * 0.42f * shine + 0.03f * g4,
                             tone.alpha)};
    }
}

} // namespace

void Line::findNormals() {
    for (int i = 0; i < count; ++i) {
        const ImVec2 a = at[ImMax(i - 1, 0)], b = at[ImMin(i + 1, count - 1)];
        const float dx = b.x - a.x, dy = b.y - a.y, length = ImSqrt(dx * dx + dy * dy);
        if (length > 1e-6f)
            normal[i] = ImVec2(dy / length, -dx / length);
        else
            normal[i] = i > 0 ? normal[i - 1] : ImVec2(0, -1);
    }
}

void drawTube(ImDrawList* list, const Line& line, float halfWidth_px, const TubeTone& tone) {
    drawRows(list, line, kTubeLanes, [&](int i, LaneVertex* across) {
        tubeRow(tone, line.normal[i], halfWidth_px, across);
    });
}

void drawTube(ImDrawList* list,
              const Line& line,
              const float* halfWidth_px,
              const TubeTone* tones) {
    drawRows(list, line, kTubeLanes, [&](int i, LaneVertex* across) {
        tubeRow(tones[i], line.normal[i], halfWidth_px[i], across);
    });
}

void drawBarrel(ImDrawList* list, ImVec2 a, ImVec2 b, float halfWidth_px, const TubeTone& tone) {
    Line line;
    line.add(a);
    line.add(b);
    line.findNormals();
    drawTube(list, line, halfWidth_px, tone);
    // Its ends would be cut without an edge.
    const ImVec2 n = line.normal[0];
    const float r = halfWidth_px + tone.outline_px * 0.6f;
    const ImU32 edge = fade(tone::kTubeEdge, 0.8f * tone.alpha);
    for (const ImVec2& end : {a, b})
        list->AddLine(ImVec2(end.x - n.x * r, end.y - n.y * r),
                      ImVec2(end.x + n.x * r, end.y + n.y * r),
                      edge,
                      ImMax(1.0f, tone.outline_px));
}

void drawSoftBand(
    ImDrawList* list, const Line& line, float halfWidth_px, float feather_px, ImU32 colour) {
    const ImU32 none = fade(colour, 0.0f), some = fade(colour, 0.55f);
    const LaneVertex lanes[6] = {{halfWidth_px + feather_px, none},
                                 {halfWidth_px + feather_px * 0.35f, some},
                                 {halfWidth_px - feather_px * 0.4f, colour},
                                 {-halfWidth_px + feather_px * 0.4f, colour},
                                 {-halfWidth_px - feather_px * 0.35f, some},
                                 {-halfWidth_px - feather_px, none}};
    drawStrip(list, line, 6, [&](int, int lane) { return lanes[lane]; });
}

} // namespace loom::art

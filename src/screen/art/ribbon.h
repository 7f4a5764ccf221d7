// SPDX-License-Identifier: MIT
// Strips of triangles along a line: the one mesh behind sleeves, barrels, shimmer and soft edges.
// A strip has lanes side by side; each lane has an offset across the line and a colour.
#pragma once

#include <imgui.h>

namespace loom::art {

// The most points a line may have; longer ones are cut off.
constexpr int kLinePoints = 72;

// A line in pixels with the unit normal (to the left of travel on a screen with y down: up for a
// line going right) at each point.
struct Line {
    ImVec2 at[kLinePoints];
    ImVec2 normal[kLinePoints];
    int count = 0;

    void add(ImVec2 point) {
        if (count < kLinePoints) at[count++] = point;
    }

    // Call after the last add().
    void findNormals();
};

struct LaneVertex {
    float across_px; // along the normal
    ImU32 colour;
};

constexpr int kMostLanes = 12;

// row(i, lanes) fills the vertices across the line at its point i, for i in 0..count-1; at most
// kMostLanes of them.
template <class Row> void drawRows(ImDrawList* list, const Line& line, int lanes, const Row& row) {
    if (line.count < 2 || lanes < 2) return;
    const ImVec2 white = ImGui::GetFontTexUvWhitePixel();
    const int vertices = line.count * lanes, indices = (line.count - 1) * (lanes - 1) * 6;
    list->PrimReserve(indices, vertices);
    ImDrawVert* vertex = list->_VtxWritePtr;
    LaneVertex across[kMostLanes];
    for (int i = 0; i < line.count; ++i) {
        const ImVec2 at = line.at[i], normal = line.normal[i];
        row(i, across);
        for (int lane = 0; lane < lanes; ++lane, ++vertex) {
            vertex->pos = ImVec2(at.x + normal.x * across[lane].across_px,
                                 at.y + normal.y * across[lane].across_px);
            vertex->uv = white;
            vertex->col = across[lane].colour;
        }
    }
    ImDrawIdx* index = list->_IdxWritePtr;
    const ImDrawIdx first = static_cast<ImDrawIdx>(list->_VtxCurrentIdx);
    const ImDrawIdx next = static_cast<ImDrawIdx>(lanes);
    for (int i = 0; i + 1 < line.count; ++i) {
        ImDrawIdx a = first + static_cast<ImDrawIdx>(i * lanes);
        for (int lane = 0; lane + 1 < lanes; ++lane, ++a, index += 6) {
            index[0] = index[3] = a;
            index[1] = a + 1;
            index[2] = index[4] = a + next + 1;
            index[5] = a + next;
        }
    }
    list->_VtxWritePtr += vertices;
    list->_IdxWritePtr += indices;
    list->_VtxCurrentIdx += static_cast<unsigned>(vertices);
}

// vertex(i, lane) -> LaneVertex, for i in 0..count-1 and lane in 0..lanes-1.
template <class Vertex>
void drawStrip(ImDrawList* list, const Line& line, int lanes, const Vertex& vertex) {
    drawRows(list, line, lanes, [&](int i, LaneVertex* across) {
        for (int lane = 0; lane < lanes; ++lane)
            across[lane] = vertex(i, lane);
    });
}

// How a tube takes the light.
struct TubeTone {
    ImU32 body;
    float gloss = 1.0f;      // 0 dull .. 1 new
    float outline_px = 1.0f; // dark edge outside half the width
    float alpha = 1.0f;
};

// A round tube lit from the upper left. halfWidth_px(i) at each point; tone(i) at each point.
void drawTube(ImDrawList* list, const Line& line, float halfWidth_px, const TubeTone& tone);
void drawTube(ImDrawList* list, const Line& line, const float* halfWidth_px, const TubeTone* tones);

// A tube from a to b, such as a crimped barrel.
void drawBarrel(ImDrawList* list, ImVec2 a, ImVec2 b, float halfWidth_px, const TubeTone& tone);

// A soft dark band, for shadows and scorch: full colour inside, gone feather_px outside.
void drawSoftBand(
    ImDrawList* list, const Line& line, float halfWidth_px, float feather_px, ImU32 colour);

} // namespace loom::art

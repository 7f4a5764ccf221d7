// SPDX-License-Identifier: MIT
// Text on the bench, from fonts that the caller has loaded. pick() takes the nearest size at hand.
#pragma once

#include <imgui.h>
#include <string_view>
#include <vector>

namespace loom::art {

// An axis-aligned rectangle in pixels.
struct Box {
    ImVec2 min, max;

    float width() const { return max.x - min.x; }

    float height() const { return max.y - min.y; }

    bool touches(const Box& other) const {
        return min.x < other.max.x && other.min.x < max.x && min.y < other.max.y &&
               other.min.y < max.y;
    }
};

// Each weight in a few sizes, small to large; unused places stay null, the first must be set.
struct FontSet {
    static constexpr int kSizes = 4;
    ImFont* regular[kSizes] = {};
    ImFont* bold[kSizes] = {};
    float scale = 1.0f; // of names and labels, which do not follow the zoom (1.3 on the stand)

    // The smallest font not smaller than size_px, else the largest.
    ImFont* pick(bool isBold, float size_px) const;
};

struct Lettering {
    float size_px = 15.0f; // of the em, as in CSS
    bool bold = true;
    ImU32 colour = 0xff000000u;
};

// The one way letters come onto a draw list; at: the upper left corner of their line.
void putText(
    ImDrawList* list, ImFont* font, float size, ImVec2 at, ImU32 colour, std::string_view text);

// For tests: told of each text just after it was put. Nothing listens in the page.
struct PutText {
    const ImDrawList* list;
    int firstIndex; // of what the list holds for it
    ImVec2 at, size;
    std::string_view text;
};

inline void (*whenTextIsPut)(const PutText&) = nullptr;

ImVec2 textSize(const FontSet& fonts, const Lettering& style, const char* text);
// As wrapped() in wrap.h; none for an empty text.
std::vector<std::string_view>
linesOf(const FontSet& fonts, const Lettering& style, float width_px, std::string_view text);
// Centred on a point; nothing is drawn under 6 px, which nobody can read.
void drawText(ImDrawList* list,
              const FontSet& fonts,
              const Lettering& style,
              ImVec2 centre,
              const char* text);

// A number as people write it: "7.5", "30", "0.75".
struct NumberText {
    char text[16];
};

NumberText numberText(double value);

} // namespace loom::art

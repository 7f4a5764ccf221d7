// SPDX-License-Identifier: MIT
#include "screen/art/lettering.h"

#include "screen/art/wrap.h"

#include <cstdio>

namespace loom::art {

namespace {

// Dear ImGui sizes a font by its line, letters are sized by their em. Open Sans: ascent 1.069 and
// descent 0.293 of an em (its hhea table).
constexpr float kLineOfEm = 1.362f;

} // namespace

ImFont* FontSet::pick(bool isBold, float size_px) const {
    ImFont* const* fonts = isBold && bold[0] ? bold : regular;
    ImFont* best = fonts[0];
    for (int i = 1; i < kSizes && fonts[i] && best->FontSize < size_px * kLineOfEm - 0.5f; ++i)
        best = fonts[i];
    return best;
}

void putText(
    ImDrawList* list, ImFont* font, float size, ImVec2 at, ImU32 colour, std::string_view text) {
    const char *begin = text.data(), *end = begin + text.size();
    const int first = list->IdxBuffer.Size;
    list->AddText(font, size, at, colour, begin, end);
    if (whenTextIsPut)
        whenTextIsPut({list, first, at, font->CalcTextSizeA(size, 1e9f, 0.0f, begin, end), text});
}

ImVec2 textSize(const FontSet& fonts, const Lettering& style, const char* text) {
    ImFont* font = fonts.pick(style.bold, style.size_px);
    if (!font) return ImVec2(0, 0);
    return font->CalcTextSizeA(style.size_px * kLineOfEm, 1e9f, 0.0f, text);
}

std::vector<std::string_view>
linesOf(const FontSet& fonts, const Lettering& style, float width_px, std::string_view text) {
    ImFont* font = fonts.pick(style.bold, style.size_px);
    if (!font || text.empty()) return {};
    return wrapped(font, style.size_px * kLineOfEm, width_px, text);
}

void drawText(ImDrawList* list,
              const FontSet& fonts,
              const Lettering& style,
              ImVec2 centre,
              const char* text) {
    ImFont* font = fonts.pick(style.bold, style.size_px);
    if (!font || !text[0] || style.size_px < 6.0f) return;
    const ImVec2 size = font->CalcTextSizeA(style.size_px * kLineOfEm, 1e9f, 0.0f, text);
    const ImVec2 at(static_cast<float>(static_cast<int>(centre.x - size.x * 0.5f + 0.5f)),
                    static_cast<float>(static_cast<int>(centre.y - size.y * 0.5f + 0.5f)));
    putText(list, font, style.size_px * kLineOfEm, at, style.colour, text);
}

NumberText numberText(double value) {
    NumberText out{};
    std::snprintf(out.text, sizeof out.text, "%.4g", value);
    return out;
}

} // namespace loom::art

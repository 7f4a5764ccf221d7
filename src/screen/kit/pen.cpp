// SPDX-License-Identifier: MIT
#include "screen/kit/pen.h"

#include "screen/art/lettering.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

// Sizes of LOOK: 16 px text, 19 px titles.
constexpr float emOf(Face face) {
    switch (face) {
    case Face::Title:
        return 19.0f;
    case Face::Large:
        return 24.0f;
    case Face::Body:
    case Face::Bold:
        break;
    }
    return 16.0f;
}

// Where the middle of the capitals is, as a share of Dear ImGui's font size: ascent 2189 less half
// of the cap height 1462, of 2789 (Open Sans, hhea and OS/2 tables).
constexpr float kCapMiddle = (2189.0f - 731.0f) / 2789.0f;

constexpr float kLinePitch = 1.1f; // 24 px for letters of 16 px
constexpr float kSmaller = 0.82f;  // 13 px, as the legends on parts, where a box is too narrow

} // namespace

void turnDrawn(ImDrawList* list, int from, ImVec2 about, float angle_rad) {
    const float c = std::cos(angle_rad), s = std::sin(angle_rad);
    for (int i = from; i < list->VtxBuffer.Size; ++i) {
        ImVec2& p = list->VtxBuffer[i].pos;
        const float x = p.x - about.x, y = p.y - about.y;
        p = {about.x + c * x - s * y, about.y + s * x + c * y};
    }
}

Pen::Pen(const View& view, ImDrawList* onto)
    : list(onto), unit(view.layout.unit), fonts(view.fonts) {}

ImFont* Pen::font(Face face) const {
    switch (face) {
    case Face::Bold:
        return fonts.bold;
    case Face::Title:
        return fonts.title;
    case Face::Large:
        return fonts.large;
    case Face::Body:
        break;
    }
    return fonts.body;
}

float Pen::size(Face face) const {
    const float wanted = emOf(face) * unit * kLinePerEm;
    const ImFont* f = font(face);
    const float own = f->FontSize * f->Scale * ImGui::GetIO().FontGlobalScale;
    return std::fabs(own - wanted) < 0.04f * wanted ? own : wanted;
}

float Pen::line(Face face) const {
    return std::round(size(face) * kLinePitch);
}

float Pen::width(Face face, std::string_view text) const {
    return art::lineWidth(font(face), size(face), text);
}

std::string Pen::cut(Face face, std::string_view text, float width_px, float share) const {
    if (share * width(face, text) <= width_px) return std::string(text);
    const float room = width_px - share * width(face, "…");
    std::size_t end = 0;
    while (end < text.size()) {
        const std::size_t next = art::nextLetter(text, end);
        if (share * width(face, text.substr(0, next)) > room) break;
        end = next;
    }
    while (end > 0 && text[end - 1] == ' ')
        --end;
    return std::string(text.substr(0, end)) + "…";
}

std::string Pen::cutWords(Face face, std::string_view text, float width_px, float share) const {
    std::string out;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = std::min(text.find_first_of(" \n", from), text.size());
        out += cut(face, text.substr(from, end - from), width_px, share);
        out += text.substr(end, 1);
        from = end + 1;
    }
    return out;
}

void Pen::write(
    Face face, float x, float middle_y, ImU32 colour, std::string_view text, float share) const {
    const float s = share * size(face);
    const ImVec2 at(std::round(x), std::round(middle_y - s * kCapMiddle));
    art::putText(list, font(face), s, at, colour, text);
}

void Pen::left(Face face, ImVec2 at, ImU32 colour, std::string_view text) const {
    write(face, at.x, at.y, colour, text);
}

void Pen::centred(Face face, ImVec2 at, ImU32 colour, std::string_view text) const {
    write(face, at.x - width(face, text) * 0.5f, at.y, colour, text);
}

void Pen::right(Face face, ImVec2 at, ImU32 colour, std::string_view text) const {
    write(face, at.x - width(face, text), at.y, colour, text);
}

void Pen::upward(Face face, ImVec2 at, ImU32 colour, std::string_view text) const {
    const int from = list->VtxBuffer.Size;
    // Not through the clip rectangle: a glyph is cut by it before it is turned.
    const ImVec2 whole = ImGui::GetIO().DisplaySize;
    list->PushClipRect({-whole.x, -whole.y}, {2 * whole.x, 2 * whole.y}, false);
    centred(face, at, colour, text);
    turnDrawn(list, from, at, -1.57079633f);
    list->PopClipRect();
}

void Pen::centredIn(Face face, const Rect& box, ImU32 colour, std::string_view text) const {
    if (width(face, text) <= box.width()) return centred(face, box.centre(), colour, text);
    const float s = kSmaller * size(face), pitch = kSmaller * line(face);
    const std::string whole = cutWords(face, text, box.width(), kSmaller);
    const auto lines = wrapped(font(face), s, box.width(), whole);
    const std::size_t shown =
        std::clamp<std::size_t>(static_cast<std::size_t>(box.height() / pitch), 1, lines.size());
    float y = box.centre().y - pitch * 0.5f * static_cast<float>(shown - 1);
    for (std::size_t i = 0; i < shown; ++i, y += pitch) {
        const auto from = static_cast<std::size_t>(lines[i].data() - whole.data());
        const std::string said = i + 1 == shown && shown < lines.size()
                                     ? cut(face, whole.substr(from), box.width(), kSmaller)
                                     : std::string(lines[i]);
        write(
            face, box.centre().x - 0.5f * kSmaller * width(face, said), y, colour, said, kSmaller);
    }
}

float Pen::paragraph(
    Face face, ImVec2 at, float width_px, ImU32 colour, std::string_view text) const {
    const float pitch = line(face);
    float y = at.y;
    for (const std::string_view row : wrapped(font(face), size(face), width_px, text)) {
        write(face, at.x, y + pitch * 0.5f, colour, row);
        y += pitch;
    }
    return y - at.y;
}

float Pen::paragraphHeight(Face face, float width_px, std::string_view text) const {
    return line(face) * static_cast<float>(wrapped(font(face), size(face), width_px, text).size());
}

} // namespace loom::screen

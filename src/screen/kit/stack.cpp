// SPDX-License-Identifier: MIT
#include "screen/kit/stack.h"

#include <utility>

namespace loom::screen {

void Stack::add(float height_px, Draw draw) {
    blocks.push_back({height_px, std::move(draw)});
    total += height_px;
}

void Stack::space(float height_px) {
    add(height_px, nullptr);
}

void Stack::text(const Pen& pen, Face face, ImU32 colour, std::string words) {
    const float high = pen.paragraphHeight(face, width, words);
    add(high, [&pen, face, colour, said = std::move(words)](const Rect& at) {
        pen.paragraph(face, at.min, at.width(), colour, said);
    });
}

void Stack::draw(ImVec2 at) const {
    float y = at.y;
    for (const Block& block : blocks) {
        if (block.draw) block.draw(rectAt(at.x, y, width, block.height));
        y += block.height;
    }
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// A column of blocks that is measured before it is drawn, so that a sheet knows whether it fits.
// add() blocks with their heights, ask height(), then draw().
#pragma once

#include "screen/kit/pen.h"

#include <functional>
#include <vector>

namespace loom::screen {

class Stack {
public:
    using Draw = std::function<void(const Rect&)>;

    explicit Stack(float columnWidth_px) : width(columnWidth_px) {}

    void add(float height_px, Draw draw);
    void space(float height_px);
    // A paragraph in the column.
    void text(const Pen& pen, Face face, ImU32 colour, std::string words);

    float height() const { return total; }

    void draw(ImVec2 at) const;

    float width;

private:
    struct Block {
        float height;
        Draw draw;
    };

    std::vector<Block> blocks;
    float total = 0.0f;
};

} // namespace loom::screen

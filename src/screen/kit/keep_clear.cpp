// SPDX-License-Identifier: MIT
#include "screen/kit/keep_clear.h"

#include <algorithm>

namespace loom::screen {
namespace {

constexpr float kReadCounts = 3.0f; // what is read, times what a part counts

} // namespace

float overlap(const Rect& a, const Rect& b) {
    const float w = std::min(a.max.x, b.max.x) - std::max(a.min.x, b.min.x);
    const float h = std::min(a.max.y, b.max.y) - std::max(a.min.y, b.min.y);
    return w > 0.0f && h > 0.0f ? w * h : 0.0f;
}

float hiddenOnBoard(const Items& items, const Rect& place) {
    float hidden = 0.0f;
    for (const Item& item : items.all()) {
        if (items.isRead(item.name))
            hidden += kReadCounts * overlap(place, item.rect);
        else if (item.name.rfind("part/", 0) == 0)
            hidden += overlap(place, item.rect);
    }
    return hidden;
}

Rect clearBoard(const Layout& layout) {
    Rect out = layout.board;
    if (overlap(layout.board, layout.leafTab) > 0.0f)
        out.min.x = std::max(out.min.x, layout.leafTab.max.x - 8.0f * layout.unit);
    return out;
}

Rect keptWithin(const Rect& bounds, Rect r) {
    const float w = r.width(), h = r.height();
    r.min.x = std::max(bounds.min.x, std::min(r.min.x, bounds.max.x - w));
    r.min.y = std::max(bounds.min.y, std::min(r.min.y, bounds.max.y - h));
    r.max = {r.min.x + w, r.min.y + h};
    return r;
}

} // namespace loom::screen

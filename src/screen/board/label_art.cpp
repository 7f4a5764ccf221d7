// SPDX-License-Identifier: MIT
#include "screen/board/label_art.h"

#include "screen/art/palette.h"

#include <algorithm>
#include <cmath>

namespace loom::art {

namespace {

// Middle first, then alternately to both sides.
constexpr float kShares[] = {0.50f,
                             0.44f,
                             0.56f,
                             0.38f,
                             0.62f,
                             0.32f,
                             0.68f,
                             0.26f,
                             0.74f,
                             0.20f,
                             0.80f,
                             0.15f,
                             0.85f,
                             0.10f,
                             0.90f};

Lettering labelStyle(const FontSet& fonts) {
    return {12.5f * fonts.scale, true, tone::kInk};
}

Box boxAround(ImVec2 centre, ImVec2 size) {
    return {ImVec2(centre.x - size.x * 0.5f, centre.y - size.y * 0.5f),
            ImVec2(centre.x + size.x * 0.5f, centre.y + size.y * 0.5f)};
}

float overlap(const Box& a, const Box& b) {
    const float w = std::min(a.max.x, b.max.x) - std::max(a.min.x, b.min.x);
    const float h = std::min(a.max.y, b.max.y) - std::max(a.min.y, b.min.y);
    return w > 0.0f && h > 0.0f ? w * h : 0.0f;
}

struct Crowd {
    const std::vector<Box>& obstacles;
    const std::vector<LabelSpot>& spots;
    float gap_px;

    // Area covered that must not be, with labels 0..placed-1; `self` is left out.
    float covered(const Box& box, std::size_t placed, std::size_t self) const {
        const Box wide{ImVec2(box.min.x - gap_px, box.min.y - gap_px),
                       ImVec2(box.max.x + gap_px, box.max.y + gap_px)};
        float sum = 0.0f;
        for (const Box& obstacle : obstacles)
            sum += overlap(box, obstacle);
        for (std::size_t i = 0; i < placed; ++i)
            if (i != self && spots[i].along >= 0.0f) sum += 2.0f * overlap(wide, spots[i].box_px);
        return sum;
    }
};

// How many points of other cables lie under a box: a label there would hide a crossing.
int crossings(const BoardView& view,
              const std::vector<LabelWish>& wishes,
              std::size_t self,
              const Box& box) {
    int count = 0;
    const ImVec2 low = view.toBoard(box.min), high = view.toBoard(box.max);
    for (std::size_t i = 0; i < wishes.size(); ++i) {
        if (i == self || !wishes[i].route) continue;
        for (const ImVec2& p : wishes[i].route->points_m)
            count += p.x > low.x && p.x < high.x && p.y > low.y && p.y < high.y;
    }
    return count;
}

void settle(LabelSpot& spot, const BoardView& view, const Route& route, float share, ImVec2 size) {
    spot.along = share;
    spot.centre_px = view.toScreen(pointAlong(route, share * route.drawn_m).at_m);
    spot.box_px = boxAround(spot.centre_px, size);
}

} // namespace

void placeLabels(const BoardView& view,
                 const FontSet& fonts,
                 const std::vector<LabelWish>& wishes,
                 const std::vector<Box>& obstacles,
                 std::vector<LabelSpot>& spots) {
    spots.resize(wishes.size());
    const Lettering style = labelStyle(fonts);
    const Crowd crowd{obstacles, spots, 2.0f * fonts.scale};
    for (std::size_t i = 0; i < wishes.size(); ++i) {
        const LabelWish& wish = wishes[i];
        LabelSpot& spot = spots[i];
        if (!wish.route || !wish.text[0] || wish.route->points_m.size() < 2) {
            if (wish.route) spot.along = -1.0f;
            continue;
        }
        const ImVec2 text = textSize(fonts, style, wish.text);
        const ImVec2 size(text.x + 14.0f * fonts.scale, style.size_px + 7.0f * fonts.scale);
        if (spot.along >= 0.0f) { // kept while it is free
            settle(spot, view, *wish.route, spot.along, size);
            if (crowd.covered(spot.box_px, i, i) <= 0.0f) continue;
        }
        float best = 1e30f, bestShare = 0.5f;
        for (const float share : kShares) {
            LabelSpot tried;
            settle(tried, view, *wish.route, share, size);
            float cost = crowd.covered(tried.box_px, i, i) + 260.0f * std::fabs(share - 0.5f);
            if (cost >= best) continue;
            cost += 14.0f * static_cast<float>(crossings(view, wishes, i, tried.box_px));
            if (cost < best) {
                best = cost;
                bestShare = share;
            }
        }
        settle(spot, view, *wish.route, bestShare, size);
    }
}

void drawLabel(ImDrawList* list,
               const FontSet& fonts,
               const LabelSpot& spot,
               const char* text,
               LabelMark mark) {
    if (spot.along < 0.0f) return;
    const float k = fonts.scale, round = 3.0f * k;
    const ImVec2 lo(std::floor(spot.box_px.min.x) + 0.5f, std::floor(spot.box_px.min.y) + 0.5f);
    const ImVec2 hi(std::floor(spot.box_px.max.x) + 0.5f, std::floor(spot.box_px.max.y) + 0.5f);
    list->AddRectFilled(ImVec2(lo.x + 1.0f, lo.y + 2.5f * k),
                        ImVec2(hi.x + 1.0f, hi.y + 2.5f * k),
                        fade(tone::kShadow, 0.30f),
                        round);
    list->AddRectFilled(lo, hi, tone::kPaper, round);
    // A sleeve is a tube: a little darker along its lower edge.
    list->AddRectFilled(ImVec2(lo.x + 1.0f, hi.y - 4.0f * k),
                        ImVec2(hi.x - 1.0f, hi.y - 1.0f),
                        rgb(0xece5d3),
                        round);
    const bool marked = mark != LabelMark::None;
    const ImU32 line = mark == LabelMark::Attention ? tone::kAttention
                       : mark == LabelMark::Fault   ? tone::kFault
                                                    : tone::kLabelLine;
    list->AddRect(lo, hi, line, round, 0, (marked ? 2.0f : 1.0f) * k);
    drawText(list, fonts, labelStyle(fonts), spot.centre_px, text);
}

} // namespace loom::art

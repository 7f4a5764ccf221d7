// SPDX-License-Identifier: MIT
#include "yard/slide.h"

#include "yard/vec.h"

#include <algorithm>
#include <cmath>

namespace loom::yard {

namespace {

constexpr double kLasts_s = 0.22; // quick, eased, never needed to understand

// As many points as asked for, evenly along the line. The line has two points at least.
std::vector<Point> evenly(const std::vector<Point>& line, std::size_t count) {
    std::vector<double> along_m{0.0};
    for (std::size_t i = 1; i < line.size(); ++i)
        along_m.push_back(along_m.back() + apart_m(line[i - 1], line[i]));
    std::vector<Point> points;
    std::size_t piece = 1;
    for (std::size_t k = 0; k < count; ++k) {
        const double at_m =
            along_m.back() * static_cast<double>(k) / static_cast<double>(count - 1);
        while (piece + 1 < line.size() && along_m[piece] < at_m)
            ++piece;
        const double length_m = along_m[piece] - along_m[piece - 1];
        const double share = length_m > 0.0 ? (at_m - along_m[piece - 1]) / length_m : 0.0;
        points.push_back(line[piece - 1] +
                         std::min(std::max(share, 0.0), 1.0) * (line[piece] - line[piece - 1]));
    }
    return points;
}

} // namespace

void startSlide(Rope& rope, Rope goal) {
    goal.feel.board_m = rope.feel.board_m;
    Slide slide;
    slide.to_m = goal.strand.points_m;
    slide.from_m = evenly(rope.strand.points_m, slide.to_m.size());
    slide.links_m = goal.strand.links_m;
    goal.strand.points_m = slide.from_m;
    keepChords(goal.strand);
    goal.slide = std::move(slide);
    rope = std::move(goal);
    rope.awake = true;
}

bool isSliding(const Rope& rope) {
    return rope.slide.has_value();
}

void goOnSliding(Rope& rope, double step_s) {
    Slide& slide = *rope.slide;
    slide.passed_s += step_s;
    const double share = std::min(slide.passed_s / kLasts_s, 1.0);
    const double kEased = share * share * (3.0 - 2.0 * share);
    for (std::size_t i = 0; i < slide.to_m.size(); ++i)
        rope.strand.points_m[i] = slide.from_m[i] + kEased * (slide.to_m[i] - slide.from_m[i]);
    keepChords(rope.strand);
    if (share < 1.0) return;
    rope.strand = {slide.to_m, slide.links_m};
    sleepRope(rope);
}

} // namespace loom::yard

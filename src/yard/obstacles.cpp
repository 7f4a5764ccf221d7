// SPDX-License-Identifier: MIT
#include "yard/obstacles.h"

#include "bench/catalogue.h"
#include "yard/vec.h"

#include <algorithm>
#include <cmath>

namespace loom::yard {

namespace {

constexpr double kWheelAt_m = 0.105, kWheelRadius_m = 0.0543;

double nearest(double value, double low, double high) {
    return std::min(std::max(value, low), high);
}

} // namespace

Box boxOf(const bench::Part& part) {
    const bench::PartSpec& spec = bench::spec(part.kind);
    Point half{spec.width_m / 2, spec.height_m / 2};
    if (part.quarterTurns & 1) half = {half.y_m, half.x_m};
    return {part.at_m - half, part.at_m + half};
}

std::optional<Point> wayOut(const Box& moved, const Box& by) {
    const double right_m = by.max_m.x_m - moved.min_m.x_m, left_m = moved.max_m.x_m - by.min_m.x_m;
    const double down_m = by.max_m.y_m - moved.min_m.y_m, up_m = moved.max_m.y_m - by.min_m.y_m;
    const double least_m = std::min({right_m, left_m, down_m, up_m});
    if (!(least_m > 0.0)) return std::nullopt;
    if (least_m == right_m) return Point{right_m, 0.0};
    if (least_m == left_m) return Point{-left_m, 0.0};
    return least_m == down_m ? Point{0.0, down_m} : Point{0.0, -up_m};
}

std::optional<Wheel> wheelOf(const bench::Part& part) {
    if (!bench::isA(part, bench::PartClass::Motor)) return std::nullopt;
    Point out{kWheelAt_m, 0.0};
    for (int turn = part.quarterTurns & 3; turn > 0; --turn)
        out = turned(out);
    return Wheel{part.at_m + out, kWheelRadius_m};
}

bool touches(const Wheel& wheel, const Box& box) {
    const Point at{nearest(wheel.hub_m.x_m, box.min_m.x_m, box.max_m.x_m),
                   nearest(wheel.hub_m.y_m, box.min_m.y_m, box.max_m.y_m)};
    return apart_m(at, wheel.hub_m) < wheel.radius_m;
}

bool touches(const Wheel& wheel, Point a, Point b, double width_m) {
    const Point along = b - a;
    const double square = dot(along, along);
    const double share =
        square > 0.0 ? nearest(dot(wheel.hub_m - a, along) / square, 0.0, 1.0) : 0.0;
    return apart_m(a + share * along, wheel.hub_m) < wheel.radius_m + 0.5 * width_m;
}

} // namespace loom::yard

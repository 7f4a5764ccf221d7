// SPDX-License-Identifier: MIT
// What of a part matters to the yard: the ground it covers and its wheel.
#pragma once

#include "bench/bench.h"

#include <optional>

namespace loom::yard {

struct Box {
    bench::Point min_m, max_m;

    bool holds(bench::Point p) const {
        return p.x_m > min_m.x_m && p.x_m < max_m.x_m && p.y_m > min_m.y_m && p.y_m < max_m.y_m;
    }
};

Box boxOf(const bench::Part& part);
// How deep two boxes overlap, as the shortest way that moves `moved` out of `by`; nothing when they
// are apart.
std::optional<bench::Point> wayOut(const Box& moved, const Box& by);

// The wheel on a motor's axle, as drawn in assets/parts/motor.svg.
struct Wheel {
    bench::Point hub_m;
    double radius_m = 0.0;
};

std::optional<Wheel> wheelOf(const bench::Part& part);
bool touches(const Wheel& wheel, const Box& box);
// A cable of this width from a to b.
bool touches(const Wheel& wheel, bench::Point a, bench::Point b, double width_m);

} // namespace loom::yard

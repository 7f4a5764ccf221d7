// SPDX-License-Identifier: MIT
// Sums of board points, as the yard uses them for places and for directions. Metres.
#pragma once

#include "bench/bench.h"

#include <cmath>

namespace loom::yard {

using bench::Point;

inline Point operator+(Point a, Point b) {
    return {a.x_m + b.x_m, a.y_m + b.y_m};
}

inline Point operator-(Point a, Point b) {
    return {a.x_m - b.x_m, a.y_m - b.y_m};
}

inline Point operator*(double k, Point a) {
    return {k * a.x_m, k * a.y_m};
}

inline double dot(Point a, Point b) {
    return a.x_m * b.x_m + a.y_m * b.y_m;
}

inline double norm(Point a) {
    return std::sqrt(dot(a, a));
}

inline double apart_m(Point a, Point b) {
    return norm(b - a);
}

// A quarter turn clockwise as seen on the board (y down).
inline Point turned(Point a) {
    return {-a.y_m, a.x_m};
}

// `otherwise` when there is no direction in it.
inline Point unit(Point a, Point otherwise) {
    const double length = norm(a);
    return length > 1e-9 ? (1.0 / length) * a : otherwise;
}

inline bool isFinite(Point a) {
    return std::isfinite(a.x_m) && std::isfinite(a.y_m);
}

} // namespace loom::yard

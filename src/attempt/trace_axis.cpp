// SPDX-License-Identifier: MIT
#include "attempt/trace_axis.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace loom::attempt {

namespace {

constexpr double kGreatest = 1e12; // of what is shown; far beyond any bench

// Sizes of 1, 2, 5 times powers of ten, beginning small.
double nextRound(double step) {
    double ten = 1e-6;
    while (ten * 10.0 <= step * (1.0 + 1e-9))
        ten *= 10.0;
    for (const double round : {2.0, 5.0})
        if (ten * round > step * (1.0 + 1e-9)) return ten * round;
    return ten * 10.0;
}

Axis withStep(double low, double high, double step) {
    return {std::floor(low / step + 1e-9) * step, std::ceil(high / step - 1e-9) * step, step};
}

} // namespace

Axis roundAxis(double low, double high, int mostSteps, double leastSpan) {
    if (!(std::fabs(low) < kGreatest && std::fabs(high) < kGreatest)) return {};
    if (low > high) std::swap(low, high);
    const double room =
        std::max(leastSpan, 1e-6 * std::max(1.0, std::max(std::fabs(low), std::fabs(high))));
    if (high - low < room) {
        const double middle = 0.5 * (low + high);
        low = middle - 0.5 * room;
        high = middle + 0.5 * room;
    }
    double step = 1e-6;
    while ((high - low) / step > 1000.0)
        step *= 10.0;
    Axis axis = withStep(low, high, step);
    while (axis.ticks() - 1 > mostSteps) {
        step = nextRound(step);
        axis = withStep(low, high, step);
    }
    return axis;
}

std::string tickText(const Axis& axis, int i, bool proper) {
    int places = 0;
    for (double step = axis.step; step < 0.999 && places < 6; step *= 10.0)
        ++places;
    double value = axis.tick(i);
    if (std::fabs(value) < axis.step * 1e-6) value = 0.0;
    char text[40];
    std::snprintf(text, sizeof text, "%.*f", places, proper ? std::fabs(value) : value);
    return proper && value < 0.0 ? std::string("−") + text : text;
}

} // namespace loom::attempt

// SPDX-License-Identifier: MIT
// A scale with round numbers: roundAxis() for what is to be shown. Used on the screen and on paper.
#pragma once

#include <string>

namespace loom::attempt {

// Ticks at low, low + step, … high; low and high are multiples of step, low < high.
struct Axis {
    double low = 0.0, high = 1.0, step = 0.2;

    int ticks() const { return static_cast<int>((high - low) / step + 1.5); }

    double tick(int i) const { return low + step * i; }

    double share(double value) const { return (value - low) / (high - low); } // 0 low .. 1 high
};

// The step is the least of 1, 2, 5 times a power of ten that gets by with mostSteps (>= 2) steps. What
// spans less than leastSpan gets room about it, so that next to nothing is not blown up. Source of the idea: P. S. Heckbert, "Nice Numbers
// for Graph Labels", Graphics Gems (1990), from memory.
Axis roundAxis(double low, double high, int mostSteps, double leastSpan = 1e-3);
// As fine as the step asks for: "0.25", "-20", U+2212 for minus when `proper`.
std::string tickText(const Axis& axis, int i, bool proper);

} // namespace loom::attempt

// SPDX-License-Identifier: MIT
// How many frames are still wanted, and what they cost. Input wants a few, since hover and layout
// settle late; after those the loop rests until the page wakes it.
#pragma once

#include <array>

namespace loom::host {

class Pace {
public:
    void wake() { wanted = kFramesAfterInput; }

    // One frame has been drawn and took the program so much of its own time, and the graphics
    // interface so much more.
    void drawn(double own_ms, double graphics_ms);

    int framesWanted() const { return wanted; }

    long frames() const { return count; }

    double own_ms() const { return mean(own); } // of the last frames

    double graphics_ms() const { return mean(graphics); }

private:
    static constexpr int kFramesAfterInput = 3;
    static constexpr std::size_t kKept = 60;
    using Costs = std::array<double, kKept>;

    double mean(const Costs& costs) const;

    int wanted = kFramesAfterInput;
    long count = 0;
    Costs own{}, graphics{};
};

} // namespace loom::host

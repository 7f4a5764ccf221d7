// SPDX-License-Identifier: MIT
// Real time into the model's slices. Ask due() once a frame; rest() while nothing runs, so that the
// time away is not made up for.
#pragma once

#include <cstdint>

namespace loom::host {

class ModelClock {
public:
    // The next due() counts from here.
    void rest(double now_s);
    // Whole slices since the last call, the remainder kept for the next. What lies beyond a
    // second is dropped: a frame that slow is no frame. running: something would have been
    // seen in it, so that it counts as missed.
    std::int64_t due(double now_s, bool running);
    // Slices that were due and could not be run in time.
    void drop(std::int64_t slices);

    double behind_s() const { return dropped_s; } // in all

private:
    double last_s = 0.0, carried_s = 0.0, dropped_s = 0.0;
};

} // namespace loom::host

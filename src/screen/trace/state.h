// SPDX-License-Identifier: MIT
// What the trace remembers from frame to frame: its window in time, its cursor, where its card lies.
#pragma once

#include "screen/kit/view.h"

#include <cstddef>
#include <optional>

namespace loom::screen {

// Looks only.
struct TraceUi {
    bool open = false;
    bool paused = false;
    double end_s = 0.0;                 // right edge of the window while paused
    double span_s = 20.0;               // how much time it shows
    std::optional<double> cursor_s;     // set by a tap, a key or the event button
    std::optional<ImVec2> place;        // its top left corner from the board's, in design pixels
    bool atLeft = false, atTop = false; // the corner it was opened in, until it is moved
    bool wasOpen = false;               // at the last frame
    bool moving = false, panning = false;
    ImVec2 grabbed{0, 0};
    double grabbed_s = 0.0;
    std::size_t watched = 0; // quantities at the last frame
};

// The panel's shortest and longest window.
inline constexpr double kLeastTraceSpan_s = 0.2, kMostTraceSpan_s = 3600.0;

} // namespace loom::screen

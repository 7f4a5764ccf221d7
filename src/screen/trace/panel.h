// SPDX-License-Identifier: MIT
// Quantities against time on a paper card over the board: a field for each with its own scale, the
// events as marks, a cursor with readings, pause, back in time, files. Call drawTrace() once a frame;
// what is watched and kept is the session's. Names and units are in trace_words.h.
#pragma once

#include "screen/kit/view.h"

#include <optional>

namespace loom::screen {

struct FurnitureUi;

// Looks only.
struct TraceUi {
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
inline constexpr double leastTraceSpan_s = 0.2, mostTraceSpan_s = 3600.0;

// Draw after the board, before the cards. It opens when something more is watched.
void drawTrace(const View& view,
               Items& items,
               TraceUi& ui,
               FurnitureUi& furniture,
               ImDrawList* list,
               Intents& out);

} // namespace loom::screen

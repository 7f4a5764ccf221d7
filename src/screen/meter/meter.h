// SPDX-License-Identifier: MIT
// The hand meter off its hook: its body lies on the board, its two probes touch terminals or cable
// ends. drawMeter() draws it over the board and handles everything done to it; a probe in the hand
// is let go by board/drop.cpp like a cable end. What it says in words is in face.h.
#pragma once

#include "screen/art/picture.h"
#include "screen/board/wish.h"

#include <optional>

namespace loom::screen {

// What is remembered of it from frame to frame; the meter itself is in the bench.
struct MeterUi {
    std::optional<double> shown; // what the display has settled to so far; nothing: blank
    double shown_s = 0.0;        // when
    bench::MeterRange shownRange = bench::MeterRange::Off;
    std::optional<float> knob_rad; // where the knob stands while it turns
    bool sounding = false;         // the host makes the tone
    bool moving = false;           // the body follows the pointer
    ImVec2 grabbed{0, 0};          // by this place, from its middle
    ImVec2 at_px{0, 0};            // its middle while it moves
};

// Returns whether it moves by itself.
bool drawMeter(const View& view,
               Items& items,
               MeterUi& ui,
               const BoardUi& board,
               art::PictureStore& pictures,
               ImDrawList* list,
               Asked& out);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The hand meter off its hook: its body lies on the board, its two probes touch terminals or cable
// ends. drawMeter() draws it over the board and handles everything done to it; a probe in the hand
// is let go by bench_drop.cpp like a cable end. What it says in words is in meter_face.h.
#pragma once

#include "screen/art/picture.h"
#include "screen/kit/view.h"

#include <optional>
#include <string>
#include <vector>

namespace loom::screen {

struct BenchUi;

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

// Somewhere a probe can be put.
struct ProbeTarget {
    bench::ProbeTip tip;
    ImVec2 at_px{0, 0};
};

// Every terminal, and the metal of every cable end, as drawn last.
std::vector<ProbeTarget> probeTargets(const bench::Bench& bench, const BenchUi& ui);
// The nearest to where the hand is, within a finger's reach.
std::optional<ProbeTarget>
probeTargetNear(const View& view, const bench::Bench& bench, const BenchUi& ui, ImVec2 at_px);
// "K1 coil a", "end of P-06 at X1 1 upper"
std::string probePlace(const bench::Bench& bench, const bench::ProbeTip& tip);

// Returns whether it moves by itself.
bool drawMeter(const View& view,
               Items& items,
               BenchUi& ui,
               art::PictureStore& pictures,
               ImDrawList* list,
               Intents& out);

} // namespace loom::screen

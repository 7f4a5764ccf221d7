// SPDX-License-Identifier: MIT
// The hand meter as a thing: body, display with figures of segments, turning knob, leads, probes.
// Lengths are pixels times `unit`; places on the body are given by the constants here.
#pragma once

#include "bench/bench.h"
#include "screen/art/lettering.h"

#include <imgui.h>
#include <string>

namespace loom::art {

namespace meter {
constexpr float kWidth = 204.0f, kHeight = 286.0f;
constexpr float kDisplayLeft = 14.0f, kDisplayTop = 14.0f, kDisplayRight = 190.0f,
                kDisplayBottom = 92.0f;
constexpr float kKnobX = 102.0f, kKnobY = 184.0f, kKnobRadius = 36.0f, kRing = 62.0f;
constexpr float kCountY = 268.0f;
constexpr float kJackX[2] = {136.0f, 68.0f}; // red, black
// From the top, clockwise.
float rangeAngle_rad(bench::MeterRange range);
} // namespace meter

struct MeterLook {
    ImVec2 topLeft;
    float unit = 1.0f;
    float knob_rad = 0.0f;
    bool lit = false;      // the display shows something
    std::string digits;    // "-24.87": segments
    bool held = false;     // lifted
    float sounding = 0.0f; // 0..1: waves beside the body
    float time_s = 0.0f;   // of the waves; still under reduced motion
};

Box meterBox(const MeterLook& look);
void drawMeterBody(ImDrawList* list, const MeterLook& look);

// One probe: its metal tip at `tip`, its handle along `away` (unit vector).
struct ProbeLook {
    ImVec2 tip, away;
    float unit = 1.0f;
    int which = 0; // 0 red, 1 black
    bool held = false;
};

constexpr float kProbeTip = 26.0f, kProbeHandle = 62.0f; // lengths, times unit

void drawProbe(ImDrawList* list, const ProbeLook& look);
// From the body's jack to the end of the probe's handle.
void drawLead(ImDrawList* list, ImVec2 jack, const ProbeLook& probe, float sag);

// Figures of seven segments, right-aligned, their feet at `right`. For 0 to 9, '-' and '.'.
void drawSegments(ImDrawList* list, ImVec2 rightFoot, float high, const std::string& digits);

} // namespace loom::art

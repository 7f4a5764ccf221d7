// SPDX-License-Identifier: MIT
// A terminal cut open and a cable's end drawn large, true to length along the cable. Millimetres:
// x from the terminal's mouth into it, y down from the cable's axis. Draw the terminal's back, then
// the end, then the terminal's front. Knows nothing of faults: it draws what is there.
#pragma once

#include "bench/catalogue.h"
#include "screen/art/palette.h"

#include <imgui.h>

namespace loom::art {

struct CutFrame {
    ImVec2 mouth_px;
    float px_per_mm = 10.0f;

    ImVec2 at(float x_mm, float y_mm) const {
        return {mouth_px.x + x_mm * px_per_mm, mouth_px.y + y_mm * px_per_mm};
    }

    float px(float mm) const { return mm * px_per_mm; }
};

// The copper and the sleeve as drawn, larger than life for thin cables.
float copperHalf_mm(double area_m2);
float sleeveHalf_mm(double area_m2);

struct LargeEnd {
    bench::EndKind kind = bench::EndKind::Bare;
    double area_m2 = 1e-6;
    ImU32 sleeve = 0;
    float from_mm = -30.0f; // where the cable comes into the picture
    float strip_mm = 0.0f;  // bare copper
    float front_mm = 0.0f;  // how far the foremost of the end is in: the copper, pin, ring or spade
    float barrel_mm = 10.0f; // of the fitting: what it takes of copper
    bool twisted = false, pressed = false;
    bool strandOut = false;
};

// Where things of an end are, for handles and call-outs.
struct EndPlaces {
    float sleeve_mm = 0.0f; // where the sleeve ends
    float copper_mm = 0.0f; // where the copper ends
    ImVec2 strand_mm{0, 0}; // tip of the strand that stands out
};

EndPlaces placesOf(const LargeEnd& end);
void drawLargeEnd(ImDrawList* list, const CutFrame& frame, const LargeEnd& end);

struct CutTerminal {
    bench::TerminalKind kind = bench::TerminalKind::Clamp;
    float deep_mm = 14.0f;  // from the mouth to the stop; of a tab: its length
    float screw_mm = 6.0f;  // middle of the screw or the stud
    float half_mm = 3.0f;   // of what lies under the screw
    float lifted_mm = 4.0f; // the screw or nut above it; 0: it presses
    bool broken = false;
};

void drawTerminalBack(ImDrawList* list, const CutFrame& frame, const CutTerminal& terminal);
void drawTerminalFront(ImDrawList* list, const CutFrame& frame, const CutTerminal& terminal);
// The head of the screw, where a driver is put.
ImVec2 screwHead_mm(const CutTerminal& terminal);

// The driver on the screw's head, or the spanner on the nut. Reaches up to top_px. turned: in turns
// of the dial's middle, for what is seen of it.
void drawToolOn(ImDrawList* list,
                const CutFrame& frame,
                const CutTerminal& terminal,
                float top_px,
                float turned);

// A half round dial for tightness. Everything in newton metres; shown up to `end`.
struct TorqueDial {
    float least = 0.4f, most = 0.6f, breaks = 1.0f, end = 1.2f;
    float now = 0.0f;
    bool broken = false;
    bool hexagon = false; // a nut in its middle instead of a slotted screw
    float turned_rad = 0.0f;
};

void drawTorqueDial(ImDrawList* list, ImVec2 hub, float radius_px, const TorqueDial& dial);

} // namespace loom::art

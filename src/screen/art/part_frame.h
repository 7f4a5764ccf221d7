// SPDX-License-Identifier: MIT
// A part's own axes on the screen, in millimetres from its centre, turned with it; and the few
// shapes its moving bits are made of. Used by part_*.cpp only.
#pragma once

#include "screen/art/lettering.h"
#include "screen/art/part_look.h"
#include "screen/art/picture.h"

namespace loom::art {

struct PartFrame {
    ImVec2 centre;
    float k = 0.8f; // px per mm
    int turns = 0;
    float alpha = 1.0f;

    explicit PartFrame(const PartLook& look);
    PartFrame(ImVec2 centre_px, float px_per_mm, float alpha_share);

    ImVec2 at(float x_mm, float y_mm) const;
    ImU32 shown(ImU32 colour) const; // with the part's own alpha
};

// What drawing a part needs, handed to each kind.
struct PartDrawing {
    ImDrawList* list;
    PictureStore* pictures;
    const FontSet* fonts;
    const PartLook* look;
    PartFrame frame;
};

// Filled, from one colour at the part's upper side to another at its lower.
void fillRound(ImDrawList* list,
               const PartFrame& frame,
               float x0,
               float y0,
               float x1,
               float y1,
               float radius,
               ImU32 top,
               ImU32 bottom);
void fillDisc(ImDrawList* list,
              const PartFrame& frame,
              float x,
              float y,
              float radius,
              ImU32 top,
              ImU32 bottom);
// A rounded bar of this width from a to b.
void drawBar(
    ImDrawList* list, const PartFrame& frame, ImVec2 a_mm, ImVec2 b_mm, float width, ImU32 colour);
void strokeCircle(ImDrawList* list,
                  const PartFrame& frame,
                  float x,
                  float y,
                  float radius,
                  float width,
                  ImU32 colour);
// A soft light (or, dark, a soft stain).
void drawSpot(const PartDrawing& d, float x, float y, float radius, ImU32 colour);
// Upright at a place on the part. size in mm, but never under least_px on a part that is not tiny.
void drawLegend(const PartDrawing& d,
                float x,
                float y,
                float size,
                bool bold,
                ImU32 colour,
                const char* text,
                float least_px = 9.0f);

// A control whose positions are drawings of their own, over its body: "parts/breaker-set".
void drawPosition(const PartDrawing& d);

// Each kind's moving bits, over its body.
void drawBattery(const PartDrawing& d);
void drawIsolator(const PartDrawing& d);
void drawStripFuse(const PartDrawing& d);
void drawBladeHolder(const PartDrawing& d);
void drawBlock(const PartDrawing& d);
void drawRelay(const PartDrawing& d);
void drawRocker(const PartDrawing& d);
void drawPushButton(const PartDrawing& d);
void drawSelector(const PartDrawing& d);
void drawToggle(const PartDrawing& d);
void drawHeadlamp(const PartDrawing& d);
void drawHorn(const PartDrawing& d);
void drawResistor(const PartDrawing& d);
void drawDiode(const PartDrawing& d);
void drawMotor(const PartDrawing& d);

} // namespace loom::art

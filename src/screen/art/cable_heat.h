// SPDX-License-Identifier: MIT
// What heat does to a sleeve: gloss goes, it swells, smokes, chars, splits to the copper, glows.
// The states are pictures of the temperature and of lasting damage; the physics is elsewhere.
#pragma once

#include "screen/art/cable_look.h"
#include "screen/art/picture.h"
#include "screen/art/ribbon.h"

namespace loom::art {

// Each 0..1.
struct SleeveHeat {
    bool isCool = true; // nothing to see: the plain sleeve will do
    float dull = 0.0f;  // gloss lost
    float swollen = 0.0f;
    float charred = 0.0f;
    float split = 0.0f; // copper shows
    float glow = 0.0f;
    bool isParted = false;
};

SleeveHeat sleeveHeat(const CableLook& look);
float smokeOf(const CableLook& look);

void drawHotSleeve(ImDrawList* list,
                   PictureStore& pictures,
                   const Line& line,
                   float half_px,
                   ImU32 body,
                   const SleeveHeat& heat,
                   const CableLook& look);

// A thread of smoke rising from a point. which: makes each one different.
void drawWisp(ImDrawList* list,
              PictureStore& pictures,
              ImVec2 at_px,
              float px_per_m,
              float time_s,
              int which,
              float amount);

} // namespace loom::art

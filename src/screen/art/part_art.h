// SPDX-License-Identifier: MIT
// Draws one part as a thing: its still body from assets/parts, and on top what moves, glows, melts
// or is printed. Fill a PartLook and call drawPart(); everything is a function of the look alone.
#pragma once

#include "screen/art/lettering.h"
#include "screen/art/part_look.h"
#include "screen/art/picture.h"

#include <vector>

namespace loom::art {

void drawPart(ImDrawList* list, PictureStore& pictures, const FontSet& fonts, const PartLook& look);

// The name with a pale halo, to stay readable over cables. Nothing without a ref.
void drawPartName(ImDrawList* list, const FontSet& fonts, const PartLook& look);

// The outline cut into the tray's foam: a part that has been taken.
void drawCutOut(ImDrawList* list, const PartLook& look);

// A blade fuse by itself, as in the tray: 43 mm wide, legs down. melting, melted as in PartLook.
void drawBlade(ImDrawList* list,
               const FontSet& fonts,
               ImVec2 centre,
               float px_per_m,
               double rating_A,
               float melting,
               bool melted,
               float alpha = 1.0f);

// The isolator's red key lying by itself (72 mm long, hole up).
void drawKey(ImDrawList* list, ImVec2 centre, float px_per_m, float angle_rad, float alpha = 1.0f);

// The part's outline on the screen, turned; without its name.
Box partBox(const PartLook& look);
// Where its name is printed.
Box nameBox(const FontSet& fonts, const PartLook& look);
// What no cable label may cover: its name, terminals, and what is printed or moves on it.
void appendObstacles(const FontSet& fonts, const PartLook& look, std::vector<Box>& out);
// Where a terminal is on the screen.
ImVec2 terminalAt_px(const PartLook& look, int terminal);

} // namespace loom::art

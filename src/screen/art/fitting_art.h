// SPDX-License-Identifier: MIT
// End fittings of cables: how they sit on a terminal, and how they look. Drawn over the sleeve.
#pragma once

#include "screen/art/route.h"

namespace loom::art {

// One fitting. seat as in Route::ends; px_per_m of the view; at_px: seat.terminal_m on the screen.
void drawEnd(ImDrawList* list,
             ImVec2 at_px,
             float px_per_m,
             const EndSeat& seat,
             double area_m2,
             ImU32 sleeve,
             float alpha);

// Nut and tip of a stud, over the rings on it.
void drawStudNut(ImDrawList* list, ImVec2 at_px, float px_per_m, bool isM8, float alpha);
// One end fitting by itself, pointing up, for choosing: length_px tall.
void drawFitting(
    ImDrawList* list, ImVec2 centre, float length_px, bench::EndKind kind, double area_m2);

} // namespace loom::art

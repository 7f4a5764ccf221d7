// SPDX-License-Identifier: MIT
// Draws a cable on its Route: soft shadow, round sleeve with gloss, end fittings, the shimmer of
// current, heat. Draw cables in order, later ones over earlier; labels after all of them.
#pragma once

#include "screen/art/cable_look.h"
#include "screen/art/picture.h"
#include "screen/art/route.h"

namespace loom::art {

void drawCableShadow(ImDrawList* list,
                     const BoardView& view,
                     const Route& route,
                     const CableLook& look);
// Sleeve, heat, shimmer, fittings.
void drawCable(ImDrawList* list,
               PictureStore& pictures,
               const BoardView& view,
               const Route& route,
               const CableLook& look);
// Wisps over everything; nothing on a cool cable.
void drawCableSmoke(ImDrawList* list,
                    PictureStore& pictures,
                    const BoardView& view,
                    const Route& route,
                    const CableLook& look);

// A short length bent like a hairpin, as hung in the tray.
void drawHungCable(
    ImDrawList* list, PictureStore& pictures, ImVec2 centre, float px_per_m, const CableLook& look);
// A reel of cable seen from its side, radius_px.
void drawReel(ImDrawList* list, ImVec2 centre, float radius_px, bench::Sleeve sleeve);

} // namespace loom::art

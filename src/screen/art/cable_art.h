// SPDX-License-Identifier: MIT
// Draws a cable on its Route: soft shadow, round sleeve with gloss, end fittings, the shimmer of
// current, heat. Draw cables in order, later ones over earlier; labels after all of them.
#pragma once

#include "bench/bench.h"
#include "screen/art/lettering.h"
#include "screen/art/picture.h"
#include "screen/art/route.h"

namespace loom::art {

struct CableLook {
    bench::Sleeve sleeve = bench::Sleeve::Red;
    bench::CableCondition condition = bench::CableCondition::Sound;
    double area_m2 = 1e-6;
    float current_A = 0.0f; // positive from end 0 to end 1; under 1 mA nothing shows
    float phase_m = 0.0f;   // how far the shimmer has travelled: time x kShimmerSpeed_m_s; 0 at
                            // rest, or always 0 under reduced motion
    float temp_K = 293.15f;
    float time_s = 0.0f; // for smoke
    bool selected = false, focused = false, held = false;
    float alpha = 1.0f;
};

// The same for every current, so that a changing current never makes the pattern jump.
constexpr float kShimmerSpeed_m_s = 0.07f;

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
// One end fitting by itself, pointing up, for choosing: length_px tall.
void drawFitting(
    ImDrawList* list, ImVec2 centre, float length_px, bench::EndKind kind, double area_m2);

} // namespace loom::art

// SPDX-License-Identifier: MIT
// Draws one part as a thing: its still body from assets/parts, and on top what moves, glows, melts
// or is printed. Fill a PartLook and call drawPart(); everything is a function of the look alone.
#pragma once

#include "bench/bench.h"
#include "screen/art/lettering.h"
#include "screen/art/picture.h"

#include <vector>

namespace loom::art {

struct PartLook {
    bench::PartKind kind = bench::PartKind::Battery;
    ImVec2 centre; // px
    float px_per_m = 800.0f;
    int quarterTurns = 0;  // 0..3, clockwise
    const char* ref = "";  // "K1", printed beside it; empty: none
    double rating = 0.0;   // fuse: A, 0 = no blade fitted; resistor: ohm
    float position = 0.0f; // as bench::Part::position; between two while the control moves
    bench::Condition condition = bench::Condition::Sound;

    // What is going on in it; all still at rest.
    float light = 0.0f;       // 0..1: rocker's live lamp, headlamp
    float armature = 0.0f;    // relay: 0 at rest, 1 pulled in
    float angle_rad = 0.0f;   // motor's wheel, clockwise
    float speed_rad_s = 0.0f; // motor: an arrow shows which way from about 1 rad/s
    float sounding = 0.0f;    // horn: 0..1
    float melting = 0.0f;     // fuse: 0 cold .. 1 about to open
    float temp_K = 293.15f;   // glows dull red from about 800 K; smokes from 450 K
    float time_s = 0.0f;      // for waves and smoke; a still value under reduced motion

    // How it is being handled.
    bool nameLater = false; // drawPart() leaves the name to drawPartName(), over the cables
    bool held = false;      // lifted: deeper shadow
    bool selected = false;
    bool focused = false; // by the keyboard
    float alpha = 1.0f;   // under 1 a ghost: where it would be laid
};

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

// SPDX-License-Identifier: MIT
// How a part looks now: its picture is a function of this alone.
#pragma once

#include "bench/bench.h"

#include <imgui.h>

namespace loom::art {

struct PartLook {
    bench::PartKind kind{};
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

} // namespace loom::art

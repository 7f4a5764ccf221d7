// SPDX-License-Identifier: MIT
// How a cable looks now: what drawing it and its heat need to know.
#pragma once

#include "bench/bench.h"

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

} // namespace loom::art

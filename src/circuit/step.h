// SPDX-License-Identifier: MIT
// One step in time: what is solved at its begin, middle and end, and what lies between. The stepper
// (stepper.h) fills it; models look in it for events.
#pragma once

#include <cstdint>
#include <vector>

namespace loom::circuit {

// Where in a step its middle lies, 2 - sqrt 2: see stepper.h.
constexpr double kMiddle = 0.58578643762690495120;

// What is known of a network at one time.
struct Solution {
    std::vector<double> y, f;    // by state
    std::vector<double> v, i;    // by branch
    std::vector<double> volts_V; // by unknown
};

// Weights of begin, middle and end in the parabola at theta, the share of the step passed.
struct Parabola {
    double begin, middle, end;
    explicit Parabola(double theta);
};

struct Step {
    double t0_s = 0.0, h_s = 0.0;
    Solution begin, middle, end;

    double end_s() const { return t0_s + h_s; }

    double state(std::uint32_t k, double theta) const;        // Hermite
    double current(std::uint32_t branch, double theta) const; // parabola
};

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
// Moves a Network through time between events: one step at a time, with error control and dense
// output. restart() after anything jumped, then attempt() steps; the caller commits them.
//
// Method: TR-BDF2 (Bank et al., IEEE Trans. CAD 4 (1985); as a Runge-Kutta pair Hosea, Shampine,
// Appl. Numer. Math. 20 (1996); both from memory). With g = 2 - sqrt 2, d = g/2, w = sqrt 2/4:
//   Y  = y0 + h (d f0 + d F(Y))                     at t0 + g h
//   y1 = y0 + h (w f0 + w F(Y) + d F(y1))           at t0 + h
//   error = h (e0 f0 + e1 F(Y) + e2 F(y1)),  e = ((1-w)/3 - w, 1/3, d/3 - d)
// Second order, L-stable, stiffly accurate; both stages have the weight d h, so they share one
// factor. Step accepted when max |error_k| / (absolute_k + relative_k |y_k|) <= 1; that is for each
// state, see States in stage.h. Next h: 0.9 error^(-1/3), between 0.2 and 5 times (10 after a restart).
// A creeping state (stage.h) with rate r then becomes y1 + error_k / (1 + 0.05 (h r)^2): third order
// while h r is small.
// Dense output: cubic Hermite for states, the parabola through t0, t0 + g h, t0 + h for branches;
// both of third order locally.
// Restart: two backward Euler steps of 1 ns (more while a spark dies), from which f0 follows; so jumps
// (a capacitor put on a source) happen within some ns and the state that must not jump (inductor current) does not.
// Tested: stepper_test, transients_test.
#pragma once

#include "circuit/network.h"

namespace loom::circuit {

// A step of the shortest length is accepted whatever its error: what is over within a nanosecond is
// not resolved.
constexpr double kShortest_s = 1e-9, kLongest_s = 5.0;

class Stepper {
public:
    explicit Stepper(Network& network, double tolerance = 1.0);

    // Takes y (by state) as the state at time_s just after a jump. Afterwards step.begin holds the
    // state, rates and branches a moment later, at step.t0_s.
    // v (by branch) is where the models begin to look for an answer.
    void restart(double time_s, const std::vector<double>& y, const std::vector<double>& v);

    // Tries one step of h_s from step.begin. Returns its error in tolerances, or a negative number
    // when the models did not agree. A resistance that drifted too far counts as error. step.middle and step.end are filled either way.
    double attempt(double h_s);

    // Makes the end of the last attempt the new beginning, without a jump.
    void commit();

    double nextStep(double h_s, double error, bool afterRestart) const;

    Step step;
    bool settled = true; // of the last restart or attempt

private:
    double errorNorm() const;
    void correct();

    Network& net;
    double tolerance;
    std::vector<double> base;
};

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
// Limits of the values of elements that keep every product of two quantities finite. Far beyond any
// bench. An element beyond them is left out (an open circuit) and reported.
#pragma once

namespace loom::circuit {

constexpr double kGreatest_V = 1e6, kGreatest_A = 1e9, kGreatest_ohm = 1e15;
// A resistance below this is an ideal join.
constexpr double kLeast_ohm = 1e-12;

// False for NaN in any argument.
inline bool within(double x, double least, double greatest) {
    return x >= least && x <= greatest;
}

inline bool validOhms(double r) {
    return within(r, 0.0, kGreatest_ohm);
}

} // namespace loom::circuit

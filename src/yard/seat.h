// SPDX-License-Identifier: MIT
// How the ends of a cable sit: on which point of the board, leaving which way, held how firmly.
// Start with spanOf(): what a cable spans, for its first line and for its chain.
#pragma once

#include "bench/bench.h"

namespace loom::yard {

// Measures of the fittings, along the cable from the fitting's middle. They are drawn by these.
inline constexpr double kRingSleeve_m = 0.020; // where the sleeve begins behind a ring
inline constexpr double kBootEnd_m = 0.020;    // of a spade
inline constexpr double kSpareTab_m = 0.0095;  // beside a piggyback spade
inline constexpr double kFerrulePin_m = 0.010, kFerruleCollar_m = 0.010;
inline constexpr double kBareCopper_m = 0.009;

struct Seat {
    bench::EndKind kind = bench::EndKind::Bare;
    bool joined = false;
    bench::Point terminal_m;       // centre of the stud, tab or clamp; the tip of a loose end
    bench::Point leaves{0.0, 1.0}; // unit vector
    double firmness = 1.0;         // 0: any direction will do, 1: held to it (a tab, a clamp)
    int order = 0;                 // 0 for the first end on this terminal, 1 for the next ...
    int sharing = 1;               // how many ends are on it
};

struct Span {
    Seat ends[2];
    double length_m = 0.5;
    double width_m = 0.007; // over the sleeve, as drawn
    unsigned seed = 0;      // cables between the same two terminals part by it
};

// Over the sleeve of a stranded cable of this area: larger than life, and compressed, so that
// 0.75 mm2 is still seen.
double sleeveWidth_m(double area_m2);

// The way a cable leaves a terminal of a part: away from the part's nearest edge.
bench::Point leaveDirection(bench::PartKind kind, int terminal, int quarterTurns);

// An end on a terminal that does not exist counts as loose.
Span spanOf(const bench::Bench& bench, const bench::Cable& cable);

// Where the fitting's own middle is: ends sharing a clamp lie side by side, a second spade sits on
// the first one's spare tab. Equal to seat.terminal_m otherwise.
bench::Point seatedAt_m(const Seat& seat);

// From there along the cable to where the sleeve begins.
double sleeveStart_m(const Seat& seat, double width_m);

} // namespace loom::yard

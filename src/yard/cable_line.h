// SPDX-License-Identifier: MIT
// The line a cable is laid in at first, before anybody pulls at it: leaves each terminal the way
// the terminal lets it and swings out by its slack. Call layLine(); pure and deterministic.
#pragma once

#include "yard/seat.h"

#include <vector>

namespace loom::yard {

// One of several ways to lay the same cable.
struct Swing {
    int side = 0;       // -1, 1: to the left or right of the way from end 0 to 1; 0: as it falls
    double slack = 1.0; // 0: as short as it can be, 1: as long as the cable and the picture allow
};

struct CableLine {
    std::vector<bench::Point> points_m; // from where the sleeve starts at end 0 to where it ends
    double length_m = 0.0;              // of that line
    Seat ends[2];                       // with the directions really taken and where they sit
};

// Any numbers give a finite line.
CableLine layLine(const Span& span, const Swing& swing = {});

} // namespace loom::yard

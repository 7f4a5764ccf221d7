// SPDX-License-Identifier: MIT
// One cable of the yard: its strand, what holds it, and its chain while it moves. The Yard makes
// ropes with layRope(), tells them where they are held, and steps those that are awake.
#pragma once

#include "yard/cable_line.h"
#include "yard/strand.h"

#include <optional>
#include <vector>

namespace loom::yard {

// Where a tie or a hand holds a rope between its ends.
struct Hold {
    double along = 0.5; // 0..1
    bench::Point at_m;
};

// On its way from how it lay to how it shall lie: point by point. See slide.h.
struct Slide {
    std::vector<bench::Point> from_m, to_m;
    std::vector<double> links_m; // of the strand that lies at `to_m`
    double passed_s = 0.0;
};

struct Rope {
    bench::CableId id;
    Span span;
    Feel feel;
    Strand strand;
    std::vector<Pin> pins; // by point, ascending
    std::vector<Hold> holds;
    double shown_m = 0.0; // the length that its strand goes to
    bool isTied = false;  // to another rope
    bool awake = false;
    double touched_s = 0.0;              // since it was pulled at
    bool isStill = false;                // hardly moved since it was looked at last
    double watched_s = 0.0;              // since then
    std::vector<bench::Point> earlier_m; // how it lay then
    std::optional<Chain> chain;
    std::optional<Slide> slide; // instead of the chain; whatever pulls at the rope ends it
};

// At rest along a line.
Rope layRope(bench::CableId id, const Span& span, const CableLine& laid, double area_m2);

// Where the ends sit now (span or length changed) and what else holds it. Wakes it when that pulls.
void seatRope(Rope& rope, const Span& span);
void holdRope(Rope& rope, const std::vector<Hold>& holds);
// Where the hand may pull that hold to: the cable reaches no further from what else holds it.
bench::Point withinReach(const Rope& rope, double along, bench::Point goal);
void wakeRope(Rope& rope);
void sleepRope(Rope& rope);

// The point of the strand that a hold takes; never one that an end holds.
std::size_t pointAt(const Rope& rope, double along);
double alongOf(const Rope& rope, bench::Point at_m); // of the nearest point

// A step of an awake rope: before and after the world's. The chain must be there.
void applyToBodies(Rope& rope, double step_s);
void readFromBodies(Rope& rope, double step_s);
bool isStill(const Rope& rope);
// How far what holds it is from where it goes.
double lag_m(const Rope& rope);

} // namespace loom::yard

// SPDX-License-Identifier: MIT
// The line a cable is drawn along, from the sleeve's beginning at one end to the other. Make a
// CableSpan (or take spanOf) and call followStrand() with its strand in the yard, or layRoute() where
// there is no yard; draw, hit-test and place labels with the same Route. In metres on the board, so
// zooming costs nothing.
#pragma once

#include "bench/bench.h"

#include <imgui.h>
#include <vector>

namespace loom::art {

// From board metres to pixels.
struct BoardView {
    ImVec2 origin_px; // where the board's top left corner is
    float px_per_m = 800.0f;

    ImVec2 toScreen(ImVec2 at_m) const {
        return ImVec2(origin_px.x + at_m.x * px_per_m, origin_px.y + at_m.y * px_per_m);
    }

    ImVec2 toBoard(ImVec2 at_px) const {
        return ImVec2((at_px.x - origin_px.x) / px_per_m, (at_px.y - origin_px.y) / px_per_m);
    }
};

// How one end sits: kind of end, where its terminal (or its loose tip) is, and which way it leaves.
struct EndSeat {
    bench::EndKind kind = bench::EndKind::Bare;
    bool joined = false;
    ImVec2 terminal_m;      // centre of the stud, tab or clamp; the tip of a loose end
    ImVec2 leaves;          // unit vector
    float stiffness = 1.0f; // 0: any direction will do (a stud), 1: held to it (a tab, a clamp)
    int order = 0;          // 0 for the first end on this terminal, 1 for the next ...
    int sharing = 1;        // how many ends are on it
};

// Where the fitting's own middle is: ends sharing a clamp lie side by side, a second spade sits on
// the first one's spare tab. Equal to seat.terminal_m otherwise.
ImVec2 seatedAt_m(const EndSeat& seat);

// From there along the cable to where the sleeve begins.
float sleeveStart_m(const EndSeat& seat, float width_m);

struct CableSpan {
    EndSeat ends[2];
    float length_m = 0.5f;
    float width_m = 0.007f; // over the sleeve
    unsigned seed = 0;      // cables between the same two terminals part by it
};

struct Route {
    std::vector<ImVec2> points_m; // from where the sleeve starts at end 0 to where it ends
    std::vector<float> along_m;   // distance from end 0 at each point
    float drawn_m = 0.0f;         // length as drawn; never far above the cable's own
    EndSeat ends[2];              // with the directions actually taken
    float width_m = 0.007f;
};

// Over the sleeve of a stranded cable of this area: 10 mm2 about 11 px on a board at 0.8 px/mm.
// Larger than life, and compressed, so that 0.75 mm2 is still seen.
float sleeveWidth_m(double area_m2);

// The way a cable leaves a terminal of a part: away from the part's nearest edge.
ImVec2 leaveDirection(bench::PartKind kind, int terminal, int quarterTurns);

// From the document. An end on a terminal that does not exist counts as loose.
CableSpan spanOf(const bench::Bench& bench, const bench::Cable& cable);

// As it is first laid. Deterministic; reuses the vectors in out. Any numbers give a finite line.
void layRoute(const CableSpan& span, Route& out);

// As it lies in the yard: a smooth line through the strand, between the ends of the span even where
// the strand still lags behind them.
void followStrand(const CableSpan& span, const std::vector<bench::Point>& strand, Route& out);

// The point and direction at a distance along a route.
struct RoutePoint {
    ImVec2 at_m, towards; // towards end 1, unit
};

RoutePoint pointAlong(const Route& route, float along_m);

// How far a point is from the cable's middle line [m], and how far along that is nearest.
struct RouteHit {
    float distance_m = 1e9f;
    float along_m = 0.0f;
};

RouteHit nearestOn(const Route& route, ImVec2 at_m);

} // namespace loom::art

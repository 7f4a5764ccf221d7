// SPDX-License-Identifier: MIT
// A cable as a chain of points with a rest length for each link: how it lies while it is still
// (Strand), and the chain of Box2D bodies that it becomes while it moves (Chain). Lengths in metres
// outside; inside the world one unit is a centimetre: Box2D lets joints be off by 0.005 units and
// nothing go faster than 2 units a step, and links are a few units long.
#pragma once

#include "bench/bench.h"

#include <cstddef>
#include <memory>
#include <vector>

class b2World;
class b2Body;

namespace loom::yard {

inline constexpr double kUnits_per_m = 100.0;

// points = links + 1, from end 0 to end 1.
struct Strand {
    std::vector<bench::Point> points_m;
    std::vector<double> links_m; // the length each link keeps

    double length_m() const;
};

// A point of the chain that something holds: a terminal, a hand, a tie. It goes to where it is
// held no faster than the chain can follow.
struct Pin {
    std::size_t point = 0;
    bench::Point at_m, goal_m;
};

// The line through `line`, as a strand: its first and last links of the lengths given (the stiff
// fittings), the others equal and as many as suit its length.
Strand strandAlong(const std::vector<bench::Point>& line, double first_m, double last_m);

// The links as long as the points lie apart.
void keepChords(Strand& strand);

// The same line with as many links as suit its length now. True when that changed anything.
bool renewLinks(Strand& strand);

// How the cable moves. Figures are accelerations, so that no mass is needed.
struct Feel {
    double lean_m_s2 = 0.9;     // the board leans towards the learner: 9.81 sin(5 degrees)
    double friction_m_s2 = 2.5; // dry, on the board; grows while the cable comes to rest
    double drag_per_s = 7.0;    // of the sleeve sliding over wood and over other sleeves
    double leastBend_m = 0.02;  // radius
    bench::Point board_m{1.06, 0.7075};
    double spring_per_s2 = 900.0; // how strongly it wants to be straight
};

class Chain {
public:
    // Fixed points of the strand are those with a pin.
    Chain(b2World& world, const Strand& strand, const std::vector<Pin>& pins, const Feel& feel);
    ~Chain();
    Chain(Chain&&) noexcept;
    Chain& operator=(Chain&&) noexcept;

    // Before and after each step of the world. lend(): puts pins and link lengths in, and lets
    // lean and friction work. fetch(): where the points are now; one
    // that went no further than `stick_m` sticks to the board.
    void lend(const Strand& strand, const std::vector<Pin>& pins, const Feel& feel, double step_s);
    void fetch(Strand& strand, double stick_m) const;

    b2Body* body(std::size_t point) const;

private:
    struct Inside;
    std::unique_ptr<Inside> in;
};

} // namespace loom::yard

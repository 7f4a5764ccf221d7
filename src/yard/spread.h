// SPDX-License-Identifier: MIT
// How to lay a cable among what is on the board already so that the loom stays readable: off the
// terminals and bodies of other parts, clear of wheels, not along another cable.
#pragma once

#include "yard/course.h"
#include "yard/obstacles.h"

#include <vector>

namespace loom::yard {

// What a new cable has to mind. Made from a bench; each laid cable is added.
class Board {
public:
    explicit Board(const bench::Bench& bench);
    void add(const std::vector<bench::Point>& line);

    // The most readable of the ways to lay a cable.
    Course clearest(const Span& span) const;

private:
    double trouble(const Span& span, const Course& course) const;

    struct Line {
        Box bounds;
        std::vector<bench::Point> points_m;
    };

    bench::Point size_m;
    std::vector<bench::Point> terminals;
    std::vector<Box> bodies;
    std::vector<Wheel> wheels;
    std::vector<Line> lines;
};

} // namespace loom::yard

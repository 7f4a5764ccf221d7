// SPDX-License-Identifier: MIT
// How to lay a cable among what is on the board already so that the loom stays readable: off the
// terminals, bodies and names of other parts, clear of wheels, not along another cable.
#pragma once

#include "yard/cable_line.h"
#include "yard/obstacles.h"

#include <vector>

namespace loom::yard {

// What a new cable has to mind. Made from a bench; each laid cable is added.
class Board {
public:
    explicit Board(const bench::Bench& bench);
    // Lines are numbered from 0 in the order added.
    void add(const std::vector<bench::Point>& line);
    void change(std::size_t number, const std::vector<bench::Point>& line);

    // The most readable of the ways to lay a cable that is no line yet, or the one of this number.
    static constexpr std::size_t kNone = static_cast<std::size_t>(-1);
    CableLine clearest(const Span& span, std::size_t number = kNone) const;

private:
    double trouble(const Span& span, const CableLine& laid, std::size_t number) const;

    struct Line {
        Box bounds; // with room about it
        std::vector<bench::Point> points_m;
    };

    static Line lineOf(const std::vector<bench::Point>& points_m);

    bench::Point size_m;
    std::vector<bench::Point> terminals;
    std::vector<Box> bodies, names;
    std::vector<Wheel> wheels;
    std::vector<Line> lines;
};

} // namespace loom::yard

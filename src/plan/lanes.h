// SPDX-License-Identifier: MIT
// Ways for lines on a grid of lanes: each line level or upright, no two on the same lane, crossings
// and bends kept few. Make Lanes of the size, block what is in the way, add the lines, find().
//
// Each line is the cheapest way through what the others leave (Dijkstra's algorithm over nodes and
// directions; E. W. Dijkstra, Numerische Mathematik 1, 1959); then each is taken up and laid again
// while that makes the whole cheaper. Whole numbers only: the same everywhere.
#pragma once

#include <cstdint>
#include <vector>

namespace loom::plan {

struct Node {
    int x = 0, y = 0;

    friend bool operator==(Node l, Node r) { return l.x == r.x && l.y == r.y; }
};

enum class Heading : std::uint8_t { Up, Right, Down, Left };

Node stepped(Node from, Heading heading);
Heading opposite(Heading heading);

// A line leaves each of its ends in the given direction, straight out of a box.
struct Terminus {
    Node at;
    Heading out = Heading::Down;
};

struct LaneLine {
    Terminus from, to;
};

class Lanes {
public:
    Lanes(int columns, int rows);

    void block(Node at);
    // What lies next to a box is taken last.
    void discourage(Node at, int cost);
    void add(const LaneLine& line);

    // passes: how often every line is laid again.
    void find(int passes);
    // Exchanges where two lines leave the same box (end: 0 from, 1 to) when that is cheaper.
    // After find().
    bool exchange(std::size_t lineA, int endA, std::size_t lineB, int endB);

    // Corners of a line, its ends among them.
    std::vector<Node> corners(std::size_t line) const;

    std::size_t size() const { return lines.size(); }

    // Of all lines together: how good the drawing is.
    long long cost();

private:
    struct Use {
        std::int16_t level = 0, upright = 0, bends = 0; // lines through the node
        std::int16_t right = 0, down = 0;               // lines on the stretch from it
        bool blocked = false;
        int dear = 0;
        int owner = -1; // only this line comes by here
    };

    int index(Node at) const { return at.y * columns + at.x; }

    // A node come to by a heading.
    int stateOf(Node at, Heading by) const { return index(at) * 4 + static_cast<int>(by); }

    Node nodeOf(int state) const { return {state / 4 % columns, state / 4 / columns}; }
    template <class Come>
    void spread(std::size_t line, int state, int cost, const Come& come) const;

    bool inside(Node at) const {
        return at.x > 0 && at.y > 0 && at.x < columns - 1 && at.y < rows - 1;
    }

    std::int16_t& stretch(Node at, Heading heading);
    int throughCost(const Use& use, Heading in, Heading out) const;
    int stretchCost(Node at, Heading heading) const;
    void mark(const std::vector<Node>& way, int by);
    std::vector<Node> cheapest(std::size_t line) const;
    std::vector<Node> plain(const LaneLine& line) const;
    long long wayCost(std::size_t line) const;
    void relay(std::size_t line);
    void own(const Terminus& end, std::size_t line);
    void swapEnds(std::size_t lineA, int endA, std::size_t lineB, int endB);

    int columns, rows;
    std::vector<Use> uses;
    std::vector<LaneLine> lines;
    std::vector<std::vector<Node>> ways; // every node passed
};

} // namespace loom::plan

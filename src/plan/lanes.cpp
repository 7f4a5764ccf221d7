// SPDX-License-Identifier: MIT
#include "plan/lanes.h"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace loom::plan {
namespace {

// What makes a way dear, in tenths of a lane's pitch. By eye: a detour of three lanes for a crossing.
constexpr int kLengthCost = 10, kBendCost = 36, kCrossingCost = 40, kBesideCost = 4;
constexpr int kSharedCost = 4000; // two lines on one lane: only when there is no other way
constexpr int kForeignCost = 500; // close by where another line leaves its box
constexpr int kUnknown = 1 << 30;

constexpr std::array<Heading, 4> kHeadings{
    Heading::Up, Heading::Right, Heading::Down, Heading::Left};

bool upright(Heading heading) {
    return heading == Heading::Up || heading == Heading::Down;
}

Heading headingOf(Node from, Node to) {
    if (to.x != from.x) return to.x > from.x ? Heading::Right : Heading::Left;
    return to.y > from.y ? Heading::Down : Heading::Up;
}

int apart(Node a, Node b) {
    return std::abs(a.x - b.x) + std::abs(a.y - b.y);
}

} // namespace

Node stepped(Node from, Heading heading) {
    switch (heading) {
    case Heading::Up:
        return {from.x, from.y - 1};
    case Heading::Right:
        return {from.x + 1, from.y};
    case Heading::Down:
        return {from.x, from.y + 1};
    case Heading::Left:
        return {from.x - 1, from.y};
    }
    return from;
}

Heading opposite(Heading heading) {
    return static_cast<Heading>((static_cast<int>(heading) + 2) % 4);
}

Lanes::Lanes(int columns_, int rows_)
    : columns(columns_), rows(rows_),
      uses(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_)) {}

void Lanes::block(Node at) {
    if (inside(at)) uses[index(at)].blocked = true;
}

void Lanes::discourage(Node at, int cost) {
    if (inside(at)) uses[index(at)].dear += cost;
}

void Lanes::add(const LaneLine& line) {
    for (const Terminus& end : {line.from, line.to})
        own(end, lines.size());
    lines.push_back(line);
    ways.emplace_back();
}

std::int16_t& Lanes::stretch(Node at, Heading heading) {
    const Node other = stepped(at, heading);
    const Node first = heading == Heading::Up || heading == Heading::Left ? other : at;
    Use& use = uses[index(first)];
    return upright(heading) ? use.down : use.right;
}

int Lanes::throughCost(const Use& use, Heading in, Heading out) const {
    if (in != out) return kBendCost + (use.level + use.upright + use.bends > 0 ? kSharedCost : 0);
    const int crossed = upright(in) ? use.level : use.upright;
    return crossed * kCrossingCost + (use.bends > 0 ? kSharedCost : 0);
}

int Lanes::stretchCost(Node at, Heading heading) const {
    Lanes& self = const_cast<Lanes&>(*this);
    int cost = kLengthCost + self.stretch(at, heading) * kSharedCost;
    const Heading side = upright(heading) ? Heading::Right : Heading::Down;
    for (const Heading beside : {side, opposite(side)}) {
        const Node neighbour = stepped(at, beside);
        if (inside(neighbour) && inside(stepped(neighbour, heading)) &&
            self.stretch(neighbour, heading) > 0)
            cost += kBesideCost;
    }
    return cost;
}

void Lanes::mark(const std::vector<Node>& way, int by) {
    for (std::size_t i = 0; i + 1 < way.size(); ++i) {
        const Heading out = headingOf(way[i], way[i + 1]);
        stretch(way[i], out) = static_cast<std::int16_t>(stretch(way[i], out) + by);
        if (i == 0) continue;
        const Heading in = headingOf(way[i - 1], way[i]);
        Use& use = uses[index(way[i])];
        std::int16_t& count = in != out ? use.bends : upright(in) ? use.upright : use.level;
        count = static_cast<std::int16_t>(count + by);
    }
}

// Best first over (node, heading it was come to by); the rest of the way is at least as dear as it
// is long. Nothing when the end cannot be reached.
std::vector<Node> Lanes::cheapest(std::size_t number) const {
    const LaneLine& line = lines[number];
    const Node start = stepped(line.from.at, line.from.out);
    const Node goal = stepped(line.to.at, line.to.out);
    if (!inside(start) || !inside(goal)) return {};
    const int last = stateOf(goal, opposite(line.to.out));
    std::vector<int> known(uses.size() * 4, kUnknown), before(uses.size() * 4, -1);
    std::vector<std::vector<int>> open; // states by the cost of their way and the rest
    const auto come = [&](int there, int cost, int from) {
        if (cost >= known[there]) return;
        known[there] = cost;
        before[there] = from;
        const auto estimate =
            static_cast<std::size_t>(cost + apart(nodeOf(there), goal) * kLengthCost);
        if (open.size() <= estimate) open.resize(estimate + 1);
        open[estimate].push_back(there);
    };
    come(stateOf(start, line.from.out), 0, -1);
    for (std::size_t estimate = 0; estimate < open.size() && known[last] == kUnknown; ++estimate)
        while (!open[estimate].empty()) {
            const int here = open[estimate].back();
            open[estimate].pop_back();
            const int rest = apart(nodeOf(here), goal) * kLengthCost;
            if (known[here] + rest == static_cast<int>(estimate))
                spread(number, here, known[here], come);
        }
    if (known[last] == kUnknown) return {};
    std::vector<Node> way{line.to.at};
    for (int at = last; at >= 0; at = before[at])
        if (!(way.back() == nodeOf(at))) way.push_back(nodeOf(at));
    way.push_back(line.from.at);
    std::reverse(way.begin(), way.end());
    return way;
}

// From a state to those next to it.
template <class Come>
void Lanes::spread(std::size_t number, int here, int cost, const Come& come) const {
    const LaneLine& line = lines[number];
    const Node at = nodeOf(here), goal = stepped(line.to.at, line.to.out);
    const Heading in = static_cast<Heading>(here % 4), arrive = opposite(line.to.out);
    for (const Heading out : kHeadings) {
        if (out == opposite(in)) continue;
        const int through = throughCost(uses[index(at)], in, out);
        // The last bend may be on the node in front of the end.
        if (at == goal && out == arrive) come(stateOf(at, out), cost + through, here);
        const Node next = stepped(at, out);
        if (!inside(next) || uses[index(next)].blocked) continue;
        const Use& use = uses[index(next)];
        const bool foreign = use.owner >= 0 && use.owner != static_cast<int>(number);
        come(stateOf(next, out),
             cost + through + stretchCost(at, out) + use.dear + (foreign ? kForeignCost : 0),
             here);
    }
}

// Out, across and in, whatever lies there: for ends that are walled in.
std::vector<Node> Lanes::plain(const LaneLine& line) const {
    const Node out = stepped(line.from.at, line.from.out), in = stepped(line.to.at, line.to.out);
    std::vector<Node> way{line.from.at, out};
    while (way.back().x != in.x)
        way.push_back({way.back().x + (in.x > way.back().x ? 1 : -1), way.back().y});
    while (way.back().y != in.y)
        way.push_back({way.back().x, way.back().y + (in.y > way.back().y ? 1 : -1)});
    way.push_back(line.to.at);
    return way;
}

long long Lanes::wayCost(std::size_t number) const {
    const std::vector<Node>& way = ways[number];
    long long cost = 0;
    for (std::size_t i = 0; i + 1 < way.size(); ++i) {
        const Heading out = headingOf(way[i], way[i + 1]);
        cost += stretchCost(way[i], out) + uses[index(way[i + 1])].dear;
        if (i > 0) cost += throughCost(uses[index(way[i])], headingOf(way[i - 1], way[i]), out);
    }
    return cost;
}

void Lanes::relay(std::size_t number) {
    const std::vector<Node> old = ways[number];
    if (!old.empty()) mark(old, -1);
    const long long oldCost = old.empty() ? 0 : wayCost(number);
    ways[number] = cheapest(number);
    if (ways[number].empty()) ways[number] = plain(lines[number]);
    if (!old.empty() && wayCost(number) >= oldCost) ways[number] = old;
    mark(ways[number], 1);
}

void Lanes::find(int passes) {
    std::vector<std::size_t> order(lines.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return apart(lines[a].from.at, lines[a].to.at) < apart(lines[b].from.at, lines[b].to.at);
    });
    for (int pass = 0; pass <= passes; ++pass) {
        const long long before = pass > 0 ? cost() : -1;
        for (const std::size_t line : order)
            relay(line);
        if (cost() == before) break;
    }
}

void Lanes::own(const Terminus& end, std::size_t line) {
    const Node front = stepped(end.at, end.out);
    if (inside(front)) uses[index(front)].owner = static_cast<int>(line);
}

void Lanes::swapEnds(std::size_t lineA, int endA, std::size_t lineB, int endB) {
    Terminus& a = endA == 0 ? lines[lineA].from : lines[lineA].to;
    Terminus& b = endB == 0 ? lines[lineB].from : lines[lineB].to;
    std::swap(a, b);
    own(a, lineA);
    own(b, lineB);
}

bool Lanes::exchange(std::size_t lineA, int endA, std::size_t lineB, int endB) {
    if (lineA == lineB) return false;
    const std::vector<Node> oldA = ways[lineA], oldB = ways[lineB];
    const auto costOfBoth = [&] {
        mark(ways[lineA], -1);
        const long long first = wayCost(lineA); // beside the other
        mark(ways[lineB], -1);
        const long long second = wayCost(lineB); // without it
        mark(ways[lineA], 1);
        mark(ways[lineB], 1);
        return first + second;
    };
    const long long before = costOfBoth();
    swapEnds(lineA, endA, lineB, endB);
    for (const std::size_t line : {lineA, lineB}) {
        mark(ways[line], -1);
        ways[line].clear();
    }
    for (const std::size_t line : {lineA, lineB, lineA})
        relay(line);
    if (costOfBoth() < before) return true;
    mark(ways[lineA], -1);
    mark(ways[lineB], -1);
    swapEnds(lineA, endA, lineB, endB);
    ways[lineA] = oldA;
    ways[lineB] = oldB;
    mark(oldA, 1);
    mark(oldB, 1);
    return false;
}

std::vector<Node> Lanes::corners(std::size_t number) const {
    const std::vector<Node>& way = ways[number];
    std::vector<Node> out;
    for (std::size_t i = 0; i < way.size(); ++i) {
        const bool end = i == 0 || i + 1 == way.size();
        if (end || headingOf(way[i - 1], way[i]) != headingOf(way[i], way[i + 1]))
            out.push_back(way[i]);
    }
    return out;
}

long long Lanes::cost() {
    long long sum = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        mark(ways[i], -1);
        sum += wayCost(i);
        mark(ways[i], 1);
    }
    return sum;
}

} // namespace loom::plan

// SPDX-License-Identifier: MIT
#include "plan/boxes.h"

#include "bench/catalogue.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace loom::plan {
namespace {

constexpr int kClearance = 3; // stretches between two boxes, for lanes
constexpr int kEdgeClearance = 2;
constexpr int kBlockRefWidth = 2; // of a block's left end, for its ref

int least(bench::PartKind kind, bool across) {
    const bench::PlanBox& box = bench::spec(kind).plan;
    return across ? box.across : box.down;
}

struct Turned {
    double x, y;
};

// Clockwise quarter turns, y down.
Turned turned(double x, double y, int quarterTurns) {
    for (int i = 0; i < (quarterTurns % 4 + 4) % 4; ++i) {
        const double old = x;
        x = -y;
        y = old;
    }
    return {x, y};
}

Side sideOf(const bench::PartSpec& spec, const bench::TerminalSpec& terminal, int quarterTurns) {
    const bool ends = std::fabs(terminal.y_m) < spec.height_m * 0.25;
    int side = ends ? (terminal.x_m < 0 ? 3 : 1) : (terminal.y_m < 0 ? 0 : 2);
    side = (side + quarterTurns % 4 + 4) % 4;
    return static_cast<Side>(side);
}

bool level(Side side) {
    return side == Side::Top || side == Side::Bottom;
}

double alongOf(const bench::TerminalSpec& terminal, int quarterTurns, Side side) {
    const Turned at = turned(terminal.x_m, terminal.y_m, quarterTurns);
    return level(side) ? at.x : at.y;
}

const Spot& spotOf(const PlanCable& cable, int end) {
    return end == 0 ? cable.from : cable.to;
}

const PlanPart* partOf(const Plan& plan, const std::string& ref) {
    for (const PlanPart& part : plan.parts)
        if (part.ref == ref) return &part;
    return nullptr;
}

// Where the far end of a cable goes, in metres on the frame: what ends at a terminal are sorted by.
double farEnd(const Plan& plan, PlanEnd end, bool across) {
    const Spot& far = spotOf(plan.cables[end.cable], 1 - end.end);
    const PlanPart* part = partOf(plan, far.ref);
    if (!part) return 0.0;
    const bench::PartSpec& spec = bench::spec(part->kind);
    Turned terminal{0, 0};
    for (const bench::TerminalSpec& each : spec.terminals)
        if (far.terminal == each.word) terminal = turned(each.x_m, each.y_m, part->quarterTurns);
    return across ? part->at_m.x_m + terminal.x : part->at_m.y_m + terminal.y;
}

std::vector<PlanEnd> endsOn(const Plan& plan, const std::string& ref, const char* terminal) {
    std::vector<PlanEnd> out;
    for (std::size_t i = 0; i < plan.cables.size(); ++i)
        for (int end = 0; end < 2; ++end) {
            const Spot& spot = spotOf(plan.cables[i], end);
            if (spot.ref == ref && spot.terminal == terminal) out.push_back({i, end});
        }
    return out;
}

std::vector<PlacedTerminal> terminalsOf(const Plan& plan, const PlanPart& part) {
    const bench::PartSpec& spec = bench::spec(part.kind);
    std::vector<PlacedTerminal> out;
    for (std::size_t i = 0; i < spec.terminals.size(); ++i) {
        PlacedTerminal terminal;
        terminal.terminal = i;
        terminal.side = sideOf(spec, spec.terminals[i], part.quarterTurns);
        terminal.ends = endsOn(plan, part.ref, spec.terminals[i].word);
        const bool across = level(terminal.side);
        std::stable_sort(terminal.ends.begin(), terminal.ends.end(), [&](PlanEnd a, PlanEnd b) {
            return farEnd(plan, a, across) < farEnd(plan, b, across);
        });
        terminal.width = std::max(1, static_cast<int>(terminal.ends.size()));
        out.push_back(terminal);
    }
    std::stable_sort(out.begin(), out.end(), [&](const PlacedTerminal& a, const PlacedTerminal& b) {
        if (a.side != b.side) return a.side < b.side;
        return alongOf(spec.terminals[a.terminal], part.quarterTurns, a.side) <
               alongOf(spec.terminals[b.terminal], part.quarterTurns, b.side);
    });
    return out;
}

// The side's terminals one after the other, two stretches from one to the next; returns the length.
int layAlong(std::vector<PlacedTerminal>& terminals, Side side) {
    int at = 0;
    for (PlacedTerminal& terminal : terminals) {
        if (terminal.side != side) continue;
        terminal.first = at;
        at += terminal.width + 1;
    }
    return std::max(0, at - 2);
}

void centre(std::vector<PlacedTerminal>& terminals, Side side, int length, int used) {
    for (PlacedTerminal& terminal : terminals)
        if (terminal.side == side) terminal.first += (length - used) / 2;
}

void sizePart(PlacedPart& placed, const PlanPart& part) {
    const bool lying = part.quarterTurns % 2 == 0;
    std::array<int, 4> used{};
    for (int side = 0; side < 4; ++side)
        used[side] = layAlong(placed.terminals, static_cast<Side>(side));
    const int ref =
        static_cast<int>(std::ceil((textWidth_em(part.ref) * kPlanLetters_mm + 3.0) / kPitch_mm));
    placed.across =
        std::max({least(part.kind, lying), used[0] + 2, used[2] + 2, std::min(ref, 16)});
    placed.down = std::max({least(part.kind, !lying), used[1] + 2, used[3] + 2});
    for (int side = 0; side < 4; ++side)
        centre(placed.terminals,
               static_cast<Side>(side),
               side % 2 == 0 ? placed.across : placed.down,
               used[side]);
}

// Ways side by side, both holes of each over one another, as wide as what they take; a single end
// stands on the side it comes from.
void sizeBlock(PlacedPart& placed, const PlanPart& part, const Plan& plan) {
    const bench::PartSpec& spec = bench::spec(part.kind);
    const bool lying = part.quarterTurns % 2 == 0;
    std::vector<int> order; // nodes in their order along the block
    for (const PlacedTerminal& terminal : placed.terminals) {
        const int node = spec.terminals[terminal.terminal].node;
        if (std::find(order.begin(), order.end(), node) == order.end()) order.push_back(node);
    }
    int at = 0;
    for (const int node : order) {
        int width = 2;
        for (const PlacedTerminal& terminal : placed.terminals)
            if (spec.terminals[terminal.terminal].node == node)
                width = std::max(width, terminal.width);
        for (PlacedTerminal& terminal : placed.terminals) {
            if (spec.terminals[terminal.terminal].node != node) continue;
            terminal.first = at;
            if (terminal.ends.size() == 1) {
                const double here =
                    (lying ? part.at_m.x_m : part.at_m.y_m) +
                    alongOf(spec.terminals[terminal.terminal], part.quarterTurns, terminal.side);
                if (farEnd(plan, terminal.ends[0], lying) > here) terminal.first = at + width - 1;
            }
        }
        at += width;
    }
    placed.across = lying ? at - 1 : least(part.kind, true);
    placed.down = lying ? least(part.kind, false) : at - 1;
}

// Boxes with the room they want for themselves, in nodes.
struct Room {
    int left, top, right, bottom;
};

Room roomOf(const PlacedPart& part) {
    const int before = part.block ? 1 + kBlockRefWidth : 0, after = part.block ? 1 : 0;
    return {part.x - before, part.y, part.x + part.across + after, part.y + part.down};
}

void keepInside(PlacedPart& part) {
    const Room room = roomOf(part);
    const int low = kEdgeClearance;
    part.x += std::max(0, low - room.left);
    part.y += std::max(0, low - room.top);
    part.x -= std::max(0, room.right - (kGridColumns - 1 - low));
    part.y -= std::max(0, room.bottom - (kGridRows - 1 - low));
    part.x = std::max(part.x, low);
    part.y = std::max(part.y, low);
}

// Moves two boxes apart the shorter way; whether they were too near.
bool pushApart(PlacedPart& a, PlacedPart& b, int wanted) {
    const Room p = roomOf(a), q = roomOf(b);
    const int x = std::min(p.right, q.right) - std::max(p.left, q.left) + wanted;
    const int y = std::min(p.bottom, q.bottom) - std::max(p.top, q.top) + wanted;
    if (x <= 0 || y <= 0) return false;
    const bool across = x <= y;
    const int by = across ? x : y;
    const bool bAfter =
        across ? q.left + q.right >= p.left + p.right : q.top + q.bottom >= p.top + p.bottom;
    const int sign = bAfter ? 1 : -1;
    (across ? a.x : a.y) -= sign * (by / 2);
    (across ? b.x : b.y) += sign * (by - by / 2);
    keepInside(a);
    keepInside(b);
    return true;
}

// Whether all stand the wanted clearance apart after pushing for a while.
bool pushAllApart(std::vector<PlacedPart>& parts, int wanted) {
    for (int round = 0; round < 60; ++round) {
        bool moved = false;
        for (std::size_t i = 0; i < parts.size(); ++i)
            for (std::size_t j = i + 1; j < parts.size(); ++j)
                moved = pushApart(parts[i], parts[j], wanted) || moved;
        if (!moved) return true;
    }
    return false;
}

bool clearOf(const Room& room, const std::vector<Room>& others, int wanted) {
    return std::none_of(others.begin(), others.end(), [&](const Room& other) {
        return room.left < other.right + wanted && other.left < room.right + wanted &&
               room.top < other.bottom + wanted && other.top < room.bottom + wanted;
    });
}

// The nearest place clear of the others, if the frame has one.
bool moveClear(PlacedPart& part, const std::vector<Room>& others, int wanted) {
    const PlacedPart from = part;
    int best = kGridColumns * kGridRows;
    for (int y = 0; y < kGridRows; ++y)
        for (int x = 0; x < kGridColumns; ++x) {
            PlacedPart there = from;
            there.x = x;
            there.y = y;
            keepInside(there);
            const int away = std::abs(there.x - from.x) + std::abs(there.y - from.y);
            if (away >= best || !clearOf(roomOf(there), others, wanted)) continue;
            best = away;
            part = there;
        }
    return best < kGridColumns * kGridRows;
}

// Too many for pushing: one after the other to its nearest free place, the greatest first.
void spreadOut(std::vector<PlacedPart>& parts) {
    std::vector<PlacedPart*> order;
    for (PlacedPart& part : parts)
        order.push_back(&part);
    std::stable_sort(order.begin(), order.end(), [](const PlacedPart* a, const PlacedPart* b) {
        return a->across * a->down > b->across * b->down;
    });
    std::vector<Room> taken;
    for (PlacedPart* part : order) {
        for (int wanted = kClearance; wanted >= 0; --wanted)
            if (moveClear(*part, taken, wanted)) break;
        taken.push_back(roomOf(*part));
    }
}

void separate(std::vector<PlacedPart>& parts) {
    const std::vector<PlacedPart> wished = parts;
    for (const int wanted : {kClearance, 2}) {
        parts = wished;
        if (pushAllApart(parts, wanted)) return;
    }
    parts = wished;
    spreadOut(parts);
}

// How far along a length, 0..1; the middle of one that is none.
double share(double at, double length) {
    return length > 0.0 ? std::clamp(at / length, 0.0, 1.0) : 0.5;
}

Heading outOf(Side side) {
    return static_cast<Heading>(static_cast<int>(side));
}

} // namespace

std::vector<PlacedPart> placeParts(const Plan& plan) {
    std::vector<PlacedPart> out;
    for (std::size_t i = 0; i < plan.parts.size(); ++i) {
        const PlanPart& part = plan.parts[i];
        PlacedPart placed;
        placed.part = i;
        placed.block = bench::isA(part.kind, bench::PartClass::Block);
        placed.terminals = terminalsOf(plan, part);
        if (placed.block)
            sizeBlock(placed, part, plan);
        else
            sizePart(placed, part);
        const double x = share(part.at_m.x_m, plan.frame_m.x_m) * (kGridColumns - 1);
        const double y = share(part.at_m.y_m, plan.frame_m.y_m) * (kGridRows - 1);
        placed.x = static_cast<int>(std::floor(x - placed.across / 2.0 + 0.5));
        placed.y = static_cast<int>(std::floor(y - placed.down / 2.0 + 0.5));
        keepInside(placed);
        out.push_back(placed);
    }
    separate(out);
    return out;
}

MmBox boxOf(const PlacedPart& part) {
    MmBox box{mmOf({part.x, part.y}), mmOf({part.x + part.across, part.y + part.down})};
    if (!part.block) return box;
    const bool lying = part.across >= part.down;
    const double half = kPitch_mm / 2;
    (lying ? box.min.x : box.min.y) -= half + kBlockRefWidth * kPitch_mm;
    (lying ? box.max.x : box.max.y) += half;
    return box;
}

Terminus terminusOf(const PlacedPart& part, const PlacedTerminal& terminal, std::size_t i) {
    const int along = terminal.first + static_cast<int>(i);
    const Heading out = outOf(terminal.side);
    switch (terminal.side) {
    case Side::Top:
        return {{part.x + along, part.y}, out};
    case Side::Right:
        return {{part.x + part.across, part.y + along}, out};
    case Side::Bottom:
        return {{part.x + along, part.y + part.down}, out};
    case Side::Left:
        return {{part.x, part.y + along}, out};
    }
    return {};
}

std::optional<Terminus> terminusOf(const std::vector<PlacedPart>& parts, PlanEnd end) {
    for (const PlacedPart& part : parts)
        for (const PlacedTerminal& terminal : part.terminals)
            for (std::size_t i = 0; i < terminal.ends.size(); ++i)
                if (terminal.ends[i].cable == end.cable && terminal.ends[i].end == end.end)
                    return terminusOf(part, terminal, i);
    return std::nullopt;
}

} // namespace loom::plan

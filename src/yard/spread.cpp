// SPDX-License-Identifier: MIT
#include "yard/spread.h"

#include "bench/catalogue.h"
#include "yard/vec.h"

#include <algorithm>
#include <cmath>

namespace loom::yard {

namespace {

// Trouble is counted in metres of cable that lie badly, each kind weighed by how much it hides.
constexpr double kOffBoardWeighs = 20.0, kWheelWeighs = 40.0, kTerminalWeighs = 12.0;
constexpr double kBodyWeighs = 1.0, kAlongWeighs = 3.0, kNameWeighs = 3.0, kSharpWeighs = 0.15,
                 kLengthWeighs = 0.25, unusualWeighs = 0.01;
constexpr double kTerminalRoom_m = 0.018, kWheelRoom_m = 0.02, kLineRoom_m = 0.016;

double inside(double distance_m, double room_m) {
    return std::max(0.0, 1.0 - distance_m / room_m);
}

bool isOwn(const Span& span, Point at, double within_m) {
    return apart_m(span.ends[0].terminal_m, at) < within_m ||
           apart_m(span.ends[1].terminal_m, at) < within_m;
}

// How much more a line turns between two steps than on a circle of this radius; 0..2.
double sharpness(Point before, Point step, double radius_m) {
    const Point a = unit(before, {0.0, 0.0}), b = unit(step, {0.0, 0.0});
    return std::max(0.0, norm(b - a) - norm(step) / radius_m);
}

// How much a step lies along a line instead of crossing it squarely; 0..1.
double along(const std::vector<Point>& line, Point at, Point step) {
    double most = 0.0;
    const double step_m = norm(step);
    for (std::size_t k = 1; k < line.size(); ++k) {
        const Point a = line[k - 1], way = line[k] - a;
        const double length_m = norm(way);
        if (length_m <= 0.0 || step_m <= 0.0) continue;
        const double share = std::min(std::max(dot(at - a, way) / (length_m * length_m), 0.0), 1.0);
        const double near = inside(apart_m(at, a + share * way), kLineRoom_m);
        const double cosine = dot(step, way) / (step_m * length_m);
        most = std::max(most, near * cosine * cosine);
    }
    return most;
}

// About where a part's name is written: over it, under a battery, at the left of a block.
Box nameOf(const bench::Part& part) {
    const Box body = boxOf(part);
    const bench::NameSide side = bench::spec(part.kind).nameSide;
    const double middle_m = part.at_m.x_m;
    if (side == bench::NameSide::Left)
        return {{body.min_m.x_m - 0.05, part.at_m.y_m - 0.012},
                {body.min_m.x_m, part.at_m.y_m + 0.012}};
    if (side == bench::NameSide::Below)
        return {{middle_m - 0.02, body.max_m.y_m}, {middle_m + 0.02, body.max_m.y_m + 0.028}};
    return {{middle_m - 0.025, body.min_m.y_m - 0.028}, {middle_m + 0.025, body.min_m.y_m}};
}

} // namespace

Board::Board(const bench::Bench& bench) : size_m(bench.board_m) {
    for (const bench::Part& part : bench.parts) {
        bodies.push_back(boxOf(part));
        names.push_back(nameOf(part));
        if (const auto wheel = wheelOf(part)) wheels.push_back(*wheel);
        const std::size_t count = bench::spec(part.kind).terminals.size();
        for (std::size_t i = 0; i < count; ++i)
            terminals.push_back(bench::terminalAt(bench, {part.id, static_cast<std::uint8_t>(i)}));
    }
}

Board::Line Board::lineOf(const std::vector<Point>& points_m) {
    Line line;
    line.points_m = points_m;
    if (points_m.empty()) return line;
    line.bounds = {points_m.front(), points_m.front()};
    for (const Point p : points_m) {
        line.bounds.min_m = {std::min(line.bounds.min_m.x_m, p.x_m - kLineRoom_m),
                             std::min(line.bounds.min_m.y_m, p.y_m - kLineRoom_m)};
        line.bounds.max_m = {std::max(line.bounds.max_m.x_m, p.x_m + kLineRoom_m),
                             std::max(line.bounds.max_m.y_m, p.y_m + kLineRoom_m)};
    }
    return line;
}

void Board::add(const std::vector<Point>& line) {
    lines.push_back(lineOf(line));
}

void Board::change(std::size_t number, const std::vector<Point>& line) {
    lines[number] = lineOf(line);
}

double Board::trouble(const Span& span, const CableLine& laid, std::size_t number) const {
    double sum = kLengthWeighs * laid.length_m;
    // The fitting is its first piece and its last.
    Point before = laid.ends[0].leaves;
    for (std::size_t i = 1; i < laid.points_m.size(); ++i) {
        const Point at = laid.points_m[i], step = at - laid.points_m[i - 1];
        const double step_m = norm(step);
        sum += kSharpWeighs * sharpness(before, step, 2.0 * span.width_m);
        before = step;
        if (!Box{{0.0, 0.0}, size_m}.holds(at)) sum += kOffBoardWeighs * step_m;
        for (const Wheel& wheel : wheels) {
            const double clear_m = apart_m(at, wheel.hub_m) - wheel.radius_m - 0.5 * span.width_m;
            sum += kWheelWeighs * step_m * inside(clear_m, kWheelRoom_m);
        }
        for (const Point terminal : terminals) {
            const double away_m = apart_m(at, terminal);
            if (away_m < kTerminalRoom_m && !isOwn(span, terminal, 0.003))
                sum += kTerminalWeighs * step_m * inside(away_m, kTerminalRoom_m);
        }
        for (const Box& body : bodies)
            if (body.holds(at)) sum += kBodyWeighs * step_m;
        for (const Box& name : names)
            if (name.holds(at)) sum += kNameWeighs * step_m;
        for (std::size_t k = 0; k < lines.size(); ++k)
            if (k != number && lines[k].bounds.holds(at))
                sum += kAlongWeighs * step_m * along(lines[k].points_m, at, step);
    }
    return sum + kSharpWeighs * sharpness(before, -1.0 * laid.ends[1].leaves, 2.0 * span.width_m);
}

CableLine Board::clearest(const Span& span, std::size_t number) const {
    CableLine best;
    double least = 0.0;
    for (const int side : {0, 1, -1})
        for (const double slack : {1.0, 1.5, 0.7, 0.4, 0.15}) {
            CableLine laid = layLine(span, {side, slack});
            const double weighed =
                trouble(span, laid, number) +
                unusualWeighs * ((side != 0 ? 1.0 : 0.0) + 2.0 * std::fabs(1.0 - slack));
            if (best.points_m.empty() || weighed < least) {
                least = weighed;
                best = std::move(laid);
            }
        }
    return best;
}

} // namespace loom::yard

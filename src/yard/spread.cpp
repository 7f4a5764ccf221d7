// SPDX-License-Identifier: MIT
#include "yard/spread.h"

#include "bench/catalogue.h"
#include "yard/vec.h"

#include <algorithm>
#include <cmath>

namespace loom::yard {

namespace {

// Trouble is counted in metres of cable that lie badly, each kind weighed by how much it hides.
constexpr double offBoardWeighs = 20.0, wheelWeighs = 40.0, terminalWeighs = 12.0;
constexpr double bodyWeighs = 1.0, alongWeighs = 3.0, lengthWeighs = 0.25, unusualWeighs = 0.01;
constexpr double terminalRoom_m = 0.018, wheelRoom_m = 0.02, lineRoom_m = 0.016;

double inside(double distance_m, double room_m) {
    return std::max(0.0, 1.0 - distance_m / room_m);
}

bool isOwn(const Span& span, Point at, double within_m) {
    return apart_m(span.ends[0].terminal_m, at) < within_m ||
           apart_m(span.ends[1].terminal_m, at) < within_m;
}

} // namespace

Board::Board(const bench::Bench& bench) : size_m(bench.board_m) {
    for (const bench::Part& part : bench.parts) {
        bodies.push_back(boxOf(part));
        if (const auto wheel = wheelOf(part)) wheels.push_back(*wheel);
        const std::size_t count = bench::spec(part.kind).terminals.size();
        for (std::size_t i = 0; i < count; ++i)
            terminals.push_back(bench::terminalAt(bench, {part.id, static_cast<std::uint8_t>(i)}));
    }
}

void Board::add(const std::vector<Point>& points_m) {
    Line line;
    if (points_m.empty()) return;
    line.bounds = {points_m.front(), points_m.front()};
    for (const Point p : points_m) {
        line.bounds.min_m = {std::min(line.bounds.min_m.x_m, p.x_m - lineRoom_m),
                             std::min(line.bounds.min_m.y_m, p.y_m - lineRoom_m)};
        line.bounds.max_m = {std::max(line.bounds.max_m.x_m, p.x_m + lineRoom_m),
                             std::max(line.bounds.max_m.y_m, p.y_m + lineRoom_m)};
    }
    line.points_m = points_m;
    lines.push_back(std::move(line));
}

double Board::trouble(const Span& span, const Course& course) const {
    double sum = lengthWeighs * course.length_m;
    for (std::size_t i = 1; i < course.points_m.size(); ++i) {
        const Point at = course.points_m[i], step = at - course.points_m[i - 1];
        const double step_m = norm(step);
        if (!Box{{0.0, 0.0}, size_m}.holds(at)) sum += offBoardWeighs * step_m;
        for (const Wheel& wheel : wheels) {
            const double clear_m = apart_m(at, wheel.hub_m) - wheel.radius_m - 0.5 * span.width_m;
            sum += wheelWeighs * step_m * inside(clear_m, wheelRoom_m);
        }
        for (const Point terminal : terminals) {
            const double away_m = apart_m(at, terminal);
            if (away_m < terminalRoom_m && !isOwn(span, terminal, 0.003))
                sum += terminalWeighs * step_m * inside(away_m, terminalRoom_m);
        }
        for (const Box& body : bodies)
            if (body.holds(at)) sum += bodyWeighs * step_m;
        for (const Line& line : lines) {
            if (!line.bounds.holds(at)) continue;
            double along = 0.0;
            for (std::size_t k = 1; k < line.points_m.size(); ++k) {
                const Point a = line.points_m[k - 1], way = line.points_m[k] - a;
                const double length_m = norm(way);
                if (length_m <= 0.0) continue;
                const double share =
                    std::min(std::max(dot(at - a, way) / (length_m * length_m), 0.0), 1.0);
                const double near = inside(apart_m(at, a + share * way), lineRoom_m);
                // Crossing squarely is no trouble, lying along it is.
                const double cosine =
                    step_m > 0.0 ? std::fabs(dot(step, way)) / (step_m * length_m) : 0.0;
                along = std::max(along, near * cosine * cosine);
            }
            sum += alongWeighs * step_m * along;
        }
    }
    return sum;
}

Course Board::clearest(const Span& span) const {
    Course best;
    double least = 0.0;
    for (const int side : {0, 1, -1})
        for (const double slack : {1.0, 0.7, 0.4, 0.12}) {
            Course course = layCourse(span, {side, slack});
            const double weighed = trouble(span, course) +
                                   unusualWeighs * ((side != 0 ? 1.0 : 0.0) + 2.0 * (1.0 - slack));
            if (best.points_m.empty() || weighed < least) {
                least = weighed;
                best = std::move(course);
            }
        }
    return best;
}

} // namespace loom::yard

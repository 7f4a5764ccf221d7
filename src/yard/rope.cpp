// SPDX-License-Identifier: MIT
#include "yard/rope.h"

#include "yard/vec.h"

#include <algorithm>
#include <cmath>

namespace loom::yard {

namespace {

constexpr double overEdge_m = 0.2; // as far as a hand takes an end over the board's edge
constexpr double pinSpeed_m_s = 8.0;
constexpr double gather_m_s = 0.6; // how fast slack is gathered up or given
constexpr double nudge_m = 0.008;  // a smaller shift of an end moves the whole strand along
constexpr double stillSpeed_m_s = 0.006, stillFor_s = 0.15, longest_s = 2.0;
constexpr double shortestStub_m = 0.014;

double stub_m(const Seat& seat, double width_m) {
    return std::max(shortestStub_m, sleeveStart_m(seat, width_m));
}

Point onBoard(Point p, Point board_m, Point otherwise) {
    if (!isFinite(p)) return otherwise;
    return {std::min(std::max(p.x_m, -overEdge_m), board_m.x_m + overEdge_m),
            std::min(std::max(p.y_m, -overEdge_m), board_m.y_m + overEdge_m)};
}

// The course with its fittings, from middle to middle.
std::vector<Point> withFittings(const Course& course) {
    std::vector<Point> line;
    line.push_back(course.ends[0].terminal_m);
    line.insert(line.end(), course.points_m.begin(), course.points_m.end());
    line.push_back(course.ends[1].terminal_m);
    return line;
}

double lengthOf(const Course& course) {
    return course.length_m + apart_m(course.ends[0].terminal_m, course.points_m.front()) +
           apart_m(course.ends[1].terminal_m, course.points_m.back());
}

void addPin(const Rope& rope, std::vector<Pin>& pins, std::size_t point, Point goal) {
    const Point now = rope.strand.points_m[point];
    pins.push_back({point, now, onBoard(goal, rope.feel.board_m, now)});
}

std::vector<Pin> pinsOf(const Rope& rope) {
    std::vector<Pin> pins;
    const std::size_t last = rope.strand.points_m.size() - 1;
    for (int e = 0; e < 2; ++e) {
        const Seat& seat = rope.span.ends[e];
        const Point middle = seatedAt_m(seat);
        addPin(rope, pins, e == 0 ? 0 : last, middle);
        if (seat.firmness < 1.0) continue;
        const double stiff_m = e == 0 ? rope.strand.links_m.front() : rope.strand.links_m.back();
        addPin(rope, pins, e == 0 ? 1 : last - 1, middle + stiff_m * seat.leaves);
    }
    for (const Hold& hold : rope.holds)
        addPin(rope, pins, pointAt(rope, hold.along), hold.at_m);
    std::stable_sort(
        pins.begin(), pins.end(), [](const Pin& a, const Pin& b) { return a.point < b.point; });
    pins.erase(std::unique(pins.begin(),
                           pins.end(),
                           [](const Pin& a, const Pin& b) { return a.point == b.point; }),
               pins.end());
    return pins;
}

bool holdSamePoints(const std::vector<Pin>& a, const std::vector<Pin>& b) {
    return a.size() == b.size() &&
           std::equal(a.begin(), a.end(), b.begin(), [](const Pin& l, const Pin& r) {
               return l.point == r.point;
           });
}

double farthest_m(const std::vector<Pin>& pins) {
    double most = 0.0;
    for (const Pin& pin : pins)
        most = std::max(most, apart_m(pin.at_m, pin.goal_m));
    return most;
}

void refreshPins(Rope& rope) {
    std::vector<Pin> pins = pinsOf(rope);
    if (!holdSamePoints(pins, rope.pins)) rope.chain.reset();
    rope.pins = std::move(pins);
}

void keepChords(Strand& strand) {
    for (std::size_t i = 0; i < strand.links_m.size(); ++i)
        strand.links_m[i] = std::max(1e-3, apart_m(strand.points_m[i], strand.points_m[i + 1]));
}

// Carries a strand at rest along with a small shift of its pins.
void nudge(Rope& rope) {
    std::vector<Point>& points = rope.strand.points_m;
    for (std::size_t k = 0; k + 1 < rope.pins.size(); ++k) {
        const Pin &a = rope.pins[k], &b = rope.pins[k + 1];
        for (std::size_t i = a.point; i < b.point; ++i) {
            const double share =
                static_cast<double>(i - a.point) / static_cast<double>(b.point - a.point);
            points[i] =
                points[i] + (1.0 - share) * (a.goal_m - a.at_m) + share * (b.goal_m - b.at_m);
        }
    }
    points.back() = rope.pins.back().goal_m;
    for (Pin& pin : rope.pins)
        pin.at_m = pin.goal_m;
    keepChords(rope.strand);
}

void pullOrNudge(Rope& rope) {
    refreshPins(rope);
    const double far_m = farthest_m(rope.pins);
    if (far_m < 1e-7 && rope.chain) return;
    if (far_m < 1e-7 && !rope.awake) return;
    if (far_m < nudge_m && !rope.awake)
        nudge(rope);
    else
        wakeRope(rope);
}

double sum_m(const Strand& strand, std::size_t from, std::size_t to) {
    double sum = 0.0;
    for (std::size_t i = from; i < to; ++i)
        sum += strand.links_m[i];
    return sum;
}

void scale(Strand& strand, std::size_t from, std::size_t to, double by) {
    for (std::size_t i = from; i < to; ++i)
        strand.links_m[i] *= by;
}

// Gives or gathers slack towards the length that is shown; fittings keep theirs.
void gather(Rope& rope, double step_s) {
    Strand& strand = rope.strand;
    const std::size_t links = strand.links_m.size();
    const double whole_m = strand.length_m();
    const double most_m = gather_m_s * step_s;
    const double change_m = std::min(std::max(rope.shown_m - whole_m, -most_m), most_m);
    const double flexible_m = whole_m - strand.links_m.front() - strand.links_m.back();
    if (std::fabs(change_m) < 1e-7 || flexible_m < 1e-3) return;
    scale(strand, 1, links - 1, std::max(0.2, 1.0 + change_m / flexible_m));
}

// Between what holds it a rope is at least as long as that is apart: a taut one gives.
void giveWhereTaut(Rope& rope) {
    for (std::size_t k = 0; k + 1 < rope.pins.size(); ++k) {
        const Pin &a = rope.pins[k], &b = rope.pins[k + 1];
        const bool isFitting = b.point == a.point + 1;
        const double needs_m = apart_m(a.at_m, b.at_m) * 1.005;
        const double has_m = sum_m(rope.strand, a.point, b.point);
        if (!isFitting && needs_m > has_m && has_m > 0.0)
            scale(rope.strand, a.point, b.point, needs_m / has_m);
    }
}

} // namespace

Rope layRope(bench::CableId id, const Span& span, const Course& course, double area_m2) {
    Rope rope;
    rope.id = id;
    rope.span = span;
    rope.strand = strandAlong(withFittings(course),
                              stub_m(course.ends[0], span.width_m),
                              stub_m(course.ends[1], span.width_m));
    rope.shown_m = rope.strand.length_m();
    // Least bend of flexible cable in fixed looms: four times the outer diameter, which is about
    // 2.8 mm for 1 mm2 and 6.5 mm for 10 mm2. Common practice, no source.
    const double area_mm2 = std::min(std::max(area_m2 * 1e6, 0.2), 120.0);
    rope.feel.leastBend_m = 4.0 * 2.8e-3 * std::sqrt(std::sqrt(area_mm2 * std::sqrt(area_mm2)));
    rope.feel.spring_per_s2 = 4000.0 * std::sqrt(area_mm2);
    rope.pins = pinsOf(rope);
    return rope;
}

std::size_t pointAt(const Rope& rope, double along) {
    const std::size_t last = rope.strand.points_m.size() - 1;
    const double point = along * static_cast<double>(last) + 0.5;
    return std::min(std::max(point > 0.0 ? static_cast<std::size_t>(point) : 0, std::size_t{2}),
                    last - 2);
}

double alongOf(const Rope& rope, Point at_m) {
    const std::vector<Point>& points = rope.strand.points_m;
    std::size_t best = 0;
    for (std::size_t i = 1; i < points.size(); ++i)
        if (apart_m(points[i], at_m) < apart_m(points[best], at_m)) best = i;
    return static_cast<double>(best) / static_cast<double>(points.size() - 1);
}

void seatRope(Rope& rope, const Span& span) {
    rope.span = span;
    const Course course = layCourse(span);
    if (farthest_m(pinsOf(rope)) > nudge_m) rope.shown_m = lengthOf(course);
    pullOrNudge(rope);
}

void holdRope(Rope& rope, const std::vector<Hold>& holds) {
    rope.holds = holds;
    pullOrNudge(rope);
}

void wakeRope(Rope& rope) {
    if (!rope.awake && renewLinks(rope.strand)) {
        rope.chain.reset();
        rope.pins.clear();
        refreshPins(rope);
    }
    rope.awake = true;
    rope.touched_s = rope.still_s = 0.0;
}

void sleepRope(Rope& rope) {
    rope.awake = false;
    rope.chain.reset();
}

void lendRope(Rope& rope, double step_s) {
    const double most_m = pinSpeed_m_s * step_s;
    for (Pin& pin : rope.pins) {
        const Point way = pin.goal_m - pin.at_m;
        const double far_m = norm(way);
        pin.at_m = far_m <= most_m ? pin.goal_m : pin.at_m + (most_m / far_m) * way;
    }
    gather(rope, step_s);
    giveWhereTaut(rope);
    // Just pulled at, it slides and its slack falls; then the board takes hold of it.
    rope.feel.friction_m_s2 =
        0.5 + 3.0 * std::min(std::max((rope.touched_s - 0.25) / 0.6, 0.0), 1.0);
    rope.chain->lend(rope.strand, rope.pins, rope.feel, step_s);
}

void fetchRope(Rope& rope, double step_s) {
    const double fastest_m_s = rope.chain->fetch(rope.strand);
    const bool isPulled = farthest_m(rope.pins) > 1e-6;
    rope.touched_s = isPulled ? 0.0 : rope.touched_s + step_s;
    rope.still_s = isPulled || fastest_m_s > stillSpeed_m_s ? 0.0 : rope.still_s + step_s;
}

bool isStill(const Rope& rope) {
    return rope.still_s > stillFor_s || rope.touched_s > longest_s;
}

} // namespace loom::yard

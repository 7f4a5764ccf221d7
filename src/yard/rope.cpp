// SPDX-License-Identifier: MIT
#include "yard/rope.h"

#include "yard/vec.h"

#include <algorithm>
#include <cmath>

namespace loom::yard {

namespace {

constexpr double kOverEdge_m = 0.2; // as far as a hand takes an end over the board's edge
constexpr double kPinSpeed_m_s = 8.0;
constexpr double kGather_m_s = 0.6; // how fast slack is gathered up or given
constexpr double kNudge_m = 0.008;  // a smaller shift of an end moves the whole strand along
constexpr double kStillWithin_m = 0.0006, kStillFor_s = 0.12; // no point goes further in that time
constexpr double kLongest_s = 2.0;   // what still creeps then is held by friction
constexpr double kEvens_per_s = 2.0; // how fast its links become alike again
constexpr double kStretched = 1.01;
constexpr double kHurried_s = 0.2; // after a pull: what is stretched then was pulled too fast
constexpr double kLooseShare = 0.7, kLooseShown_m = 0.35;
constexpr double kShortestStub_m = 0.014;

double stub_m(const Seat& seat, double width_m) {
    return std::max(kShortestStub_m, sleeveStart_m(seat, width_m));
}

Point onBoard(Point p, Point board_m, Point otherwise) {
    if (!isFinite(p)) return otherwise;
    return {std::min(std::max(p.x_m, -kOverEdge_m), board_m.x_m + kOverEdge_m),
            std::min(std::max(p.y_m, -kOverEdge_m), board_m.y_m + kOverEdge_m)};
}

// The line with its fittings, from middle to middle.
std::vector<Point> withFittings(const CableLine& laid) {
    std::vector<Point> line;
    line.push_back(laid.ends[0].terminal_m);
    line.insert(line.end(), laid.points_m.begin(), laid.points_m.end());
    line.push_back(laid.ends[1].terminal_m);
    return line;
}

double lengthOf(const CableLine& laid) {
    return laid.length_m + apart_m(laid.ends[0].terminal_m, laid.points_m.front()) +
           apart_m(laid.ends[1].terminal_m, laid.points_m.back());
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

void keepFittings(Rope& rope) {
    rope.strand.links_m.front() = stub_m(rope.span.ends[0], rope.span.width_m);
    rope.strand.links_m.back() = stub_m(rope.span.ends[1], rope.span.width_m);
}

// A cable that is not joined at both ends lies about with more of its length.
double shownLength_m(const Span& span) {
    const double laid_m = lengthOf(layLine(span));
    if (span.ends[0].joined && span.ends[1].joined) return laid_m;
    return std::max(laid_m, std::min(kLooseShare * span.length_m, kLooseShown_m));
}

// Between two states of one line.
double farthest_m(const std::vector<Point>& a, const std::vector<Point>& b) {
    double most = a.size() == b.size() ? 0.0 : 1.0;
    for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i)
        most = std::max(most, apart_m(a[i], b[i]));
    return most;
}

void refreshPins(Rope& rope) {
    std::vector<Pin> pins = pinsOf(rope);
    if (!holdSamePoints(pins, rope.pins)) rope.chain.reset();
    rope.pins = std::move(pins);
}

// What a clamp or a tab holds stands straight out of it, also where the line has turned already.
void standOut(Rope& rope) {
    std::vector<Point>& points = rope.strand.points_m;
    const auto put = [&](const Seat& seat, Point& next) {
        if (seat.firmness >= 1.0)
            next = seatedAt_m(seat) + stub_m(seat, rope.span.width_m) * seat.leaves;
    };
    put(rope.span.ends[0], points[1]);
    put(rope.span.ends[1], points[points.size() - 2]);
    keepChords(rope.strand);
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

void pull(Rope& rope) {
    refreshPins(rope);
    if (farthest_m(rope.pins) > 1e-7 || (rope.awake && !rope.chain)) wakeRope(rope);
}

double sum_m(const Strand& strand, std::size_t from, std::size_t to) {
    double sum = 0.0;
    for (std::size_t i = from; i < to; ++i)
        sum += strand.links_m[i];
    return sum;
}

// Gives a section so much more length; fittings keep theirs.
void give(Strand& strand, std::size_t from, std::size_t to, double more_m) {
    from = std::max(from, std::size_t{1});
    to = std::min(to, strand.links_m.size() - 1);
    const double has_m = sum_m(strand, from, to);
    if (has_m < 1e-3) return;
    for (std::size_t i = from; i < to; ++i)
        strand.links_m[i] *= std::max(0.2, 1.0 + more_m / has_m);
}

void movePins(Rope& rope, double most_m) {
    std::vector<Pin>& pins = rope.pins;
    for (Pin& pin : pins) {
        const Point way = pin.goal_m - pin.at_m;
        const double far_m = norm(way);
        pin.at_m = far_m <= most_m ? pin.goal_m : pin.at_m + (most_m / far_m) * way;
    }
    // A fitting that is held goes as one piece.
    const auto carry = [](const Pin& end, Pin& next, std::size_t point) {
        if (next.point == point) next.at_m = end.at_m + (next.goal_m - end.goal_m);
    };
    carry(pins.front(), pins[1], 1);
    carry(pins.back(), pins[pins.size() - 2], rope.strand.points_m.size() - 2);
}

// Gives or gathers slack towards the length that is shown.
void gather(Rope& rope, double step_s) {
    Strand& strand = rope.strand;
    const std::size_t links = strand.links_m.size();
    const double most_m = kGather_m_s * step_s;
    const double more_m = std::min(std::max(rope.shown_m - strand.length_m(), -most_m), most_m);
    if (std::fabs(more_m) > 1e-7) give(strand, 1, links - 1, more_m);
    // What was pulled through the hand into one half slides back into the other.
    const double mean_m = sum_m(strand, 1, links - 1) / static_cast<double>(links - 2);
    for (std::size_t i = 1; i + 1 < links; ++i)
        strand.links_m[i] += (mean_m - strand.links_m[i]) * kEvens_per_s * step_s;
}

// A knot may pull further, a stiff bend ask for more room than its cable has length: it gives what
// it is stretched by.
void giveWhereStretched(Rope& rope) {
    double line_m = 0.0;
    for (std::size_t i = 1; i < rope.strand.points_m.size(); ++i)
        line_m += apart_m(rope.strand.points_m[i - 1], rope.strand.points_m[i]);
    const double whole_m = rope.strand.length_m();
    if (line_m < kStretched * whole_m) return;
    give(rope.strand, 1, rope.strand.links_m.size() - 1, line_m - whole_m);
    rope.shown_m = std::max(rope.shown_m, rope.strand.length_m());
}

// Between what holds it a rope is at least as long as that is apart: a taut one gives.
void giveWhereTaut(Rope& rope) {
    if (rope.isTied || rope.touched_s > kHurried_s) giveWhereStretched(rope);
    for (std::size_t k = 0; k + 1 < rope.pins.size(); ++k) {
        const Pin &a = rope.pins[k], &b = rope.pins[k + 1];
        const bool isFitting = b.point == 1 || a.point + 2 == rope.strand.points_m.size();
        const double needs_m = apart_m(a.at_m, b.at_m) * 1.005;
        const double has_m = sum_m(rope.strand, a.point, b.point);
        if (isFitting || needs_m <= has_m) continue;
        give(rope.strand, a.point, b.point, needs_m - has_m);
        rope.shown_m = std::max(rope.shown_m, rope.strand.length_m());
    }
}

} // namespace

Rope layRope(bench::CableId id, const Span& span, const CableLine& laid, double area_m2) {
    Rope rope;
    rope.id = id;
    rope.span = span;
    rope.strand = strandAlong(
        withFittings(laid), stub_m(laid.ends[0], span.width_m), stub_m(laid.ends[1], span.width_m));
    standOut(rope);
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
    // Another end on the same terminal pushes this one a little aside: that wakes nobody.
    const bool stays = apart_m(span.ends[0].terminal_m, rope.span.ends[0].terminal_m) == 0.0 &&
                       apart_m(span.ends[1].terminal_m, rope.span.ends[1].terminal_m) == 0.0;
    rope.span = span;
    keepFittings(rope);
    refreshPins(rope);
    if (stays && !rope.awake && farthest_m(rope.pins) < kNudge_m) return nudge(rope);
    rope.shown_m = shownLength_m(span);
    wakeRope(rope);
}

void holdRope(Rope& rope, const std::vector<Hold>& holds) {
    rope.holds = holds;
    pull(rope);
}

Point withinReach(const Rope& rope, double along, Point goal) {
    const std::size_t point = pointAt(rope, along);
    const double links = static_cast<double>(rope.strand.links_m.size());
    for (int pass = 0; pass < 4; ++pass)
        for (const Pin& pin : rope.pins) {
            if (pin.point == point) continue;
            const std::size_t from = std::min(pin.point, point), to = std::max(pin.point, point);
            const double share = static_cast<double>(to - from) / links;
            const double reach_m =
                std::max(share * rope.span.length_m, sum_m(rope.strand, from, to));
            const Point way = goal - pin.goal_m;
            if (norm(way) > reach_m) goal = pin.goal_m + (reach_m / norm(way)) * way;
        }
    return goal;
}

void wakeRope(Rope& rope) {
    const bool hasChain = rope.awake && !rope.slide;
    rope.slide.reset();
    if (!hasChain && renewLinks(rope.strand)) {
        rope.chain.reset();
        rope.pins.clear();
        refreshPins(rope);
    }
    rope.awake = true;
    rope.touched_s = rope.watched_s = 0.0;
    rope.isStill = false;
    rope.earlier_m = rope.strand.points_m;
}

void sleepRope(Rope& rope) {
    rope.slide.reset();
    rope.awake = false;
    rope.chain.reset();
}

void applyToBodies(Rope& rope, double step_s) {
    movePins(rope, kPinSpeed_m_s * step_s);
    gather(rope, step_s);
    giveWhereTaut(rope);
    // Just pulled at, it slides and its slack falls; then the board takes hold of it.
    rope.feel.friction_m_s2 =
        0.5 + 5.5 * std::min(std::max((rope.touched_s - 0.25) / 0.6, 0.0), 1.0);
    rope.chain->lend(rope.strand, rope.pins, rope.feel, step_s);
}

void readFromBodies(Rope& rope, double step_s) {
    // Friction does not let go of a point that a step's pull cannot move faster than it brakes.
    rope.chain->fetch(rope.strand, rope.feel.friction_m_s2 * step_s * step_s);
    const bool isPulled = farthest_m(rope.pins) > 1e-6;
    rope.touched_s = isPulled ? 0.0 : rope.touched_s + step_s;
    rope.watched_s += step_s;
    if (rope.watched_s < kStillFor_s) return;
    rope.isStill = !isPulled && farthest_m(rope.strand.points_m, rope.earlier_m) < kStillWithin_m;
    rope.earlier_m = rope.strand.points_m;
    rope.watched_s = 0.0;
}

double lag_m(const Rope& rope) {
    return farthest_m(rope.pins);
}

bool isStill(const Rope& rope) {
    return rope.isStill || rope.touched_s > kLongest_s;
}

} // namespace loom::yard

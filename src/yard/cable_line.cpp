// SPDX-License-Identifier: MIT
#include "yard/cable_line.h"

#include "yard/vec.h"

#include <algorithm>
#include <cmath>

namespace loom::yard {

namespace {

constexpr int kCurveSteps = 64;
constexpr double kHandle = 0.20; // how far an end goes on before it turns, of the distance
constexpr double kSlackShare = 1.20, kSlackExtra_m = 0.05;

double finite(double value) {
    return std::isfinite(value) ? std::min(std::max(value, -50.0), 50.0) : 0.0;
}

Point finite(Point v) {
    return {finite(v.x_m), finite(v.y_m)};
}

// -1..1, from the seed.
double wander(unsigned seed, unsigned which) {
    unsigned h = (seed + 1u) * 2654435761u + which * 40503u;
    h ^= h >> 15;
    h *= 0x2c1b3c6du;
    h ^= h >> 13;
    return static_cast<double>(h & 0xffffu) / 32767.5 - 1.0;
}

// A cubic that leaves both ends as it should, and a belly that takes up the slack without turning
// the ends: 16 t^2 (1-t)^2 is 0 with no slope at both, 1 in the middle.
struct Curve {
    Point p[4];
    Point belly; // unit
    double deep_m = 0.0;

    Point at(double t) const {
        const double s = 1.0 - t;
        return (s * s * s) * p[0] + (3 * s * s * t) * p[1] + (3 * s * t * t) * p[2] +
               (t * t * t) * p[3] + (deep_m * 16.0 * t * t * s * s) * belly;
    }

    double length_m() const {
        double sum = 0.0;
        Point last = p[0];
        for (int i = 1; i <= 24; ++i) {
            const Point next = at(i / 24.0);
            sum += apart_m(last, next);
            last = next;
        }
        return sum;
    }
};

// The way the slack goes: as asked, or as the ends that are held point, else towards the learner;
// across the cable.
Point bellyOf(const Span& span, Point towards, int side) {
    if (side != 0) return static_cast<double>(side) * turned(towards);
    Point wish{0.0, 0.3};
    for (const Seat& seat : span.ends)
        wish = wish + seat.firmness * seat.leaves;
    const Point either = (wander(span.seed, 4) < 0.0 ? -1.0 : 1.0) * turned(towards);
    const Point aside = wish - dot(wish, towards) * towards;
    return norm(aside) > 0.08 ? unit(aside, either) : either;
}

// Which way an end really leaves: as its terminal holds it, else towards the other end and into
// the belly.
Point direction(const Seat& seat, Point towards, Point belly, double sway) {
    const double soft = 1.0 - seat.firmness;
    const Point free = towards + 0.45 * belly;
    const Point d = unit(seat.firmness * seat.leaves + soft * free, belly);
    return unit(d + (sway * soft) * turned(d), belly);
}

// How the ends of a cable meet its curve.
struct Meeting {
    Point starts[2], leaves[2], belly;
    double straight_m[2]; // how far each end goes on before it turns, when there is no slack
    double opposed = 0.0; // 1: the ends point against each other, so slack makes an S of it

    // slack_m: how much further it swings out.
    Curve with(double slack_m) const {
        Curve curve;
        curve.p[0] = starts[0];
        curve.p[3] = starts[1];
        for (int i = 0; i < 2; ++i)
            curve.p[i + 1] = starts[i] + (straight_m[i] + 0.8 * opposed * slack_m) * leaves[i];
        curve.belly = belly;
        curve.deep_m = (1.0 - opposed) * slack_m;
        return curve;
    }
};

Meeting meetingOf(const Span& span, CableLine& out, int side) {
    const double width_m = std::min(std::max(finite(span.width_m), 1e-4), 0.1);
    Point middle[2];
    for (int i = 0; i < 2; ++i)
        middle[i] = finite(span.ends[i].terminal_m);
    const Point towards = unit(middle[1] - middle[0], {0.0, 1.0});
    Meeting meeting;
    meeting.belly = bellyOf(span, towards, side);
    for (int i = 0; i < 2; ++i) {
        Seat& seat = out.ends[i];
        seat = span.ends[i];
        seat.terminal_m = middle[i];
        seat.leaves = unit(finite(seat.leaves), {0.0, 1.0});
        const double sign = i == 0 ? 1.0 : -1.0;
        const double sway = 0.16 * wander(span.seed, static_cast<unsigned>(i));
        seat.leaves = direction(seat, sign * towards, meeting.belly, sway);
        seat.terminal_m = seatedAt_m(seat);
        meeting.leaves[i] = seat.leaves;
        meeting.starts[i] = seat.terminal_m + sleeveStart_m(seat, width_m) * seat.leaves;
    }
    const Point gap = meeting.starts[1] - meeting.starts[0];
    const double apart = norm(gap), lean = 0.12 * wander(span.seed, 2);
    const Point way = unit(gap, towards);
    for (int i = 0; i < 2; ++i) {
        const double sign = i == 0 ? 1.0 : -1.0;
        // An end that points away from the other needs room to turn round.
        const double away = 1.0 - sign * dot(way, meeting.leaves[i]);
        meeting.straight_m[i] =
            (kHandle * apart + 1.2 * width_m + std::min(0.030, 0.25 * apart + 0.02) * away) *
            (1.0 + sign * lean);
    }
    const Point* l = meeting.leaves;
    meeting.opposed = std::min(std::max(0.2 - dot(l[0], l[1]), 0.0), 1.0);
    // Ends that face each other have no room for an S between them: their slack swings aside.
    const double facing = std::max(0.0, std::min(dot(l[0], way), -dot(l[1], way)));
    meeting.opposed *= 1.0 - facing * facing;
    return meeting;
}

// As much slack as fits the length; none when it is too short already.
Curve fitted(const Meeting& meeting, double length_m) {
    Curve curve = meeting.with(0.0);
    if (curve.length_m() >= length_m) return curve;
    double low = 0.0, high = length_m;
    for (int i = 0; i < 14; ++i) {
        const double middle = 0.5 * (low + high);
        curve = meeting.with(middle);
        (curve.length_m() < length_m ? low : high) = middle;
    }
    return curve;
}

} // namespace

// What a cable is longer than the line is gathered up out of sight, so that long cables do not bury
// the board.
CableLine layLine(const Span& span, const Swing& swing) {
    CableLine out;
    const Meeting meeting = meetingOf(span, out, swing.side);
    const double apart = apart_m(meeting.starts[0], meeting.starts[1]);
    // An S needs room on both sides, so less of its slack is shown.
    const double share = 1.0 + (kSlackShare - 1.0 - 0.1 * meeting.opposed) * swing.slack;
    const double extra_m = kSlackExtra_m * (1.0 - 0.6 * meeting.opposed) * swing.slack;
    const double most = apart * share + extra_m * (1.0 + 0.25 * wander(span.seed, 3));
    const Curve curve = fitted(meeting, std::min(finite(span.length_m), most));
    out.points_m.reserve(kCurveSteps + 1);
    for (int i = 0; i <= kCurveSteps; ++i) {
        out.points_m.push_back(curve.at(static_cast<double>(i) / kCurveSteps));
        if (i > 0)
            out.length_m +=
                apart_m(out.points_m[static_cast<std::size_t>(i) - 1], out.points_m.back());
    }
    return out;
}

} // namespace loom::yard

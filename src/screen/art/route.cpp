// SPDX-License-Identifier: MIT
#include "screen/art/route.h"

#include "bench/catalogue.h"
#include "screen/art/fitting_art.h"
#include "screen/art/ribbon.h"

#include <algorithm>
#include <cmath>

namespace loom::art {

namespace {

constexpr int kCurveSteps = 64;
constexpr float kPointEvery_m = 0.012f; // along a route
constexpr float kBendCounts_m =
    0.07f;                       // a bend of one radian asks for as many points as this length
constexpr float kHandle = 0.20f; // how far an end goes on before it turns, of the distance
// Slack beyond this is left out of the picture, so that long cables do not bury the board.
constexpr float kSlackShare = 1.20f;
constexpr float kSlackExtra_m = 0.05f;

ImVec2 plus(ImVec2 a, ImVec2 b, float share) {
    return ImVec2(a.x + b.x * share, a.y + b.y * share);
}

float lengthOf(ImVec2 v) {
    return std::sqrt(v.x * v.x + v.y * v.y);
}

ImVec2 unit(ImVec2 v, ImVec2 otherwise) {
    const float length = lengthOf(v);
    return length > 1e-6f ? ImVec2(v.x / length, v.y / length) : otherwise;
}

float finite(float value) {
    return std::isfinite(value) ? std::min(std::max(value, -50.0f), 50.0f) : 0.0f;
}

ImVec2 finite(ImVec2 v) {
    return ImVec2(finite(v.x), finite(v.y));
}

// -1..1, from the seed.
float wander(unsigned seed, unsigned which) {
    unsigned h = (seed + 1u) * 2654435761u + which * 40503u;
    h ^= h >> 15;
    h *= 0x2c1b3c6du;
    h ^= h >> 13;
    return static_cast<float>(h & 0xffffu) / 32767.5f - 1.0f;
}

// A cubic that leaves both ends as it should, and a belly that takes up the slack without turning
// the ends: 16 t^2 (1-t)^2 is 0 with no slope at both, 1 in the middle.
struct Curve {
    ImVec2 p[4];
    ImVec2 belly; // unit
    float deep = 0.0f;

    ImVec2 at(float t) const {
        const float s = 1.0f - t;
        const float b0 = s * s * s, b1 = 3 * s * s * t, b2 = 3 * s * t * t, b3 = t * t * t;
        const float hang = deep * 16.0f * t * t * s * s;
        return ImVec2(p[0].x * b0 + p[1].x * b1 + p[2].x * b2 + p[3].x * b3 + belly.x * hang,
                      p[0].y * b0 + p[1].y * b1 + p[2].y * b2 + p[3].y * b3 + belly.y * hang);
    }

    float length() const {
        float sum = 0.0f;
        ImVec2 last = p[0];
        for (int i = 1; i <= 24; ++i) {
            const ImVec2 next = at(static_cast<float>(i) / 24.0f);
            sum += lengthOf(ImVec2(next.x - last.x, next.y - last.y));
            last = next;
        }
        return sum;
    }
};

ImVec2 across(ImVec2 v, ImVec2 axis) {
    const float along = v.x * axis.x + v.y * axis.y;
    return ImVec2(v.x - along * axis.x, v.y - along * axis.y);
}

// The way the slack goes: as the ends that are held point, else towards the learner; across the cable.
ImVec2 bellyOf(const CableSpan& span, ImVec2 towards) {
    ImVec2 wish(0.0f, 0.3f);
    for (const EndSeat& seat : span.ends)
        wish = plus(wish, seat.leaves, seat.stiffness);
    const float side = wander(span.seed, 4) < 0.0f ? -1.0f : 1.0f;
    const ImVec2 either(-towards.y * side, towards.x * side);
    const ImVec2 aside = across(wish, towards);
    return lengthOf(aside) > 0.08f ? unit(aside, either) : either;
}

// Which way an end really leaves: as its terminal holds it, else towards the other end and into the belly.
ImVec2 direction(const EndSeat& seat, ImVec2 towards, ImVec2 belly, float sway) {
    const float soft = 1.0f - seat.stiffness;
    const ImVec2 free(towards.x + 0.45f * belly.x, towards.y + 0.45f * belly.y);
    const ImVec2 d = unit(ImVec2(seat.stiffness * seat.leaves.x + soft * free.x,
                                 seat.stiffness * seat.leaves.y + soft * free.y),
                          belly);
    return unit(ImVec2(d.x - d.y * sway * soft, d.y + d.x * sway * soft), belly);
}

// How the ends of a cable meet its course.
struct Course {
    ImVec2 starts[2], leaves[2], belly;
    float straight_m[2];  // how far each end goes on before it turns, when there is no slack
    float opposed = 0.0f; // 1: the ends point against each other, so slack makes an S of it

    // slack_m: how much further it swings out.
    Curve with(float slack_m) const {
        Curve curve;
        curve.p[0] = starts[0];
        curve.p[3] = starts[1];
        for (int i = 0; i < 2; ++i)
            curve.p[i + 1] = plus(starts[i], leaves[i], straight_m[i] + 0.8f * opposed * slack_m);
        curve.belly = belly;
        curve.deep = (1.0f - opposed) * slack_m;
        return curve;
    }
};

Course courseOf(const CableSpan& span, Route& out, float width_m) {
    ImVec2 middle[2];
    for (int i = 0; i < 2; ++i)
        middle[i] = finite(span.ends[i].terminal_m);
    const ImVec2 towards =
        unit(ImVec2(middle[1].x - middle[0].x, middle[1].y - middle[0].y), ImVec2(0, 1));
    Course course;
    course.belly = bellyOf(span, towards);
    for (int i = 0; i < 2; ++i) {
        EndSeat& seat = out.ends[i];
        seat = span.ends[i];
        seat.terminal_m = middle[i];
        seat.leaves = unit(finite(seat.leaves), ImVec2(0, 1));
        const float sign = i == 0 ? 1.0f : -1.0f;
        const float sway = 0.16f * wander(span.seed, static_cast<unsigned>(i));
        seat.leaves =
            direction(seat, ImVec2(sign * towards.x, sign * towards.y), course.belly, sway);
        seat.terminal_m = seatedAt_m(seat);
        course.leaves[i] = seat.leaves;
        course.starts[i] = plus(seat.terminal_m, seat.leaves, sleeveStart_m(seat, width_m));
    }
    const ImVec2 gap(course.starts[1].x - course.starts[0].x,
                     course.starts[1].y - course.starts[0].y);
    const float apart = lengthOf(gap), lean = 0.12f * wander(span.seed, 2);
    for (int i = 0; i < 2; ++i) {
        const float sign = i == 0 ? 1.0f : -1.0f;
        const ImVec2 way = unit(gap, towards);
        // An end that points away from the other needs room to turn round.
        const float away = 1.0f - sign * (way.x * course.leaves[i].x + way.y * course.leaves[i].y);
        course.straight_m[i] =
            (kHandle * apart + 1.2f * width_m + std::min(0.030f, 0.25f * apart + 0.02f) * away) *
            (1.0f + sign * lean);
    }
    const ImVec2* l = course.leaves;
    course.opposed = std::min(std::max(0.2f - (l[0].x * l[1].x + l[0].y * l[1].y), 0.0f), 1.0f);
    // Ends that face each other have no room for an S between them: their slack swings aside.
    const ImVec2 way = unit(gap, towards);
    const float facing = std::max(
        0.0f, std::min(l[0].x * way.x + l[0].y * way.y, -(l[1].x * way.x + l[1].y * way.y)));
    course.opposed *= 1.0f - facing * facing;
    return course;
}

// As much slack as fits the length; none when it is too short already.
Curve fitted(const Course& course, float length_m) {
    Curve curve = course.with(0.0f);
    if (curve.length() >= length_m) return curve;
    float low = 0.0f, high = length_m;
    for (int i = 0; i < 14; ++i) {
        const float middle = 0.5f * (low + high);
        curve = course.with(middle);
        (curve.length() < length_m ? low : high) = middle;
    }
    return curve;
}

// Points closer together where the line bends.
void resample(const Curve& curve, Route& out) {
    ImVec2 fine[kCurveSteps + 1];
    float along[kCurveSteps + 1], measure[kCurveSteps + 1];
    fine[0] = curve.p[0];
    along[0] = measure[0] = 0.0f;
    ImVec2 before(0, 0);
    for (int i = 1; i <= kCurveSteps; ++i) {
        fine[i] = curve.at(static_cast<float>(i) / kCurveSteps);
        const ImVec2 step(fine[i].x - fine[i - 1].x, fine[i].y - fine[i - 1].y);
        const ImVec2 way = unit(step, before);
        const float bend = i > 1 ? lengthOf(ImVec2(way.x - before.x, way.y - before.y)) : 0.0f;
        along[i] = along[i - 1] + lengthOf(step);
        measure[i] = measure[i - 1] + lengthOf(step) + kBendCounts_m * bend;
        before = way;
    }
    out.drawn_m = along[kCurveSteps];
    const float total = measure[kCurveSteps];
    const int pieces =
        std::min(std::max(static_cast<int>(total / kPointEvery_m), 6), kLinePoints - 4);
    out.points_m.clear();
    out.along_m.clear();
    int k = 0;
    for (int i = 0; i <= pieces; ++i) {
        const float want = total * static_cast<float>(i) / static_cast<float>(pieces);
        while (k + 1 < kCurveSteps && measure[k + 1] < want)
            ++k;
        const float span = measure[k + 1] - measure[k];
        const float share = span > 1e-9f ? std::min(1.0f, (want - measure[k]) / span) : 0.0f;
        out.points_m.push_back(ImVec2(fine[k].x + (fine[k + 1].x - fine[k].x) * share,
                                      fine[k].y + (fine[k + 1].y - fine[k].y) * share));
        out.along_m.push_back(along[k] + (along[k + 1] - along[k]) * share);
    }
}

} // namespace

float sleeveWidth_m(double area_m2) {
    const double area_mm2 = std::min(std::max(area_m2 * 1e6, 0.2), 120.0);
    return static_cast<float>(5.75e-3 * std::pow(area_mm2, 0.316));
}

ImVec2 leaveDirection(bench::PartKind kind, int terminal, int quarterTurns) {
    const bench::PartSpec& spec = bench::spec(kind);
    if (terminal < 0 || terminal >= static_cast<int>(spec.terminals.size())) return ImVec2(0, 1);
    const bench::TerminalSpec& t = spec.terminals[static_cast<std::size_t>(terminal)];
    const double toSide = spec.width_m / 2 - std::fabs(t.x_m);
    const double toEnd = spec.height_m / 2 - std::fabs(t.y_m);
    ImVec2 way = toSide < toEnd ? ImVec2(t.x_m < 0 ? -1.0f : 1.0f, 0.0f)
                                : ImVec2(0.0f, t.y_m < 0 ? -1.0f : 1.0f);
    for (int turn = quarterTurns & 3; turn > 0; --turn)
        way = ImVec2(-way.y, way.x);
    return way;
}

void layRoute(const CableSpan& span, Route& out) {
    const float width_m = std::min(std::max(finite(span.width_m), 1e-4f), 0.1f);
    const Course course = courseOf(span, out, width_m);
    const ImVec2 gap(course.starts[1].x - course.starts[0].x,
                     course.starts[1].y - course.starts[0].y);
    // An S needs room on both sides, so less of its slack is shown.
    const float share = kSlackShare - 0.1f * course.opposed;
    const float extra_m = kSlackExtra_m * (1.0f - 0.6f * course.opposed);
    const float most = lengthOf(gap) * share + extra_m * (1.0f + 0.25f * wander(span.seed, 3));
    out.width_m = width_m;
    resample(fitted(course, std::min(finite(span.length_m), most)), out);
}

RoutePoint pointAlong(const Route& route, float along_m) {
    RoutePoint out{ImVec2(0, 0), ImVec2(1, 0)};
    const std::size_t count = route.points_m.size();
    if (count < 2) return out;
    const auto next = std::lower_bound(route.along_m.begin() + 1, route.along_m.end() - 1, along_m);
    const auto k = static_cast<std::size_t>(next - route.along_m.begin()) - 1;
    const ImVec2 a = route.points_m[k], b = route.points_m[k + 1];
    const float span = route.along_m[k + 1] - route.along_m[k];
    const float share =
        span > 0.0f ? std::min(std::max((along_m - route.along_m[k]) / span, 0.0f), 1.0f) : 0.0f;
    out.at_m = ImVec2(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share);
    out.towards = unit(ImVec2(b.x - a.x, b.y - a.y), ImVec2(1, 0));
    return out;
}

RouteHit nearestOn(const Route& route, ImVec2 at_m) {
    RouteHit hit;
    for (std::size_t i = 0; i + 1 < route.points_m.size(); ++i) {
        const ImVec2 a = route.points_m[i], b = route.points_m[i + 1];
        const ImVec2 d(b.x - a.x, b.y - a.y), q(at_m.x - a.x, at_m.y - a.y);
        const float span = d.x * d.x + d.y * d.y;
        const float share =
            span > 0.0f ? std::min(std::max((q.x * d.x + q.y * d.y) / span, 0.0f), 1.0f) : 0.0f;
        const float away = lengthOf(ImVec2(q.x - d.x * share, q.y - d.y * share));
        if (away < hit.distance_m) {
            hit.distance_m = away;
            hit.along_m = route.along_m[i] + (route.along_m[i + 1] - route.along_m[i]) * share;
        }
    }
    return hit;
}

namespace {

EndSeat seatOf(const bench::Bench& bench, const bench::Cable& cable, int end) {
    const bench::CableEnd& from = cable.ends[static_cast<std::size_t>(end)];
    EndSeat seat;
    seat.kind = from.kind;
    seat.stiffness = 0.0f;
    const bench::Part* part = from.at ? bench::findPart(bench, from.at->part) : nullptr;
    const bench::PartSpec* spec = part ? &bench::spec(part->kind) : nullptr;
    if (!spec || from.at->terminal >= spec->terminals.size()) {
        seat.terminal_m =
            ImVec2(static_cast<float>(from.loose_m.x_m), static_cast<float>(from.loose_m.y_m));
        return seat;
    }
    const bench::Point at = bench::terminalAt(bench, *from.at);
    seat.joined = true;
    seat.terminal_m = ImVec2(static_cast<float>(at.x_m), static_cast<float>(at.y_m));
    seat.leaves = leaveDirection(part->kind, from.at->terminal, part->quarterTurns);
    const bench::TerminalKind kind = spec->terminals[from.at->terminal].kind;
    const bool isStud = kind == bench::TerminalKind::StudM6 || kind == bench::TerminalKind::StudM8;
    seat.stiffness = isStud ? 0.62f : 1.0f;
    const std::vector<bench::EndRef> ends = bench::endsAt(bench, *from.at);
    seat.sharing = static_cast<int>(ends.size());
    for (std::size_t i = 0; i < ends.size(); ++i) {
        if (ends[i].cable == cable.id && ends[i].end == end) seat.order = static_cast<int>(i);
    }
    return seat;
}

} // namespace

CableSpan spanOf(const bench::Bench& bench, const bench::Cable& cable) {
    CableSpan span;
    span.ends[0] = seatOf(bench, cable, 0);
    span.ends[1] = seatOf(bench, cable, 1);
    span.length_m = static_cast<float>(cable.length_m);
    span.width_m = sleeveWidth_m(cable.area_m2);
    span.seed = cable.id.number;
    return span;
}

} // namespace loom::art

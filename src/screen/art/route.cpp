// SPDX-License-Identifier: MIT
#include "screen/art/route.h"

#include "screen/art/ribbon.h"
#include "yard/cable_line.h"

#include <algorithm>
#include <cmath>

namespace loom::art {

namespace {

constexpr float kPointEvery_m = 0.012f; // along a route
constexpr float kBendCounts_m =
    0.07f;                        // a bend of one radian asks for as many points as this length
constexpr int kPiecesBetween = 4; // a smoothed strand has so many between two of its points

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

ImVec2 onScreen(bench::Point p) {
    return ImVec2(static_cast<float>(p.x_m), static_cast<float>(p.y_m));
}

bench::Point onBoard(ImVec2 p) {
    return {p.x, p.y};
}

yard::Seat seatOf(const EndSeat& seat) {
    yard::Seat out;
    out.kind = seat.kind;
    out.joined = seat.joined;
    out.terminal_m = onBoard(seat.terminal_m);
    out.leaves = onBoard(seat.leaves);
    out.firmness = seat.stiffness;
    out.order = seat.order;
    out.sharing = seat.sharing;
    return out;
}

EndSeat seatOf(const yard::Seat& seat) {
    EndSeat out;
    out.kind = seat.kind;
    out.joined = seat.joined;
    out.terminal_m = onScreen(seat.terminal_m);
    out.leaves = onScreen(seat.leaves);
    out.stiffness = static_cast<float>(seat.firmness);
    out.order = seat.order;
    out.sharing = seat.sharing;
    return out;
}

// A curve through the points p1 and p2 of four in a row, at share t between the two.
// Source: E. Catmull, R. Rom, "A class of local interpolating splines" (1974), uniform.
ImVec2 between(const ImVec2* p, float t) {
    const float a = t * (t * (2.0f - t) - 1.0f), b = t * t * (3.0f * t - 5.0f) + 2.0f,
                c = t * (t * (4.0f - 3.0f * t) + 1.0f), d = t * t * (t - 1.0f);
    return ImVec2(0.5f * (a * p[0].x + b * p[1].x + c * p[2].x + d * p[3].x),
                  0.5f * (a * p[0].y + b * p[1].y + c * p[2].y + d * p[3].y));
}

// Points closer together where the line bends.
void resample(const std::vector<ImVec2>& fine, Route& out) {
    const std::size_t last = fine.size() - 1;
    std::vector<float> along(fine.size()), measure(fine.size());
    ImVec2 before(0, 0);
    for (std::size_t i = 1; i <= last; ++i) {
        const ImVec2 step(fine[i].x - fine[i - 1].x, fine[i].y - fine[i - 1].y);
        const ImVec2 way = unit(step, before);
        const float bend = i > 1 ? lengthOf(ImVec2(way.x - before.x, way.y - before.y)) : 0.0f;
        along[i] = along[i - 1] + lengthOf(step);
        measure[i] = measure[i - 1] + lengthOf(step) + kBendCounts_m * bend;
        before = way;
    }
    out.drawn_m = along[last];
    const float total = measure[last];
    const int pieces =
        std::min(std::max(static_cast<int>(total / kPointEvery_m), 6), kLinePoints - 4);
    out.points_m.clear();
    out.along_m.clear();
    std::size_t k = 0;
    for (int i = 0; i <= pieces; ++i) {
        const float want = total * static_cast<float>(i) / static_cast<float>(pieces);
        while (k + 1 < last && measure[k + 1] < want)
            ++k;
        const float span = measure[k + 1] - measure[k];
        const float share = span > 1e-9f ? std::min(1.0f, (want - measure[k]) / span) : 0.0f;
        out.points_m.push_back(ImVec2(fine[k].x + (fine[k + 1].x - fine[k].x) * share,
                                      fine[k].y + (fine[k + 1].y - fine[k].y) * share));
        out.along_m.push_back(along[k] + (along[k + 1] - along[k]) * share);
    }
}

// The strand's own line, but ending where the cable's ends are shown this frame: what the strand
// lags behind is shared out along it.
std::vector<ImVec2> reaching(const std::vector<bench::Point>& strand, ImVec2 from, ImVec2 to) {
    std::vector<ImVec2> points;
    const ImVec2 first = onScreen(strand.front()), last = onScreen(strand.back());
    const float count = static_cast<float>(strand.size() - 1);
    for (std::size_t i = 0; i < strand.size(); ++i) {
        const float share = static_cast<float>(i) / count;
        const ImVec2 p = onScreen(strand[i]);
        points.push_back(
            ImVec2(p.x + (1.0f - share) * (from.x - first.x) + share * (to.x - last.x),
                   p.y + (1.0f - share) * (from.y - first.y) + share * (to.y - last.y)));
    }
    return points;
}

std::vector<ImVec2> smoothed(const std::vector<ImVec2>& points) {
    std::vector<ImVec2> fine;
    const std::size_t last = points.size() - 1;
    for (std::size_t i = 0; i < last; ++i) {
        const ImVec2 p[4] = {
            points[i > 0 ? i - 1 : 0], points[i], points[i + 1], points[std::min(i + 2, last)]};
        for (int k = 0; k < kPiecesBetween; ++k)
            fine.push_back(between(p, static_cast<float>(k) / kPiecesBetween));
    }
    fine.push_back(points[last]);
    return fine;
}

// Takes off as much of the line's end as the fitting covers, and tells which way the fitting lies.
ImVec2 trimmed(std::vector<ImVec2>& line, float by_m) {
    const ImVec2 end = line.back();
    while (line.size() > 2 && lengthOf(ImVec2(line[line.size() - 2].x - end.x,
                                              line[line.size() - 2].y - end.y)) < by_m)
        line.pop_back();
    const ImVec2 next = line[line.size() - 2];
    const ImVec2 way = unit(ImVec2(next.x - end.x, next.y - end.y), ImVec2(0, 1));
    line.back() = ImVec2(end.x + way.x * by_m, end.y + way.y * by_m);
    return way;
}

} // namespace

float sleeveWidth_m(double area_m2) {
    return static_cast<float>(yard::sleeveWidth_m(area_m2));
}

ImVec2 leaveDirection(bench::PartKind kind, int terminal, int quarterTurns) {
    return onScreen(yard::leaveDirection(kind, terminal, quarterTurns));
}

ImVec2 seatedAt_m(const EndSeat& seat) {
    return onScreen(yard::seatedAt_m(seatOf(seat)));
}

float sleeveStart_m(const EndSeat& seat, float width_m) {
    return static_cast<float>(yard::sleeveStart_m(seatOf(seat), width_m));
}

void layRoute(const CableSpan& span, Route& out) {
    yard::Span laid;
    for (int i = 0; i < 2; ++i)
        laid.ends[i] = seatOf(span.ends[i]);
    laid.length_m = span.length_m;
    laid.width_m = span.width_m;
    laid.seed = span.seed;
    const yard::CableLine line = yard::layLine(laid);
    std::vector<ImVec2> fine;
    for (const bench::Point& p : line.points_m)
        fine.push_back(onScreen(p));
    out.width_m = std::min(std::max(finite(span.width_m), 1e-4f), 0.1f);
    for (int i = 0; i < 2; ++i)
        out.ends[i] = seatOf(line.ends[i]);
    resample(fine, out);
}

void followStrand(const CableSpan& span, const std::vector<bench::Point>& strand, Route& out) {
    if (strand.size() < 4) return layRoute(span, out);
    out.width_m = span.width_m;
    for (int i = 0; i < 2; ++i) {
        out.ends[i] = span.ends[i];
        out.ends[i].terminal_m = seatedAt_m(span.ends[i]);
    }
    std::vector<ImVec2> line =
        smoothed(reaching(strand, out.ends[0].terminal_m, out.ends[1].terminal_m));
    for (const int i : {1, 0}) {
        EndSeat& seat = out.ends[i];
        const ImVec2 way = trimmed(line, std::max(0.0f, sleeveStart_m(seat, span.width_m)));
        if (seat.stiffness < 1.0f) seat.leaves = way;
        std::reverse(line.begin(), line.end());
    }
    resample(line, out);
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

CableSpan spanOf(const bench::Bench& bench, const bench::Cable& cable) {
    const yard::Span span = yard::spanOf(bench, cable);
    CableSpan out;
    for (int i = 0; i < 2; ++i)
        out.ends[i] = seatOf(span.ends[i]);
    out.length_m = static_cast<float>(span.length_m);
    out.width_m = static_cast<float>(span.width_m);
    out.seed = span.seed;
    return out;
}

} // namespace loom::art

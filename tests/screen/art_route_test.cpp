// SPDX-License-Identifier: MIT
#include "bench/catalogue.h"
#include "screen/art/route.h"

#include <cmath>
#include <doctest/doctest.h>
#include <limits>

using namespace loom;

namespace {

art::EndSeat seat(float x_m, float y_m, float dx, float dy, float stiffness = 1.0f) {
    art::EndSeat s;
    s.joined = true;
    s.terminal_m = ImVec2(x_m, y_m);
    s.leaves = ImVec2(dx, dy);
    s.stiffness = stiffness;
    return s;
}

art::Route routed(const art::EndSeat& a, const art::EndSeat& b, float length_m, unsigned seed = 1) {
    art::CableSpan span;
    span.ends[0] = a;
    span.ends[1] = b;
    span.length_m = length_m;
    span.seed = seed;
    art::Route route;
    art::layRoute(span, route);
    return route;
}

float lowest(const art::Route& route) {
    float y = -1e9f;
    for (const ImVec2& p : route.points_m)
        y = std::fmax(y, p.y);
    return y;
}

bool isFinite(const art::Route& route) {
    for (const ImVec2& p : route.points_m)
        if (!std::isfinite(p.x) || !std::isfinite(p.y)) return false;
    return std::isfinite(route.drawn_m);
}

} // namespace

TEST_CASE("a cable leaves its terminals the way they let it") {
    const art::Route route = routed(seat(0.1f, 0.1f, 0, 1), seat(0.5f, 0.12f, 0, 1), 0.6f);
    REQUIRE(route.points_m.size() >= 6);
    const art::RoutePoint first = art::pointAlong(route, 0.002f);
    const art::RoutePoint last = art::pointAlong(route, route.drawn_m - 0.002f);
    CHECK(first.towards.y > 0.95f); // down out of the first
    CHECK(last.towards.y < -0.95f); // and up into the second
    CHECK(std::hypot(route.points_m.front().x - 0.1f, route.points_m.front().y - 0.1f) < 0.02);
    CHECK(std::hypot(route.points_m.back().x - 0.5f, route.points_m.back().y - 0.12f) < 0.02);
}

TEST_CASE("a longer cable hangs lower, and no cable buries the board") {
    const auto at = [](float length_m) {
        return routed(seat(0.1f, 0.1f, 0, 1), seat(0.5f, 0.1f, 0, 1), length_m);
    };
    CHECK(lowest(at(0.52f)) > lowest(at(0.42f)) + 0.005f);
    CHECK(lowest(at(20.0f)) < 0.45f);
    CHECK(at(20.0f).drawn_m < 1.0f);
}

TEST_CASE("a cable that is too short for its distance still joins its ends smoothly") {
    const art::Route route = routed(seat(0.1f, 0.1f, 0, -1), seat(0.9f, 0.5f, 0, 1), 0.05f);
    CHECK(route.drawn_m >= 0.85f);
    for (std::size_t i = 1; i + 1 < route.points_m.size(); ++i) {
        const ImVec2 a = route.points_m[i - 1], b = route.points_m[i], c = route.points_m[i + 1];
        const float dot = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
        CHECK(dot > 0.0f); // no kink
    }
}

TEST_CASE("the same span gives the same line, and another cable beside it another") {
    const art::EndSeat a = seat(0.1f, 0.1f, 0, -1, 0.6f), b = seat(0.4f, 0.2f, -1, 0, 0.6f);
    const art::Route one = routed(a, b, 0.5f, 7), same = routed(a, b, 0.5f, 7),
                     other = routed(a, b, 0.5f, 8);
    REQUIRE(one.points_m.size() == same.points_m.size());
    for (std::size_t i = 0; i < one.points_m.size(); ++i) {
        CHECK(one.points_m[i].x == same.points_m[i].x);
        CHECK(one.points_m[i].y == same.points_m[i].y);
    }
    const art::RoutePoint p = art::pointAlong(one, one.drawn_m * 0.5f),
                          q = art::pointAlong(other, other.drawn_m * 0.5f);
    CHECK(std::hypot(p.at_m.x - q.at_m.x, p.at_m.y - q.at_m.y) > 0.0005);
}

TEST_CASE("absurd numbers still give a finite line") {
    const float nan = std::numeric_limits<float>::quiet_NaN(),
                inf = std::numeric_limits<float>::infinity();
    CHECK(isFinite(routed(seat(nan, inf, nan, 0), seat(-inf, 0, 0, 0), nan)));
    CHECK(isFinite(routed(seat(0.2f, 0.2f, 0, 1), seat(0.2f, 0.2f, 0, 1), 0.0f)));
    CHECK(isFinite(routed(seat(0.2f, 0.2f, 0, 1), seat(0.2f, 0.2f, 0, -1), 5.0f)));
    CHECK(isFinite(routed(seat(1e30f, 0, 1, 0), seat(-1e30f, 0, 1, 0), 1e30f)));
}

TEST_CASE("a point on the line is found on it") {
    const art::Route route = routed(seat(0.1f, 0.1f, 1, 0), seat(0.6f, 0.4f, 0, -1), 0.8f);
    const art::RoutePoint middle = art::pointAlong(route, 0.37f * route.drawn_m);
    const art::RouteHit on = art::nearestOn(route, middle.at_m);
    CHECK(on.distance_m < 1e-4f);
    CHECK(std::fabs(on.along_m - 0.37f * route.drawn_m) < 0.003f);
    const ImVec2 aside(middle.at_m.x - 0.01f * middle.towards.y,
                       middle.at_m.y + 0.01f * middle.towards.x);
    CHECK(std::fabs(art::nearestOn(route, aside).distance_m - 0.01f) < 0.002f);
}

TEST_CASE("thicker conductors have thicker sleeves") {
    float last = 0.0f;
    for (const double area_mm2 : {0.5, 0.75, 1.0, 2.5, 6.0, 10.0, 25.0}) {
        const float width = art::sleeveWidth_m(area_mm2 * 1e-6);
        CHECK(width > last);
        last = width;
    }
    CHECK(std::fabs(art::sleeveWidth_m(10e-6) * 800.0f - 9.5f) < 1.5f); // as drawn in the target
}

TEST_CASE("cables leave tabs and clamps outwards, turned with the part") {
    const ImVec2 coil = art::leaveDirection(bench::PartKind::Relay, 3, 0);
    CHECK(coil.y == 1.0f);
    const ImVec2 upper = art::leaveDirection(bench::PartKind::Block, 0, 0);
    CHECK(upper.y == -1.0f);
    const ImVec2 lower = art::leaveDirection(bench::PartKind::Block, 1, 0);
    CHECK(lower.y == 1.0f);
    const ImVec2 turned =
        art::leaveDirection(bench::PartKind::Relay, 3, 1); // a quarter clockwise: down becomes left
    CHECK(turned.x == -1.0f);
    CHECK(std::hypot(art::leaveDirection(bench::PartKind::Relay, 99, 0).x,
                     art::leaveDirection(bench::PartKind::Relay, 99, 0).y) == doctest::Approx(1.0));
}

TEST_CASE("ends that share a clamp lie side by side, and a loose end where it was put down") {
    bench::Bench bench;
    bench::Part block;
    block.id = {1};
    block.kind = bench::PartKind::Block;
    block.ref = "X1";
    block.at_m = {0.5, 0.3};
    bench.parts.push_back(block);
    for (unsigned i = 0; i < 2; ++i) {
        bench::Cable cable;
        cable.id = {2 + i};
        cable.ends[0].at = bench::TerminalRef{{1}, 1};
        cable.ends[1].loose_m = {0.4 + 0.2 * i, 0.6};
        bench.cables.push_back(cable);
    }
    art::Route routes[2];
    for (int i = 0; i < 2; ++i)
        art::layRoute(art::spanOf(bench, bench.cables[static_cast<std::size_t>(i)]), routes[i]);
    CHECK(routes[0].ends[0].joined);
    CHECK_FALSE(routes[0].ends[1].joined);
    CHECK(std::fabs(routes[0].ends[0].terminal_m.x - routes[1].ends[0].terminal_m.x) > 0.005f);
    CHECK(std::fabs(routes[1].ends[1].terminal_m.x - 0.6f) < 1e-6f);
    bench.cables[0].ends[0].at = bench::TerminalRef{{77}, 3}; // no such part
    art::layRoute(art::spanOf(bench, bench.cables[0]), routes[0]);
    CHECK(isFinite(routes[0]));
    CHECK_FALSE(routes[0].ends[0].joined);
}

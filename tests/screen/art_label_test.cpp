// SPDX-License-Identifier: MIT
#include "screen/art_studio.h"
#include "screen/board/label_art.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace loom;

namespace {

art::Route straight(float y_m) {
    art::CableSpan span;
    for (int i = 0; i < 2; ++i) {
        span.ends[i].terminal_m = ImVec2(i == 0 ? 0.1f : 0.9f, y_m);
        span.ends[i].leaves = ImVec2(i == 0 ? 1.0f : -1.0f, 0.0f);
    }
    span.length_m = 0.1f;
    art::Route route;
    art::layRoute(span, route);
    return route;
}

const art::BoardView view{ImVec2(0, 0), 800.0f};

} // namespace

TEST_CASE("a label lies on the middle of its cable when nothing is in the way") {
    test::Studio studio;
    const art::Route route = straight(0.3f);
    std::vector<art::LabelSpot> spots;
    art::placeLabels(view, studio.fonts(), {{&route, "P-06"}}, {}, spots);
    REQUIRE(spots.size() == 1);
    CHECK(std::fabs(spots[0].centre_px.x - 400.0f) < 8.0f);
    CHECK(std::fabs(spots[0].centre_px.y - 240.0f) < 8.0f);
    CHECK(spots[0].box_px.width() > 30.0f);
}

TEST_CASE("a label covers no obstacle and no other label") {
    test::Studio studio;
    const art::Route routes[3] = {straight(0.300f), straight(0.305f), straight(0.310f)};
    const std::vector<art::Box> obstacles = {{ImVec2(330, 200), ImVec2(470, 290)},
                                             {ImVec2(100, 200), ImVec2(180, 290)}};
    std::vector<art::LabelSpot> spots;
    art::placeLabels(view,
                     studio.fonts(),
                     {{&routes[0], "P-01"}, {&routes[1], "P-02"}, {&routes[2], "P-03"}},
                     obstacles,
                     spots);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        for (const art::Box& obstacle : obstacles)
            CHECK_FALSE(spots[i].box_px.touches(obstacle));
        for (std::size_t k = 0; k < i; ++k)
            CHECK_FALSE(spots[i].box_px.touches(spots[k].box_px));
    }
}

TEST_CASE("a label stays where it is while that place is free") {
    test::Studio studio;
    const art::Route route = straight(0.3f);
    std::vector<art::Box> obstacles = {{ImVec2(360, 200), ImVec2(440, 290)}};
    std::vector<art::LabelSpot> spots;
    art::placeLabels(view, studio.fonts(), {{&route, "P-06"}}, obstacles, spots);
    const float driven = spots[0].along;
    CHECK(std::fabs(driven - 0.5f) > 0.04f);
    obstacles.clear(); // the middle is free again: no reason to wander back
    art::placeLabels(view, studio.fonts(), {{&route, "P-06"}}, obstacles, spots);
    CHECK(spots[0].along == driven);
    obstacles = {spots[0].box_px}; // now it must move
    art::placeLabels(view, studio.fonts(), {{&route, "P-06"}}, obstacles, spots);
    CHECK(spots[0].along != driven);
}

TEST_CASE("a cable without a label has no spot") {
    test::Studio studio;
    const art::Route route = straight(0.3f);
    std::vector<art::LabelSpot> spots;
    art::placeLabels(view, studio.fonts(), {{&route, ""}, {nullptr, "P-02"}}, {}, spots);
    CHECK(spots[0].along < 0.0f);
    CHECK(spots[1].along < 0.0f);
}

// SPDX-License-Identifier: MIT
// Layout: for every size of window, nothing overlaps, everything is inside, nothing is too small.
#include "screen/kit/layout.h"

#include <doctest/doctest.h>
#include <string>
#include <vector>

using namespace loom::screen;

namespace {

struct Named {
    std::string name;
    Rect rect;
};

std::vector<Named> controlsOf(const Layout& layout) {
    std::vector<Named> out{{"status", layout.status},
                           {"buttons", layout.buttons},
                           {"board", layout.board},
                           {"events", layout.events},
                           {"tray", layout.tray},
                           {"rail", layout.rail}};
    if (layout.form == Form::Wide) {
        out.push_back({"name", layout.name});
        out.push_back({"paper", layout.paper});
    } else {
        out.push_back({"strip", layout.strip});
    }
    return out;
}

bool overlap(const Rect& a, const Rect& b) {
    return a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y;
}

void checkAt(float width, float height, float larger, bool trayOpen) {
    CAPTURE(width);
    CAPTURE(height);
    CAPTURE(larger);
    CAPTURE(trayOpen);
    const Layout layout = layOut(width, height, larger, trayOpen);
    REQUIRE(layout.form != Form::TooSmall);
    CHECK(layout.unit >= 1.0f);
    const std::vector<Named> all = controlsOf(layout);
    const float touch = 44.0f * layout.unit - 0.01f;
    for (const Named& one : all) {
        CAPTURE(one.name);
        CHECK(one.rect.min.x >= 0.0f);
        CHECK(one.rect.min.y >= 0.0f);
        CHECK(one.rect.max.x <= width + 0.01f);
        CHECK(one.rect.max.y <= height + 0.01f);
        CHECK(one.rect.width() >= touch);
        CHECK(one.rect.height() >= touch);
        for (const Named& other : all) {
            if (other.name == one.name) continue;
            CAPTURE(other.name);
            CHECK_FALSE(overlap(one.rect, other.rect));
        }
    }
    // The board is what it is all about.
    const float share = layout.board.width() * layout.board.height() / (width * height);
    CHECK(share > 0.34f);
    CHECK(layout.board.width() >= 440.0f);
    CHECK(layout.board.height() >= 280.0f);
    // Three buttons side by side.
    CHECK(layout.buttons.width() >= 3.0f * touch + 16.0f * layout.unit);
    if (layout.form == Form::Tablet) {
        CHECK(layout.leafTab.width() >= touch);
        CHECK(layout.leafTab.height() >= touch);
        CHECK(overlap(layout.leafTab, layout.board));
        CHECK(layout.paper.max.x <= width - touch); // somewhere to press beside it
        CHECK(layout.paper.max.y <= height + 0.01f);
    }
}

} // namespace

TEST_CASE("the controls stand in their places at every size of window") {
    for (float width = 600.0f; width <= 2600.0f; width += 67.0f)
        for (float height = 600.0f; height <= 1500.0f; height += 53.0f)
            for (const bool trayOpen : {true, false})
                checkAt(width, height, 1.0f, trayOpen);
}

TEST_CASE("a stand's larger controls never push the bench out") {
    for (const auto& [width, height] : std::vector<std::pair<float, float>>{
             {1280, 800}, {1920, 1080}, {1080, 1920}, {800, 1280}, {1024, 768}, {600, 600}})
        checkAt(width, height, 1.3f, true);
    CHECK(layOut(1920, 1080, 1.3f).unit > layOut(1920, 1080).unit * 1.2f);
}

TEST_CASE("the two target sizes are laid out as drawn") {
    const Layout bench = layOut(1280, 800);
    CHECK(bench.form == Form::Wide);
    CHECK(bench.unit == 1.0f);
    CHECK(bench.board.min.x == doctest::Approx(330).epsilon(0.01));
    CHECK(bench.board.max.x == doctest::Approx(1178).epsilon(0.01));
    CHECK(bench.board.min.y == doctest::Approx(64).epsilon(0.01));
    CHECK(bench.board.max.y == doctest::Approx(630).epsilon(0.01));
    const Layout tablet = layOut(768, 1024);
    CHECK(tablet.form == Form::Tablet);
    CHECK(tablet.board.min.y == doctest::Approx(144).epsilon(0.01));
    CHECK(tablet.board.max.y == doctest::Approx(644).epsilon(0.01));
    CHECK(tablet.tray.min.y == doctest::Approx(846).epsilon(0.01));
}

TEST_CASE("forms follow the window") {
    CHECK(layOut(1000, 700).form == Form::Wide);
    CHECK(layOut(999, 700).form == Form::Tablet);
    CHECK(layOut(1200, 1300).form == Form::Tablet);
    CHECK(layOut(599, 900).form == Form::TooSmall);
    CHECK(layOut(900, 599).form == Form::TooSmall);
    CHECK(layOut(0, 0).form == Form::TooSmall);
    const float nothing = 0.0f;
    CHECK(layOut(nothing / nothing, 800).form == Form::TooSmall);
}

TEST_CASE("a shut tray gives its place to the board") {
    const Layout open = layOut(1280, 800), shut = layOut(1280, 800, 1.0f, false);
    CHECK(shut.board.height() > open.board.height() + 40.0f);
}

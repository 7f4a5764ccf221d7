// SPDX-License-Identifier: MIT
// Cables drawn where they lie in the yard. With LOOM_SHOTS naming a folder, a picture of Pippin's
// whole loom is written there to be looked at.
#include "assets/embedded.h"
#include "bench/file.h"
#include "screen/art/cable_art.h"
#include "screen/art/part_art.h"
#include "screen/art/route.h"
#include "screen/art_studio.h"
#include "yard/yard.h"

#include <cmath>
#include <cstdlib>
#include <doctest/doctest.h>

using namespace loom;

namespace {

bench::Bench pippin() {
    const Embedded* file = findEmbedded("assets/benches/pippin.loom.json");
    REQUIRE(file != nullptr);
    auto outcome = bench::fromJson({reinterpret_cast<const char*>(file->bytes), file->size});
    REQUIRE(bool(outcome));
    return outcome.value();
}

float apart(ImVec2 a, ImVec2 b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

void drawLoom(test::Studio& studio,
              ImDrawList* list,
              const bench::Bench& bench,
              const yard::Yard& yard,
              const art::BoardView& view) {
    for (const bench::Part& part : bench.parts) {
        art::PartLook look;
        look.kind = part.kind;
        look.ref = part.ref.c_str();
        look.rating = part.rating;
        look.quarterTurns = part.quarterTurns;
        look.px_per_m = view.px_per_m;
        look.centre =
            view.toScreen({static_cast<float>(part.at_m.x_m), static_cast<float>(part.at_m.y_m)});
        art::drawPart(list, studio.pictures(), studio.fonts(), look);
    }
    art::Route route;
    for (const bench::Cable& cable : bench.cables) {
        art::followStrand(art::spanOf(bench, cable), *yard.strand(cable.id), route);
        art::CableLook look;
        look.sleeve = cable.sleeve;
        look.area_m2 = cable.area_m2;
        art::drawCableShadow(list, view, route, look);
        art::drawCable(list, studio.pictures(), view, route, look);
    }
}

} // namespace

TEST_CASE("a cable is drawn along its strand, from sleeve to sleeve, without a kink") {
    const bench::Bench bench = pippin();
    const yard::Yard yard(bench);
    art::Route route;
    for (const bench::Cable& cable : bench.cables) {
        CAPTURE(cable.label);
        const auto& strand = *yard.strand(cable.id);
        art::followStrand(art::spanOf(bench, cable), strand, route);
        REQUIRE(route.points_m.size() >= 6);
        for (const bench::Point& p : strand)
            CHECK(art::nearestOn(route, {static_cast<float>(p.x_m), static_cast<float>(p.y_m)})
                      .distance_m < 0.021f); // nowhere further off than a fitting is long
        for (std::size_t i = 1; i + 1 < route.points_m.size(); ++i) {
            const ImVec2 a = route.points_m[i - 1], b = route.points_m[i],
                         c = route.points_m[i + 1];
            const float dot = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
            // Only where a terminal points the other way may it turn back, close by its fitting.
            const float from_end_m = std::fmin(route.along_m[i], route.drawn_m - route.along_m[i]);
            CHECK((from_end_m < 0.03f || dot > 0.0f));
        }
    }
}

TEST_CASE("a cable whose strand lags behind is still drawn to its ends") {
    bench::Bench bench = pippin();
    const yard::Yard yard(bench);
    bench::Cable& cable = bench.cables.front();
    cable.ends[1].at.reset();
    cable.ends[1].loose_m = {1.2, 0.3}; // the yard has not heard of it yet
    art::Route route;
    art::followStrand(art::spanOf(bench, cable), *yard.strand(cable.id), route);
    CHECK(apart(route.ends[1].terminal_m, {1.2f, 0.3f}) < 1e-6f);
    CHECK(apart(route.points_m.back(), {1.2f, 0.3f}) < 0.035f); // behind its ring
}

TEST_CASE("the whole loom in one picture") {
    const bench::Bench bench = pippin();
    yard::Yard yard(bench);
    yard.settle();
    art::BoardView view;
    view.px_per_m = 800.0f;
    test::Studio studio;
    const int width = static_cast<int>(bench.board_m.x_m * 800.0),
              height = static_cast<int>(bench.board_m.y_m * 800.0);
    const auto draw = [&](ImDrawList* list) { drawLoom(studio, list, bench, yard, view); };
    const test::Bitmap picture = studio.shoot(width, height, draw);
    CHECK(studio.missing().empty());
    if (const char* folder = std::getenv("LOOM_SHOTS"))
        CHECK(test::writePixmap(picture, std::string(folder) + "/loom-in-the-yard.ppm"));
}

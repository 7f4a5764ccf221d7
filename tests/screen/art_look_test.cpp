// SPDX-License-Identifier: MIT
// What a learner sees change: lamps, armature, fuses, shimmer, heat. Each row shoots two pictures.
#include "screen/art/board_art.h"
#include "screen/art/cable_art.h"
#include "screen/art/part_art.h"
#include "screen/art_studio.h"
#include "screen/gallery.h"

#include <cmath>
#include <cstdlib>
#include <doctest/doctest.h>

using namespace loom;
using bench::PartKind;

namespace {

const art::Box all{ImVec2(0, 0), ImVec2(400, 240)};

test::Bitmap shootPart(test::Studio& studio, art::PartLook look) {
    look.centre = ImVec2(200, 120);
    look.px_per_m = 1000.0f;
    look.ref = "K1";
    return studio.shoot(400, 240, [&](ImDrawList* list) {
        art::drawPart(list, studio.pictures(), studio.fonts(), look);
    });
}

art::PartLook part(PartKind kind, float position = 0.0f) {
    art::PartLook look;
    look.kind = kind;
    look.position = position;
    return look;
}

const art::BoardView view{ImVec2(0, 0), 800.0f};

art::Route straight() {
    art::CableSpan span;
    for (int i = 0; i < 2; ++i) {
        span.ends[i].terminal_m = ImVec2(i == 0 ? 0.03f : 0.47f, 0.15f);
        span.ends[i].leaves = ImVec2(i == 0 ? 1.0f : -1.0f, 0.0f);
    }
    span.width_m = art::sleeveWidth_m(10e-6);
    span.length_m = 0.1f;
    art::Route route;
    art::layRoute(span, route);
    return route;
}

test::Bitmap shootCable(test::Studio& studio, const art::CableLook& look) {
    const art::Route route = straight();
    return studio.shoot(400, 240, [&](ImDrawList* list) {
        art::drawCable(list, studio.pictures(), view, route, look);
        art::drawCableSmoke(list, studio.pictures(), view, route, look);
    });
}

art::CableLook cable(float current_A, float phase_m = 0.0f) {
    art::CableLook look;
    look.area_m2 = 10e-6;
    look.current_A = current_A;
    look.phase_m = phase_m;
    return look;
}

} // namespace

TEST_CASE("each state of a part looks different from the one before") {
    test::Studio studio;

    struct Row {
        const char* what;
        art::PartLook before, after;
        double least; // share of the picture that changes
    };

    std::vector<Row> rows;
    const auto add =
        [&](const char* what, art::PartLook before, double least, void (*change)(art::PartLook&)) {
            art::PartLook after = before;
            change(after);
            rows.push_back({what, before, after, least});
        };
    add("rocker pressed", part(PartKind::Rocker), 0.005, [](art::PartLook& l) { l.position = 1; });
    add("live lamp", part(PartKind::Rocker, 1), 0.01, [](art::PartLook& l) { l.light = 1; });
    add("button held", part(PartKind::PushButton), 0.005, [](art::PartLook& l) { l.position = 1; });
    add("selector to reverse", part(PartKind::Selector, 1), 0.005, [](art::PartLook& l) {
        l.position = 0;
    });
    add("selector to forward", part(PartKind::Selector, 1), 0.005, [](art::PartLook& l) {
        l.position = 2;
    });
    add("toggle on", part(PartKind::Toggle), 0.003, [](art::PartLook& l) { l.position = 1; });
    add("key in", part(PartKind::Isolator), 0.005, [](art::PartLook& l) { l.position = 1; });
    add("key turned", part(PartKind::Isolator, 1), 0.005, [](art::PartLook& l) { l.position = 2; });
    add("relay pulled in", part(PartKind::Relay), 0.002, [](art::PartLook& l) { l.armature = 1; });
    add("relay welded", part(PartKind::Relay), 0.002, [](art::PartLook& l) {
        l.condition = bench::Condition::Welded;
    });
    add("headlamp", part(PartKind::Headlamp), 0.05, [](art::PartLook& l) { l.light = 0.5f; });
    add("filament gone", part(PartKind::Headlamp), 0.001, [](art::PartLook& l) {
        l.condition = bench::Condition::Open;
    });
    add("horn", part(PartKind::Horn), 0.002, [](art::PartLook& l) { l.sounding = 1; });
    add("blade fitted", part(PartKind::BladeHolder), 0.003, [](art::PartLook& l) {
        l.rating = 7.5;
    });
    add("motor turned", part(PartKind::Motor), 0.005, [](art::PartLook& l) { l.angle_rad = 0.5f; });
    add("motor fast", part(PartKind::Motor), 0.005, [](art::PartLook& l) { l.speed_rad_s = 300; });
    add("motor burnt", part(PartKind::Motor), 0.005, [](art::PartLook& l) {
        l.condition = bench::Condition::Open;
    });
    add("selected", part(PartKind::Relay), 0.005, [](art::PartLook& l) { l.selected = true; });
    add("focused", part(PartKind::Relay), 0.005, [](art::PartLook& l) { l.focused = true; });
    add("lifted", part(PartKind::Relay), 0.005, [](art::PartLook& l) { l.held = true; });
    add("overheated", part(PartKind::Resistor), 0.005, [](art::PartLook& l) { l.temp_K = 700; });
    for (const Row& row : rows) {
        CAPTURE(row.what);
        CHECK(test::changed(shootPart(studio, row.before), shootPart(studio, row.after), all) >
              row.least);
    }
    CHECK(studio.missing() == "");
}

TEST_CASE("a fuse shows its wire whole, then parted") {
    test::Studio studio;
    for (const PartKind kind : {PartKind::StripFuse, PartKind::BladeHolder}) {
        art::PartLook look = part(kind);
        look.rating = kind == PartKind::StripFuse ? 50.0 : 7.5;
        const test::Bitmap whole = shootPart(studio, look);
        look.condition = bench::Condition::Open;
        const test::Bitmap parted = shootPart(studio, look);
        CHECK(test::changed(whole, parted, all) > 0.001);
    }
}

TEST_CASE("the motor's arrow points the other way in reverse") {
    test::Studio studio;
    art::PartLook look = part(PartKind::Motor);
    look.speed_rad_s = 5.0f;
    const test::Bitmap forward = shootPart(studio, look);
    look.speed_rad_s = -5.0f;
    const test::Bitmap reverse = shootPart(studio, look);
    look.speed_rad_s = 0.2f;
    const test::Bitmap still = shootPart(studio, look);
    const art::Box right{ImVec2(345, 40), ImVec2(400, 200)};
    CHECK(test::changed(forward, reverse, right) > 0.005);
    CHECK(test::changed(forward, still, right) > 0.01);
}

TEST_CASE("words stay upright when a part is turned") {
    // The word on the button is wider than high in every position.
    test::Studio studio;
    for (int turns = 0; turns < 4; ++turns) {
        art::PartLook look = part(PartKind::PushButton);
        look.quarterTurns = turns;
        const test::Bitmap shot = shootPart(studio, look);
        const ImVec2 cap = turns == 0   ? ImVec2(200, 110)
                           : turns == 1 ? ImVec2(210, 120)
                           : turns == 2 ? ImVec2(200, 130)
                                        : ImVec2(190, 120);
        int left = 999, right = 0, top = 999, bottom = 0;
        for (int y = static_cast<int>(cap.y) - 18; y < cap.y + 18; ++y)
            for (int x = static_cast<int>(cap.x) - 18; x < cap.x + 18; ++x)
                if (shot.at(x, y)[0] > 200) {
                    left = std::min(left, x);
                    right = std::max(right, x);
                    top = std::min(top, y);
                    bottom = std::max(bottom, y);
                }
        CAPTURE(turns);
        CHECK(right - left > (bottom - top) * 3 / 2);
    }
}

TEST_CASE("no current, no shimmer; more current, more of it") {
    test::Studio studio;
    const test::Bitmap none = shootCable(studio, cable(0.0f));
    CHECK(test::changed(none, shootCable(studio, cable(0.0009f)), all) == 0.0);
    double last = 0.0;
    for (const float current_A : {0.02f, 0.5f, 10.0f, 100.0f}) {
        CAPTURE(current_A);
        const double share = test::changed(none, shootCable(studio, cable(current_A)), all);
        CHECK(share > last * 1.05);
        last = share;
    }
}

TEST_CASE("the shimmer travels with the current and is thin behind") {
    test::Studio studio;
    const test::Bitmap none = shootCable(studio, cable(0.0f));
    // The middle of what the shimmer covers in a window that holds one stroke.
    const auto centre = [&](float current_A, float phase_m) {
        const test::Bitmap shot = shootCable(studio, cable(current_A, phase_m));
        double sum = 0.0, weight = 0.0;
        for (int x = 24; x < 96; ++x)
            for (int y = 100; y < 140; ++y)
                if (std::abs(shot.at(x, y)[1] - none.at(x, y)[1]) > 30) {
                    sum += x;
                    weight += 1.0;
                }
        return weight > 0.0 ? sum / weight : 0.0;
    };
    CHECK(centre(1.0f, 0.065f) > centre(1.0f, 0.055f) + 4.0);
    CHECK(test::changed(shootCable(studio, cable(1.0f)), shootCable(studio, cable(-1.0f)), all) >
          0.001);
    // Standing still under reduced motion: the same phase is the same picture.
    CHECK(test::changed(shootCable(studio, cable(5.0f, 0.02f)),
                        shootCable(studio, cable(5.0f, 0.02f)),
                        all,
                        0) == 0.0);
    // The pattern does not jump when the phase wraps round.
    CHECK(test::changed(shootCable(studio, cable(5.0f, 0.0f)),
                        shootCable(studio, cable(5.0f, 0.092f)),
                        all,
                        30) < 0.002);
}

TEST_CASE("a hot sleeve looks hotter at each step and stays marked when cold again") {
    test::Studio studio;
    const auto at = [&](float temp_K, bench::CableCondition condition) {
        art::CableLook look = cable(0.0f);
        look.temp_K = temp_K;
        look.condition = condition;
        look.time_s = 1.0f;
        return shootCable(studio, look);
    };
    using bench::CableCondition;
    const test::Bitmap cold = at(293.0f, CableCondition::Sound),
                       warm = at(335.0f, CableCondition::Sound);
    CHECK(test::changed(cold, warm, all) == 0.0); // under 70 C nothing is wrong
    const test::Bitmap soft = at(360.0f, CableCondition::Sound),
                       smoking = at(490.0f, CableCondition::Softened);
    const test::Bitmap burning = at(750.0f, CableCondition::Charred);
    CHECK(test::changed(cold, soft, all) > 0.002);
    CHECK(test::changed(soft, smoking, all) > 0.02);
    CHECK(test::changed(smoking, burning, all) > 0.02);
    const art::Box body{ImVec2(60, 112), ImVec2(340, 128)};
    CHECK(test::mean(at(293.0f, CableCondition::Charred), body, 0) <
          test::mean(cold, body, 0) - 40.0);
    CHECK(test::changed(cold, at(293.0f, CableCondition::Softened), all) > 0.002);
    CHECK(test::changed(at(293.0f, CableCondition::Charred),
                        at(293.0f, CableCondition::Parted),
                        all) > 0.002);
}

TEST_CASE("nothing flashes more than three times a second") {
    // WCAG 2.3.1. Mean red of everything, 60 pictures a second for two seconds; a flash is a rise and
    // a fall of more than 10 % of full scale.
    test::Studio studio;
    art::CableLook look = cable(400.0f);
    look.temp_K = 900.0f;
    look.condition = bench::CableCondition::Charred;
    int turns = 0;
    double extreme = -1.0, direction = 0.0;
    for (int i = 0; i < 120; i += 2) {
        look.time_s = static_cast<float>(i) / 60.0f;
        look.phase_m = look.time_s * art::kShimmerSpeed_m_s;
        const double now =
            test::mean(shootCable(studio, look), {ImVec2(20, 90), ImVec2(380, 150)}, 0) / 255.0;
        if (extreme < 0.0) extreme = now;
        if (std::fabs(now - extreme) > 0.10 && (now - extreme) * direction <= 0.0) {
            ++turns;
            direction = now - extreme;
            extreme = now;
        } else if ((now - extreme) * direction > 0.0) {
            extreme = now;
        }
    }
    CHECK(turns <= 12); // three pairs a second for two seconds
}

TEST_CASE("the gallery shows everything and misses no drawing") {
    test::Studio studio;
    float height = 0.0f;
    const auto draw = [&](ImDrawList* list) {
        height = art::drawGallery(
            list, studio.pictures(), studio.fonts(), {ImVec2(24, 16), ImVec2(1576, 3000)}, 1.3f);
    };
    studio.frame(draw);
    const test::Bitmap shot = studio.shoot(1600, static_cast<int>(height) + 40, draw);
    CHECK(studio.missing() == "");
    CHECK(height > 1500.0f);
    CHECK(height < 3000.0f);
    if (const char* folder = std::getenv("LOOM_SHOTS"))
        CHECK(test::writePixmap(shot, std::string(folder) + "/gallery.ppm"));
}

TEST_CASE("a tag stays inside its bounds wherever it speaks") {
    test::Studio studio;
    const art::Box bounds{ImVec2(10, 10), ImVec2(390, 230)};
    for (const ImVec2 at :
         {ImVec2(0, 0), ImVec2(400, 0), ImVec2(0, 240), ImVec2(400, 240), ImVec2(200, 120)}) {
        studio.frame([&](ImDrawList* list) {
            const art::Box box = art::drawTag(list,
                                              studio.pictures(),
                                              studio.fonts(),
                                              bounds,
                                              at,
                                              "Ring fits this stud",
                                              "1 of 3 ends on it");
            CHECK(box.min.x >= bounds.min.x);
            CHECK(box.min.y >= bounds.min.y);
            CHECK(box.max.x <= bounds.max.x);
            CHECK(box.max.y <= bounds.max.y);
        });
    }
}

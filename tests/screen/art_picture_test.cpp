// SPDX-License-Identifier: MIT
#include "bench/catalogue.h"
#include "screen/art/part_art.h"
#include "screen/art/picture.h"
#include "screen/art_studio.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace loom;

TEST_CASE("every part has a drawing of its catalogue size, with metal at each terminal") {
    test::Studio studio;
    for (const bench::PartKind kind : bench::allKinds()) {
        const bench::PartSpec& spec = bench::spec(kind);
        CAPTURE(spec.word);
        const std::string name = std::string("parts/") + spec.word;
        const ImVec2 size = studio.pictures().size_mm(name.c_str());
        CHECK(size.x == doctest::Approx(spec.width_m * 1000.0));
        CHECK(size.y == doctest::Approx(spec.height_m * 1000.0));
        const ImVec2 centre(400.0f, 200.0f);
        const float px_per_m = 2000.0f;
        const test::Bitmap bare(800, 400, 0xe6, 0xd6, 0xb6);
        const test::Bitmap shot = studio.shoot(800, 400, [&](ImDrawList* list) {
            studio.pictures().draw(list, name.c_str(), centre, px_per_m, 0);
        });
        for (const bench::TerminalSpec& t : spec.terminals) {
            CAPTURE(t.word);
            const ImVec2 at(centre.x + static_cast<float>(t.x_m) * px_per_m,
                            centre.y + static_cast<float>(t.y_m) * px_per_m);
            const art::Box there{ImVec2(at.x - 3, at.y - 3), ImVec2(at.x + 3, at.y + 3)};
            CHECK(test::changed(bare, shot, there) > 0.9);
        }
    }
    CHECK(studio.missing() == "");
}

TEST_CASE("a drawing is turned clockwise by quarter turns") {
    test::Studio studio;
    const auto shoot = [&](int turns) {
        return studio.shoot(300, 300, [&](ImDrawList* list) {
            studio.pictures().draw(list, "parts/relay", ImVec2(150, 150), 800.0f, turns);
        });
    };
    const test::Bitmap bare(300, 300, 0xe6, 0xd6, 0xb6);
    // The coil tabs stand out at the bottom, then at the left, the top and the right.
    const art::Box sides[4] = {{ImVec2(120, 194), ImVec2(180, 198)},
                               {ImVec2(102, 120), ImVec2(106, 180)},
                               {ImVec2(120, 102), ImVec2(180, 106)},
                               {ImVec2(194, 120), ImVec2(198, 180)}};
    for (int turns = 0; turns < 4; ++turns) {
        CAPTURE(turns);
        const double tabs = test::changed(bare, shoot(turns), sides[turns]);
        CHECK(tabs > 0.1);
        CHECK(tabs < 0.6); // two tabs, not the whole side of the body
    }
}

TEST_CASE("an unknown or broken drawing draws nothing and does no harm") {
    int made = 0;
    art::PictureStore store(
        [](const std::string& name) {
            return std::string_view(name == "broken" ? "<svg><path d=\"M1" : "");
        },
        [&](int, int, const unsigned char*) {
            return reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(++made));
        },
        [](ImTextureID) {});
    test::Studio studio; // for a draw list
    studio.frame([&](ImDrawList* list) {
        CHECK_FALSE(store.draw(list, "nothing", ImVec2(10, 10), 800.0f, 0));
        CHECK_FALSE(store.draw(list, "broken", ImVec2(10, 10), 800.0f, 0));
        CHECK_FALSE(store.drawFitted(list, "nothing", ImVec2(10, 10), 40.0f));
    });
    CHECK(made == 0);
}

TEST_CASE("old zoom steps go when memory is short, what is in view stays") {
    test::Studio studio;
    studio.pictures().setBudget(600000);
    for (float px_per_m = 200.0f; px_per_m < 6000.0f; px_per_m *= 1.3f) {
        studio.frame([&](ImDrawList* list) {
            CHECK(studio.pictures().draw(list, "parts/horn", ImVec2(300, 300), px_per_m, 0));
        });
        studio.pictures().endFrame();
    }
    const std::size_t after = studio.pictures().memory_bytes();
    studio.frame([&](ImDrawList* list) {
        studio.pictures().draw(list, "parts/horn", ImVec2(300, 300), 400.0f, 0);
    });
    studio.pictures().endFrame();
    CHECK(studio.pictures().memory_bytes() <= 600000);
    CHECK(studio.pictures().memory_bytes() < after); // the largest step was let go
}

TEST_CASE("zooming fast shows what is at hand first and asks for another frame") {
    test::Studio studio;
    const char* names[] = {"parts/horn",
                           "parts/relay",
                           "parts/battery",
                           "parts/motor",
                           "parts/toggle",
                           "parts/rocker"};
    const auto frame = [&](float px_per_m) {
        studio.frame([&](ImDrawList* list) {
            for (const char* name : names)
                studio.pictures().draw(list, name, ImVec2(300, 300), px_per_m, 0);
        });
        return studio.pictures().endFrame();
    };
    frame(400.0f);
    int frames = 1;
    while (frame(1600.0f))
        ++frames;
    CHECK(frames >= 1);
    CHECK(frames <= 4);
    CHECK_FALSE(frame(1600.0f)); // and then is content
}

TEST_CASE("every texture is given back") {
    test::Textures textures;
    {
        test::Studio studio;
        const std::string file =
            "<svg viewBox=\"0 0 20 10\"><rect width=\"20\" height=\"10\" fill=\"#f00\"/></svg>";
        art::PictureStore store(
            [&](const std::string&) { return std::string_view(file); },
            [&](int w, int h, const unsigned char* rgba) { return textures.add(w, h, rgba); },
            [&](ImTextureID id) { textures.remove(id); });
        studio.frame([&](ImDrawList* list) {
            store.draw(list, "a", ImVec2(50, 50), 800.0f, 0);
            store.drawShadow(list, "a", ImVec2(50, 50), 800.0f, 0, ImVec2(2, 4), 0.5f);
            store.softSpot();
            store.birch();
        });
        CHECK(textures.alive() == 4);
    }
    CHECK(textures.alive() == 0);
}

// SPDX-License-Identifier: MIT
// Escape lets go of one thing at a time, and only when there is none left may the page use the key
// (after it, Tab leaves the canvas).
#include "screen/room/overlays.h"
#include "screen/stage.h"

#include <doctest/doctest.h>
#include <set>

namespace loom::test {
namespace {

// How often Escape has to be pressed until the hands are free; 99 when they never are.
int escapes(Stage& stage) {
    int pressed = 0;
    while (!screen::handsFree(stage.ui) && pressed < 99) {
        stage.key(ImGuiKey_Escape);
        ++pressed;
    }
    return pressed;
}

} // namespace

TEST_CASE("Escape on the close-up closes it, and does not let Tab leave the canvas as well") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.lay("B1", 0.5, 0.5);
    stage.frames(2);
    CHECK(screen::handsFree(stage.ui));
    stage.click("rail/driver");
    CHECK_FALSE(screen::handsFree(stage.ui));
    stage.clickAt(stage.rectOf("terminal/B1/plus").centre());
    REQUIRE(stage.has("closeup/sheet"));
    CHECK_FALSE(screen::handsFree(stage.ui));
    stage.key(ImGuiKey_Escape);
    CHECK_FALSE(stage.has("closeup/sheet"));
    CHECK(stage.ui.board.tool == screen::Tool::Driver);
    CHECK_FALSE(screen::handsFree(stage.ui));
    stage.key(ImGuiKey_Escape);
    CHECK(stage.ui.board.tool == screen::Tool::BareHand);
    CHECK(screen::handsFree(stage.ui));
}

TEST_CASE("whatever is open or held, Escape ends it and the page waits for that") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.lay("B1", 0.5, 0.5);
    stage.frames(2);
    for (const char* item : {"header/help", "leaf/course", "rail/trace", "tray/K1", "part/B1"}) {
        CAPTURE(item);
        stage.click(item);
        CHECK_FALSE(screen::handsFree(stage.ui));
        CHECK(escapes(stage) == 1);
    }
    stage.begin("pippin"); // has a plan, for which the paper is pulled wide
    stage.click("leaf/plan");
    CHECK(stage.ui.paper.plan.wide);
    CHECK_FALSE(screen::handsFree(stage.ui));
    CHECK(escapes(stage) == 1);
}

TEST_CASE("Escape puts the meter back where it was and does nothing else") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.click("rail/meter");
    const screen::Rect before = stage.rectOf("meter/body");
    stage.click("header/help");
    stage.key(ImGuiKey_Escape);
    const ImVec2 from{before.centre().x, before.min.y + 12.0f};
    stage.moveTo(from);
    stage.frames(2);
    stage.press();
    stage.frames(2);
    stage.moveTo({from.x + 60.0f, from.y - 40.0f});
    stage.frames(2);
    CHECK(stage.rectOf("meter/body").min.x > before.min.x + 30.0f);
    CHECK_FALSE(screen::handsFree(stage.ui));
    stage.key(ImGuiKey_Escape);
    stage.release();
    stage.frames(2);
    CHECK(stage.rectOf("meter/body").min.x == doctest::Approx(before.min.x));
    CHECK(screen::handsFree(stage.ui));
}

TEST_CASE("each row of the table of overlays is closed by its own way of closing") {
    std::set<std::string> names;
    for (const screen::Overlay& overlay : screen::overlays()) {
        CAPTURE(overlay.name);
        CHECK(names.insert(overlay.name).second);
        CHECK((overlay.isOpen == nullptr) == (overlay.close == nullptr));
        CHECK((overlay.layer > 0) == (overlay.draw != nullptr));
    }
}

} // namespace loom::test

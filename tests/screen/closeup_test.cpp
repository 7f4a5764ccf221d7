// SPDX-License-Identifier: MIT
// Making an end in the close-up: every step by pressing, dragging and keys, as a person does it.
#include "bench/catalogue.h"
#include "bench/ends.h"
#include "screen/closeup/closeup.h"
#include "screen/stage.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace loom;
using bench::EndFault;
using bench::Sleeve;
using test::Stage;

namespace {

// The free bench on which every cable's ends are made by hand, with a button and the block.
void openHandmade(Stage& stage) {
    stage.begin("");
    bench::Bench bench = benchOf(stage);
    bench.kit.handmade = {"*"};
    stage.open(bench);
    stage.lay("X1", 0.55, 0.30);
    stage.lay("S3", 0.25, 0.15);
    stage.lay("K1", 0.85, 0.5);
    stage.frames(2);
}

// From the button's tab to the third way of the block, whose screw was opened.
void joinByHand(Stage& stage) {
    openHandmade(stage);
    stage.ask(bench::Edit{bench::TurnScrew{stage.terminal("X1", "3 upper"), 0.0}});
    stage.wire("S3 out", "X1 3 upper", 1e-6, Sleeve::Red);
    stage.frames(3);
}

const bench::Cable& cableOf(const Stage& stage) {
    return benchOf(stage).cables.back();
}

bench::EndMake makeOf(const Stage& stage, int end = 1) {
    return cableOf(stage).ends[static_cast<std::size_t>(end)].make.value_or(bench::EndMake{});
}

bool faulty(const Stage& stage, EndFault fault, int end = 1) {
    const bench::EndState state = bench::stateOf(benchOf(stage), cableOf(stage), end);
    return std::find(state.faults.begin(), state.faults.end(), fault) != state.faults.end();
}

double torqueOf(const Stage& stage, const char* terminal = "3 upper") {
    return bench::screwAt(benchOf(stage), stage.terminal("X1", terminal)).torque_Nm;
}

// Holds the tile until the dial has come so far.
void tightenTo(Stage& stage, double torque_Nm) {
    stage.moveTo(stage.rectOf("closeup/tighten").centre());
    stage.frames(2);
    stage.press();
    for (int i = 0; i < 400; ++i) {
        stage.frame();
        const auto& hand = stage.ui.closeup.hand;
        if (i > 2 && (!hand || hand->value >= torque_Nm)) break;
    }
    stage.release();
    stage.frames(3);
}

void makeBare(Stage& stage) {
    for (const char* step : {"closeup/strip", "closeup/twist", "closeup/push"})
        stage.click(step);
}

} // namespace

TEST_CASE("joining an end that is made by hand opens the close-up, with every step still to do") {
    Stage stage(1280, 800);
    joinByHand(stage);
    REQUIRE(stage.has("closeup/sheet"));
    CHECK(stage.labelOf("closeup/sheet").find("X1 3 upper") != std::string::npos);
    CHECK(stage.labelOf("closeup/strip").rfind("Strip: not yet.", 0) == 0);
    CHECK(stage.labelOf("closeup/twist") == "Twist: not yet.");
    CHECK(stage.labelOf("closeup/push").rfind("Push in: not yet.", 0) == 0);
    CHECK(stage.labelOf("closeup/tighten").rfind("Tighten: open.", 0) == 0);
    CHECK(stage.labelOf("closeup/tug") == "Tug: not yet.");
}

TEST_CASE("the board says which ends are not made yet") {
    Stage stage(1280, 800);
    joinByHand(stage);
    CHECK(stage.labelOf("terminal/X1/3 upper") == "X1 3 upper, W-1 end not made yet");
    stage.click("closeup/well");
    CHECK(stage.labelOf("terminal/X1/3 upper") == "X1 3 upper");
    CHECK(stage.labelOf("terminal/S3/out") == "S3 out, W-1 end not made yet");
}

TEST_CASE("an end that nobody makes by hand opens nothing") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.lay("X1", 0.55, 0.30);
    stage.lay("S3", 0.25, 0.15);
    stage.wire("S3 out", "X1 3 upper", 1e-6, Sleeve::Red);
    stage.frames(3);
    CHECK_FALSE(stage.has("closeup/sheet"));
}

TEST_CASE("the close-up leaves what is round its terminal to be seen") {
    for (const double x_m : {0.2, 0.35, 0.5, 0.65, 0.85}) {
        for (const double share : {0.15, 0.5, 0.6, 0.7, 0.85}) { // of the board's height
            Stage stage(1280, 800);
            openHandmade(stage);
            stage.ask(bench::Edit{bench::MovePart{bench::findPart(benchOf(stage), "S3")->id,
                                                  {x_m, share * benchOf(stage).board_m.y_m}}});
            stage.ask(bench::Edit{bench::TurnScrew{stage.terminal("X1", "3 upper"), 0.0}});
            stage.wire("X1 3 upper", "S3 out", 1e-6, Sleeve::Red);
            stage.frames(3);
            REQUIRE(stage.has("closeup/sheet"));
            const screen::Rect panel = stage.rectOf("closeup/sheet");
            CAPTURE(x_m);
            CAPTURE(share);
            CHECK_FALSE(panel.contains(stage.rectOf("terminal/S3/out").centre()));
            if (x_m == 0.5 && share == 0.6) stage.shoot("closeup-mid-board");
        }
    }
}

TEST_CASE("Escape, Done and a tap on the board close it, and nothing is lost") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.click("closeup/strip");
    stage.key(ImGuiKey_Escape);
    CHECK_FALSE(stage.has("closeup/sheet"));
    stage.ui.board.tool = screen::Tool::Strip;
    stage.clickAt(stage.rectOf("terminal/X1/3 upper").centre());
    REQUIRE(stage.has("closeup/sheet"));
    CHECK(stage.labelOf("closeup/strip").rfind("Strip: 10 mm.", 0) == 0);
    stage.click("closeup/done");
    CHECK_FALSE(stage.has("closeup/sheet"));
    stage.clickAt(stage.rectOf("terminal/X1/3 upper").centre());
    REQUIRE(stage.has("closeup/sheet"));
    const screen::Rect board = stage.view.layout.board;
    stage.clickAt({board.min.x + 24.0f, board.min.y + 24.0f});
    CHECK_FALSE(stage.has("closeup/sheet"));
    CHECK(makeOf(stage).strip_m == doctest::Approx(0.010));
}

TEST_CASE("a bare end is made step by step by pressing its tiles") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.click("closeup/strip");
    CHECK(makeOf(stage).strip_m == doctest::Approx(0.010));
    stage.click("closeup/twist");
    CHECK(makeOf(stage).twisted);
    stage.click("closeup/push");
    CHECK(makeOf(stage).pushed_m == doctest::Approx(0.010));
    tightenTo(stage, 0.5);
    CHECK(torqueOf(stage) == doctest::Approx(0.5).epsilon(0.2));
    stage.click("closeup/tug");
    CHECK(cableOf(stage).ends[1].tugged);
    CHECK(stage.labelOf("closeup/tug") == "Tug: it holds.");
    CHECK(stage.labelOf("closeup/sheet").find("It held.") != std::string::npos);
    CHECK(bench::stateOf(benchOf(stage), cableOf(stage), 1).faults.empty());
}

TEST_CASE("how much is bare follows the pointer along the scale and counts when it is let go") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.click("closeup/strip");
    const screen::Rect scale = stage.rectOf("closeup/scale");
    const ImVec2 from = scale.centre();
    stage.moveTo(from);
    stage.frames(2);
    stage.press();
    stage.frames(2);
    stage.moveTo({from.x - 60.0f, from.y});
    stage.frames(2);
    REQUIRE(stage.ui.closeup.hand);
    const double live_m = stage.ui.closeup.hand->value;
    CHECK(makeOf(stage).strip_m == doctest::Approx(0.010));
    CHECK(stage.labelOf("closeup/scale").find("mm bare") != std::string::npos);
    stage.release();
    stage.frames(3);
    CHECK(live_m != doctest::Approx(0.010));
    CHECK(makeOf(stage).strip_m == doctest::Approx(live_m));
}

TEST_CASE("Escape lets go of a drag and changes nothing") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.click("closeup/strip");
    const ImVec2 from = stage.rectOf("closeup/scale").centre();
    stage.moveTo(from);
    stage.frames(2);
    stage.press();
    stage.frames(2);
    stage.moveTo({from.x - 60.0f, from.y});
    stage.frames(2);
    stage.key(ImGuiKey_Escape);
    stage.release();
    stage.frames(3);
    CHECK(makeOf(stage).strip_m == doctest::Approx(0.010));
    CHECK(stage.has("closeup/sheet"));
}

TEST_CASE("the cable is pushed in by dragging it") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.click("closeup/strip");
    const ImVec2 from = stage.rectOf("closeup/cable").centre();
    stage.drag(from, {from.x + 40.0f, from.y});
    CHECK(makeOf(stage).pushed_m > 0.003);
    CHECK(faulty(stage, EndFault::NotPushedIn));
    CHECK(stage.labelOf("closeup/push").rfind("Push in: not enough.", 0) == 0);
    REQUIRE(stage.has("closeup/fault"));
    stage.drag(from, {from.x + 200.0f, from.y});
    CHECK(faulty(stage, EndFault::OnSleeve));
    CHECK(stage.labelOf("closeup/push").rfind("Push in: too far.", 0) == 0);
}

TEST_CASE("a strand that stands out is said with what it can reach") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.click("closeup/strip");
    stage.click("closeup/push");
    REQUIRE(stage.has("closeup/fault"));
    CHECK(stage.labelOf("closeup/fault").rfind("One strand is out: it can reach X1 ", 0) == 0);
    stage.click("closeup/twist");
    CHECK_FALSE(stage.has("closeup/fault"));
}

TEST_CASE("a screw held too long breaks, and a new one is fitted") {
    Stage stage(1280, 800);
    joinByHand(stage);
    makeBare(stage);
    tightenTo(stage, 0.2);
    CHECK(faulty(stage, EndFault::ScrewLoose));
    CHECK(stage.labelOf("closeup/tighten").find("loose") != std::string::npos);
    tightenTo(stage, 0.8);
    CHECK(faulty(stage, EndFault::ScrewTight));
    tightenTo(stage, 5.0);
    CHECK(faulty(stage, EndFault::ScrewBroken));
    CHECK(stage.labelOf("closeup/tighten").find("broken") != std::string::npos);
    CHECK_FALSE(stage.has("closeup/open-screw"));
    stage.click("closeup/mend");
    CHECK_FALSE(faulty(stage, EndFault::ScrewBroken));
}

TEST_CASE("the screw is turned by dragging round it, and opened again") {
    Stage stage(1280, 800);
    joinByHand(stage);
    makeBare(stage);
    const screen::Rect dial = stage.rectOf("closeup/screw");
    const ImVec2 hub{dial.centre().x, dial.min.y + dial.height() * 0.66f};
    stage.moveTo({hub.x - 40.0f, hub.y});
    stage.frames(2);
    stage.press();
    stage.frames(2);
    for (int i = 0; i <= 20; ++i) { // half a turn, clockwise over the top
        const float a = 3.14159f * (1.0f + static_cast<float>(i) / 20.0f);
        stage.moveTo({hub.x + 40.0f * std::cos(a), hub.y + 40.0f * std::sin(a)});
        stage.frame();
    }
    stage.release();
    stage.frames(3);
    CHECK(torqueOf(stage) == doctest::Approx(0.5).epsilon(0.25));
    stage.click("closeup/open-screw");
    CHECK(torqueOf(stage) == 0.0);
    CHECK(faulty(stage, EndFault::ScrewOpen));
}

TEST_CASE("an end that does not hold comes off at the tug, with the reason, and goes back") {
    Stage stage(1280, 800);
    joinByHand(stage);
    makeBare(stage);
    stage.click("closeup/tug");
    CHECK_FALSE(cableOf(stage).ends[1].at);
    CHECK(stage.labelOf("closeup/sheet").find("It came off. The screw is open") !=
          std::string::npos);
    REQUIRE(stage.has("closeup/push"));
    stage.click("closeup/push");
    CHECK(cableOf(stage).ends[1].at == stage.terminal("X1", "3 upper"));
}

TEST_CASE("a pull at the cable is a tug") {
    Stage stage(1280, 800);
    joinByHand(stage);
    makeBare(stage);
    tightenTo(stage, 0.5);
    const ImVec2 from = stage.rectOf("closeup/cable").centre();
    stage.drag(from, {from.x - 60.0f, from.y});
    CHECK(cableOf(stage).ends[1].tugged);
    CHECK(makeOf(stage).pushed_m == doctest::Approx(0.010));
    stage.click("closeup/open-screw");
    stage.drag(from, {from.x - 60.0f, from.y}); // now it slides
    CHECK(cableOf(stage).ends[1].at);
    CHECK(makeOf(stage).pushed_m < 0.009);
}

TEST_CASE("one press makes an end well") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.click("closeup/well");
    CHECK_FALSE(cableOf(stage).ends[1].make);
    CHECK(bench::stateOf(benchOf(stage), cableOf(stage), 1).faults.empty());
    CHECK(torqueOf(stage) == doctest::Approx(0.5));
    CHECK(stage.labelOf("closeup/well") == "Make it well, not now");
    stage.click("closeup/other");
    CHECK(stage.labelOf("closeup/sheet").find("S3 out") != std::string::npos);
    CHECK(stage.labelOf("closeup/well") == "Make it well");
}

TEST_CASE("keys alone make an end: arrows change a value, Enter does the step") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.ui.items.setFocus("closeup/strip");
    stage.frames(2);
    for (int i = 0; i < 9; ++i)
        stage.key(ImGuiKey_RightArrow);
    CHECK(stage.ui.items.focused() == "closeup/strip");
    CHECK(makeOf(stage).strip_m == 0.0);
    stage.key(ImGuiKey_Enter);
    CHECK(makeOf(stage).strip_m == doctest::Approx(0.009));
    stage.key(ImGuiKey_DownArrow);
    CHECK(stage.ui.items.focused() == "closeup/twist");
    stage.key(ImGuiKey_Enter);
    CHECK(makeOf(stage).twisted);
    stage.key(ImGuiKey_DownArrow);
    stage.key(ImGuiKey_Enter);
    CHECK(makeOf(stage).pushed_m == doctest::Approx(0.010));
    stage.key(ImGuiKey_DownArrow);
    for (int i = 0; i < 10; ++i)
        stage.key(ImGuiKey_RightArrow);
    stage.key(ImGuiKey_Enter);
    CHECK(torqueOf(stage) == doctest::Approx(0.5));
    stage.key(ImGuiKey_DownArrow);
    stage.key(ImGuiKey_Enter);
    CHECK(cableOf(stage).ends[1].tugged);
}

TEST_CASE("a clamp is opened in the close-up before an end goes in") {
    Stage stage(1280, 800);
    openHandmade(stage);
    stage.drag(stage.rectOf("terminal/S3/out").centre(),
               stage.rectOf("terminal/X1/3 upper").centre());
    CHECK(benchOf(stage).cables.empty());
    REQUIRE(stage.has("closeup/sheet"));
    stage.click("closeup/open-screw");
    CHECK(torqueOf(stage) == 0.0);
    stage.click("closeup/done");
    stage.drag(stage.rectOf("terminal/S3/out").centre(),
               stage.rectOf("terminal/X1/3 upper").centre());
    CHECK(benchOf(stage).cables.size() == 1);
    CHECK(stage.has("closeup/twist"));
}

TEST_CASE("a loose end from the reel gets the end that is chosen") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.ask(bench::Edit{bench::FreeEnd{cableOf(stage).id, 1, {0.3, 0.45}}});
    stage.frames(3);
    REQUIRE(stage.has("closeup/kind/ring-m6"));
    stage.click("closeup/kind/ring-m6");
    CHECK(cableOf(stage).ends[1].kind == bench::EndKind::Bare); // nothing is bare yet
    stage.click("closeup/strip");
    stage.click("closeup/kind/ring-m6");
    CHECK(cableOf(stage).ends[1].kind == bench::EndKind::RingM6);
    CHECK(stage.labelOf("closeup/press").rfind("Press on: done.", 0) == 0);
    stage.ask(
        bench::Edit{bench::JoinEnd{cableOf(stage).id, 1, stage.terminal("K1", "normally open")}});
    stage.frames(3);
    CHECK(stage.labelOf("closeup/put-over").rfind("Put over: done.", 0) == 0);
    CHECK(stage.has("closeup/tighten"));
    CHECK_FALSE(stage.has("closeup/push"));
}

TEST_CASE("cards lead to the close-up, and so do the tools of the wall") {
    Stage stage(1280, 800);
    joinByHand(stage);
    stage.click("closeup/done");
    stage.ui.board.chosen = cableOf(stage).id;
    stage.frames(2);
    stage.click("card/closeup/1");
    CHECK(stage.labelOf("closeup/sheet").find("X1 3 upper") != std::string::npos);
    CHECK_FALSE(stage.has("card/sheet"));
    stage.click("closeup/done");
    stage.clickAt(stage.rectOf("terminal/X1/3 upper").centre());
    stage.click("card/closeup");
    CHECK(stage.has("closeup/sheet"));
    stage.click("closeup/done");
    stage.click("rail/driver");
    CHECK(stage.ui.board.tool == screen::Tool::Driver);
    stage.clickAt(stage.rectOf("terminal/K1/normally open").centre());
    CHECK(stage.labelOf("closeup/sheet").find("A nut takes the spanner.") != std::string::npos);
    stage.click("closeup/done");
    stage.clickAt(stage.rectOf("terminal/X1/5 upper").centre());
    CHECK(stage.has("closeup/tighten"));
    CHECK_FALSE(stage.has("closeup/strip"));
    stage.key(ImGuiKey_Escape);
    stage.key(ImGuiKey_Escape);
    CHECK(stage.ui.board.tool == screen::Tool::BareHand);
}

TEST_CASE("on a tablet the paper pulled in lies over the close-up") {
    Stage stage(768, 1024);
    stage.begin("");
    stage.lay("B1", 0.4, 0.4);
    screen::openCloseup(stage.ui.closeup, {{}, 0, stage.terminal("B1", "plus")});
    stage.frames(20);
    const screen::Item* under = stage.ui.items.over({200.0f, 500.0f});
    REQUIRE(under);
    REQUIRE(under->name.rfind("closeup/", 0) == 0);
    stage.ui.paper.pulledIn = true;
    stage.frames(20);
    const screen::Item* over = stage.ui.items.over({200.0f, 500.0f});
    REQUIRE(over);
    CHECK(over->name.rfind("closeup/", 0) != 0);
}

TEST_CASE("choosing something else on the board closes the close-up and shows its card") {
    Stage stage(1280, 800);
    joinByHand(stage);
    REQUIRE(stage.has("closeup/sheet"));
    stage.clickAt(stage.rectOf("part/X1").centre());
    CHECK_FALSE(stage.has("closeup/sheet"));
    CHECK(stage.has("card/sheet"));
}

TEST_CASE("the wall's tools: meter off its hook and back, trace, marker") {
    Stage stage(1280, 800);
    openHandmade(stage);
    stage.click("rail/meter");
    CHECK(benchOf(stage).meter);
    stage.click("rail/meter");
    CHECK_FALSE(benchOf(stage).meter);
    stage.click("rail/trace");
    CHECK(stage.ui.trace.open);
    stage.click("rail/trace");
    CHECK_FALSE(stage.ui.trace.open);
    stage.begin("pippin"); // has a sheet to mark
    stage.click("rail/marker");
    CHECK(stage.ui.board.tool == screen::Tool::Marker);
    stage.click("rail/hand");
    CHECK(stage.ui.board.tool == screen::Tool::BareHand);
}

TEST_CASE("every thing of the close-up is big enough for a finger and inside the window") {
    struct Size {
        int width, height;
    };

    for (const Size& size : {Size{1280, 800}, Size{1920, 1080}, Size{768, 1024}, Size{600, 600}}) {
        Stage stage(size.width, size.height);
        joinByHand(stage);
        CAPTURE(size.width);
        const float touch = 44.0f * stage.view.layout.unit - 1.0f;
        int seen = 0;
        for (const screen::Item& item : stage.ui.items.all()) {
            if (item.name.rfind("closeup/", 0) != 0 || item.name == "closeup/fault") continue;
            CAPTURE(item.name);
            CHECK(item.rect.width() >= touch);
            CHECK(item.rect.height() >= touch);
            CHECK(item.rect.min.x >= 0.0f);
            CHECK(item.rect.max.x <= static_cast<float>(size.width));
            CHECK(item.rect.max.y <= static_cast<float>(size.height));
            ++seen;
        }
        CHECK(seen >= 10);
    }
}

TEST_CASE("the close-up is drawn in its states") {
    struct Size {
        int width, height;
        const char* name;
    };

    for (const Size& size : {Size{1280, 800, "closeup-1280"},
                             Size{1920, 1080, "closeup-1920"},
                             Size{768, 1024, "closeup-768"}}) {
        Stage stage(size.width, size.height);
        joinByHand(stage);
        const std::string name = size.name;
        stage.shoot(name + "-new");
        stage.click("closeup/strip");
        stage.click("closeup/push");
        tightenTo(stage, 0.48);
        stage.shoot(name + "-strand");
        stage.click("closeup/twist");
        stage.shoot(name + "-good");
        stage.click("closeup/other");
        stage.shoot(name + "-tab");
        stage.click("closeup/well");
        stage.shoot(name + "-tab-good");
        stage.ask(bench::Edit{bench::FreeEnd{cableOf(stage).id, 1, {0.3, 0.5}}});
        stage.click("closeup/other");
        stage.shoot(name + "-loose");
        stage.click("closeup/strip");
        stage.click("closeup/twist");
        stage.click("closeup/kind/ring-m6");
        stage.shoot(name + "-ring");
        stage.ask(bench::Edit{
            bench::JoinEnd{cableOf(stage).id, 1, stage.terminal("K1", "normally open")}});
        stage.frames(3);
        stage.shoot(name + "-stud");
        tightenTo(stage, 9.0);
        stage.shoot(name + "-broken");
        CHECK(stage.has("closeup/mend"));
    }
}

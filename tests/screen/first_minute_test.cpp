// SPDX-License-Identifier: MIT
// The bench as somebody meets it who reads nothing: taps at random, wrong things in wrong places.
// Each of these must be answered by a sentence or by what was meant.
#include "bench/catalogue.h"
#include "screen/kit/keep_clear.h"
#include "screen/sentences.h"
#include "screen/stage.h"

#include <doctest/doctest.h>
#include <vector>

using namespace loom;
using bench::Sleeve;
using screen::Rect;
using test::Stage;

namespace {

std::string said(Stage& stage) {
    stage.frames(1);
    return stage.labelOf("events/last");
}

bool says(Stage& stage, const char* words) {
    const std::string line = said(stage);
    CAPTURE(line);
    CAPTURE(words);
    const bool found = line.find(words) != std::string::npos;
    CHECK(found);
    return found;
}

void layHeadlampParts(Stage& stage) {
    stage.begin("headlamp");
    stage.lay("B1", 0.2, 0.5);
    stage.lay("F3", 0.4, 0.2);
    stage.lay("S4", 0.65, 0.2);
    stage.lay("E1", 0.85, 0.45);
    stage.frames(2);
}

} // namespace

TEST_CASE("the line under the board says what to do next until something happens") {
    Stage stage(1280, 800);
    stage.begin("headlamp");
    says(stage, "Drag a part from the tray");
    stage.lay("B1", 0.2, 0.5);
    says(stage, "Lay the next part");
    stage.lay("E1", 0.8, 0.4);
    says(stage, "Drag from one terminal to another");
    stage.wire("B1 plus", "E1 in", 1e-6, Sleeve::Red);
    says(stage, "E1 is dark. Current needs a way there and a way back"); // there is no switch
    stage.lay("S4", 0.5, 0.2);
    says(stage, "Work a switch");
    stage.ask(bench::Edit{bench::FreeEnd{benchOf(stage).cables.front().id, 1, {0.6, 0.6}}});
    says(stage, "lies loose. Drag it to a terminal");
}

TEST_CASE("a half wired job with live batteries does not ask for the key") {
    Stage stage(1280, 800);
    stage.begin("relay");
    says(stage, "Drag from one terminal to another");
}

TEST_CASE("with the isolator off the line asks for it, not for a switch") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.lay("S4", 1.1, 0.3);
    stage.lay("Q1", 0.7, 0.4);
    stage.wire("Q1 out", "S4 in", 1e-6, Sleeve::Red);
    says(stage, "No battery is on the bench yet");
    stage.lay("B1", 0.3, 0.6);
    says(stage, "Drag from one terminal to another"); // the key stays out while parts are bare
    stage.lay("E1", 1.2, 0.6);
    stage.wire("S4 out", "E1 in", 1e-6, Sleeve::Red);
    stage.wire("E1 out", "B1 minus", 1e-6, Sleeve::Black);
    says(stage, "Drag from one terminal to another");
    stage.wire("B1 plus", "Q1 in", 1e-6, Sleeve::Red);
    says(stage, "Q1 is off. Check every cable, then put the key in");
    const bench::PartId isolator = bench::findPart(benchOf(stage), "Q1")->id;
    stage.ask(bench::Edit{bench::Operate{isolator, 1}});
    says(stage, "Q1 is off. Check every cable, then turn it on");
    stage.ask(bench::Edit{bench::Operate{isolator, 2}});
    says(stage, "Work a switch");
}

TEST_CASE("what a tap has put into the hand is said, with where it goes") {
    Stage stage(1280, 800);
    stage.begin("headlamp");
    stage.click("tray/B1");
    says(stage, "B1 is in your hand. Tap the board");
    stage.clickAt(stage.view.layout.board.centre());
    CHECK(bench::findPart(benchOf(stage), "B1"));
    stage.click("tray/blade/3");
    says(stage, "fuse of 3 A is in your hand");
    stage.key(ImGuiKey_Escape);
    stage.click("tray/cable/P-27");
    says(stage, "P-27 is in your hand. Tap a terminal");
}

TEST_CASE("a tap in the tray does not offer to put away what it has just taken") {
    Stage stage(1280, 800);
    stage.begin("headlamp");
    const Rect tab = stage.rectOf("tray/to/0");
    const int x = static_cast<int>(tab.min.x) + 6, y = static_cast<int>(tab.centre().y);
    const auto shade = [&] { // of the tray, with the pointer over it
        stage.moveTo({tab.min.x + 3.0f, tab.max.y + 1.0f});
        stage.frames(1);
        const test::Bitmap picture = stage.picture();
        return std::vector<int>(picture.at(x, y), picture.at(x, y) + 3);
    };
    const std::vector<int> before = shade();
    stage.click("tray/B1");
    CHECK(shade() == before);
}

TEST_CASE("a fuse or the key let go over the bare board says where it belongs") {
    Stage stage(1280, 800);
    layHeadlampParts(stage);
    const Rect board = stage.view.layout.board;
    const ImVec2 bare{board.min.x + 60.0f, board.min.y + 60.0f};
    stage.click("tray/blade/15");
    stage.clickAt(bare);
    says(stage, "A fuse goes into its holder");
    stage.begin("twenty-four-volts");
    stage.frames(2);
    stage.click("rail/key");
    stage.clickAt(bare);
    says(stage, "The key goes into the isolator");
}

TEST_CASE("a drag that leaves the tray sideways takes what it began on") {
    Stage stage(1280, 800);
    layHeadlampParts(stage);
    const ImVec2 from = stage.rectOf("tray/blade/3").centre();
    const Rect holder = stage.rectOf("part/F3");
    stage.moveTo(from);
    stage.press();
    stage.moveTo({from.x - 60.0f, from.y - 4.0f}); // along the tray first
    stage.frames(1);
    stage.moveTo({from.x - 90.0f, stage.view.layout.tray.min.y - 20.0f});
    stage.frames(1);
    stage.moveTo(holder.centre());
    stage.frames(1);
    stage.release();
    stage.frames(1);
    const bench::Part* fitted = bench::findPart(benchOf(stage), "F3");
    REQUIRE(fitted);
    CHECK(fitted->rating == doctest::Approx(3.0));
}

TEST_CASE("the marker says when there is no sheet to mark") {
    Stage stage(1280, 800);
    stage.begin("headlamp");
    stage.click("rail/marker");
    CHECK(stage.ui.board.tool == screen::Tool::BareHand);
    says(stage, "This job has no sheet");
}

TEST_CASE("a tool says how it is used when it is taken, and gives way to what happens") {
    Stage stage(1280, 800);
    layHeadlampParts(stage);
    stage.click("rail/driver");
    says(stage, "Driver: tap a clamp");
    stage.wire("B1 plus", "B1 minus", 1e-6, Sleeve::Red);
    stage.run(2.0);
    says(stage, "burnt through");
}

TEST_CASE("what was undone is no longer told as how things stand") {
    Stage stage(1280, 800);
    layHeadlampParts(stage);
    stage.wire("B1 plus", "B1 minus", 1e-6, Sleeve::Red);
    stage.run(2.0);
    says(stage, "burnt through");
    stage.click("header/undo");
    says(stage, "Drag from one terminal to another");
    CHECK(stage.has("events/all"));
    stage.wire("B1 plus", "B1 minus", 1e-6, Sleeve::Red);
    stage.run(2.0);
    says(stage, "burnt through");
}

TEST_CASE("the meter is laid where it hides nothing, at each size") {
    struct Size {
        int width, height;
    };

    for (const Size size : {Size{1280, 800}, Size{1920, 1080}, Size{768, 1024}}) {
        CAPTURE(size.width);
        Stage stage(size.width, size.height);
        layHeadlampParts(stage);
        stage.click("rail/meter");
        stage.frames(3);
        REQUIRE(stage.has("meter/body"));
        for (const char* part : {"part/B1", "part/F3", "part/S4", "part/E1"}) {
            CAPTURE(part);
            CHECK(screen::overlap(stage.rectOf("meter/body"), stage.rectOf(part)) == 0.0f);
        }
    }
}

TEST_CASE("a card leaves the meter and the trace to be seen where there is room") {
    Stage stage(1920, 1080);
    layHeadlampParts(stage);
    stage.click("rail/trace");
    stage.click("rail/meter");
    stage.clickAt(stage.rectOf("part/B1").centre());
    stage.frames(2);
    REQUIRE(stage.has("card/sheet"));
    const Rect card = stage.rectOf("card/sheet");
    CHECK(screen::overlap(card, stage.rectOf("trace/sheet")) == 0.0f);
    CHECK(screen::overlap(card, stage.rectOf("meter/body")) == 0.0f);
    CHECK(screen::overlap(card, stage.rectOf("part/B1")) == 0.0f);
}

TEST_CASE("an empty trace is small and has nothing to press but its cross") {
    Stage stage(768, 1024);
    layHeadlampParts(stage);
    stage.click("rail/trace");
    stage.frames(1);
    CHECK(stage.rectOf("trace/sheet").height() < 0.4f * stage.view.layout.board.height());
    CHECK(stage.has("trace/close"));
    CHECK_FALSE(stage.has("trace/csv"));
}

TEST_CASE("a learner chooses the language in the help, where there are several") {
    const std::vector<screen::Language> two{{"en", "English"}, {"pseudo", "Other"}};
    for (const auto& [width, height] : {std::pair(1280, 800), std::pair(768, 1024)}) {
        CAPTURE(width);
        Stage other(width, height);
        other.click("header/help");
        CHECK_FALSE(other.has("help/language/en")); // nothing to choose between
        other.view.languages = &two;
        other.frames(2);
        REQUIRE(other.has("help/language/en"));
        const std::string english = other.labelOf("help/sheet");
        other.click("help/language/pseudo");
        CHECK(screen::language() == "pseudo");
        CHECK(other.labelOf("help/sheet") != english);
        CHECK(other.rectOf("help/language/pseudo").max.x <= other.rectOf("help/close").min.x);
        other.click("help/language/en");
        CHECK(other.labelOf("help/sheet") == english);
    }
}

TEST_CASE("the help tells of every tool of the wall and every leaf of the paper") {
    Stage stage(1280, 800);
    stage.click("header/help");
    stage.frames(1);
    const std::string help = stage.labelOf("help/sheet");
    for (const char* word :
         {"Strip", "Driver", "Spanner", "Meter", "Trace", "Plan", "Sheet", "Power-up"}) {
        CAPTURE(word);
        CHECK(help.find(word) != std::string::npos);
    }
}

TEST_CASE("on a tablet a card hides neither its own thing nor lies under the paper's tab") {
    Stage stage(768, 1024);
    stage.begin("headlamp");
    stage.lay("B1", 0.2, 0.5);
    stage.lay("F3", 0.4, 0.15);
    stage.lay("S4", 0.65, 0.15);
    stage.lay("E1", 0.9, 0.2);
    stage.frames(2);
    stage.click("rail/trace");
    for (const char* part : {"part/B1", "part/F3", "part/S4", "part/E1"}) {
        CAPTURE(part);
        stage.clickAt(stage.rectOf(part).centre());
        stage.frames(2);
        REQUIRE(stage.has("card/sheet"));
        CHECK(screen::overlap(stage.rectOf("card/sheet"), stage.rectOf(part)) == 0.0f);
        CHECK(stage.rectOf("card/sheet").min.x >= 32.0f); // as far as the tab is drawn
        stage.click("card/close");
    }
}

TEST_CASE("the trace opens in the corner in which it hides least") {
    for (const bool partsAbove : {true, false}) {
        CAPTURE(partsAbove);
        Stage stage(1280, 800);
        stage.begin("headlamp");
        const double y_m = partsAbove ? 0.1 : 0.6;
        stage.lay("B1", 0.2, y_m);
        stage.lay("S4", 0.65, y_m);
        stage.lay("E1", 0.85, y_m);
        stage.frames(2);
        stage.click("rail/trace");
        stage.frames(1);
        for (const char* part : {"part/B1", "part/S4", "part/E1"})
            CHECK(screen::overlap(stage.rectOf("trace/sheet"), stage.rectOf(part)) == 0.0f);
    }
}

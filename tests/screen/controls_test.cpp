// SPDX-License-Identifier: MIT
// The controls as a person meets them: by pressing, dragging and keys on the whole screen.
#include "bench/catalogue.h"
#include "screen/paper/job.h"
#include "screen/sentences.h"
#include "screen/stage.h"

#include <cmath>
#include <doctest/doctest.h>
#include <map>

using namespace loom;
using bench::Sleeve;
using screen::Rect;
using test::Stage;

namespace {

struct Size {
    int width, height;
};

bench::PartId partOf(const Stage& stage, const char* ref) {
    const bench::Part* part = bench::findPart(benchOf(stage), ref);
    return part ? part->id : bench::PartId{};
}

// A battery and the isolator joined, with the key in.
void joinBattery(Stage& stage) {
    stage.begin("");
    stage.lay("B1", 0.3, 0.6);
    stage.lay("Q1", 0.7, 0.4);
    stage.wire("B1 plus", "Q1 in", 10e-6, Sleeve::Red);
    stage.frames(2);
}

bool isControl(const std::string& name) {
    for (const char* start : {"header/",
                              "leaf/",
                              "paper/",
                              "strip/",
                              "tray/",
                              "rail/",
                              "events/",
                              "card/",
                              "help/",
                              "course/"})
        if (name.rfind(start, 0) == 0) return true;
    return false;
}

bool touches(const Rect& a, const Rect& b) {
    return a.min.x < b.max.x && b.min.x < a.max.x && a.min.y < b.max.y && b.min.y < a.max.y;
}

bool inside(const Rect& outer, const Rect& r) {
    return r.min.x >= outer.min.x - 0.6f && r.max.x <= outer.max.x + 0.6f &&
           r.min.y >= outer.min.y - 0.6f && r.max.y <= outer.max.y + 0.6f;
}

// A key that has no words shows as "room/thing".
bool looksLikeAKey(const std::string& label) {
    return label.find(' ') == std::string::npos && label.find('/') != std::string::npos;
}

// What is cut off by the end of a scrolled area may be smaller than a finger.
bool isCut(const Stage& stage, const screen::Item& item) {
    const Rect& tray = stage.view.layout.tray;
    const bool inTray = item.zone == screen::Zone::Tray &&
                        (item.rect.max.x >= tray.max.x - 3.0f || item.rect.width() <= 1.0f ||
                         stage.ui.tray.scroll > 0.0f);
    const bool inPaper = item.zone == screen::Zone::Paper &&
                         (item.rect.height() <= 1.0f || stage.ui.paper.scroll > 0.0f ||
                          item.rect.max.y >= stage.view.layout.paper.max.y - 8.0f);
    return inTray || inPaper;
}

void checkItems(Stage& stage) {
    const float touch = 44.0f * stage.view.layout.unit - 1.0f;
    const Rect window{{0, 0}, ImGui::GetIO().DisplaySize};
    for (const screen::Item& item : stage.ui.items.all()) {
        if (!isControl(item.name)) continue;
        CAPTURE(item.name);
        CAPTURE(item.label);
        CHECK_FALSE(item.label.empty());
        CHECK_FALSE(looksLikeAKey(item.label));
        CHECK(inside(window, item.rect));
        if (item.name == "events/last" || isCut(stage, item)) continue;
        CHECK(item.rect.width() >= touch);
        CHECK(item.rect.height() >= touch);
    }
}

} // namespace

TEST_CASE("the header says in words whether the bench is live") {
    Stage stage(1280, 800);
    stage.begin("");
    CHECK(stage.labelOf("header/status") == "Safe: no battery on the bench");
    stage.lay("B2", 0.15, 0.15);
    stage.frames(1);
    CHECK(stage.labelOf("header/status") == "Safe: no voltage outside the batteries");
    joinBattery(stage);
    stage.run(0.1);
    stage.frames(1);
    CHECK(stage.labelOf("header/status") ==
          "Live: isolator off · key out · 12.8 V at B1 · no current");
    stage.lay("E1", 1.1, 0.5);
    stage.wire("Q1 out", "E1 in", 1e-6, Sleeve::Red);
    stage.wire("E1 out", "B1 minus", 1e-6, Sleeve::Black);
    stage.ask(bench::Edit{bench::Operate{partOf(stage, "Q1"), 1}});
    stage.ask(bench::Edit{bench::Operate{partOf(stage, "Q1"), 2}});
    stage.run(0.5);
    stage.frames(1);
    const std::string live = stage.labelOf("header/status");
    CAPTURE(live);
    CHECK(live.rfind("Live: key in, isolator on · 12.", 0) == 0);
    CHECK(live.find(" V at E1") != std::string::npos);
    CHECK(live.find("A from the batteries") != std::string::npos);
}

TEST_CASE("a shorted battery is a danger with its name, its figure and a shape of its own") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.lay("B1", 0.2, 0.4);
    stage.lay("F3", 0.6, 0.4);
    stage.wire("B1 plus", "F3 in", 10e-6, Sleeve::Red);
    stage.run(0.1);
    stage.frames(3);
    stage.shoot("header-live");
    CHECK(stage.labelOf("header/status").rfind("Live: ", 0) == 0);
    stage.wire("B1 plus", "B1 minus", 10e-6, Sleeve::Black);
    stage.run(0.1);
    stage.frames(3);
    stage.shoot("header-danger");
    const std::string danger = stage.labelOf("header/status");
    CAPTURE(danger);
    const double figure_A =
        stage.session().attempt().reading(partOf(stage, "B1")).current_A;
    CHECK(figure_A > 300.0);
    CHECK(danger.rfind("Danger: B1 is shorted: " + screen::amount(figure_A, "A"), 0) == 0);
}

TEST_CASE("undo and redo work from the header and rest when there is nothing to do") {
    Stage stage(1280, 800);
    stage.begin("");
    CHECK(stage.labelOf("header/undo") == "Undo, not now");
    stage.lay("K1", 0.4, 0.4);
    stage.frames(1);
    CHECK(stage.labelOf("header/undo") == "Undo");
    stage.click("header/undo");
    CHECK(benchOf(stage).parts.empty());
    stage.click("header/redo");
    CHECK(benchOf(stage).parts.size() == 1);
}

TEST_CASE("a check is asked for, its feedback stands on the paper, hints are counted") {
    Stage stage(1280, 800);
    stage.begin("headlamp");
    CHECK_FALSE(stage.has("paper/feedback"));
    CHECK(stage.labelOf("paper/hint") == "Hint: 4 left");
    stage.click("paper/check");
    REQUIRE(stage.session().verdict());
    CHECK(stage.labelOf("paper/feedback").find("still in the tray") != std::string::npos);
    stage.click("paper/hint");
    CHECK(stage.session().hintsTaken().size() == 1);
    CHECK(stage.labelOf("paper/hint") == "Hint: 3 left");
    CHECK(stage.labelOf("paper/hint-said").find("Follow the current") != std::string::npos);
}

TEST_CASE("a check takes no hint away") {
    Stage stage(1280, 800);
    stage.begin("headlamp");
    const std::string before = stage.labelOf("paper/hint");
    for (const auto& [ref, x_m] : {std::pair("B1", 0.2), std::pair("F3", 0.3)})
        stage.lay(ref, x_m, x_m);
    stage.click("paper/check");
    REQUIRE(stage.session().verdict());
    stage.frames(1);
    int passed = 0;
    for (const lesson::Judged& judged : stage.session().verdict()->checks)
        passed += judged.passed ? 1 : 0;
    CAPTURE(passed);
    CHECK(stage.labelOf("paper/hint") == before);
}

TEST_CASE("what a check said outlives a reload, and so does that something changed since") {
    Stage stage(1280, 800);
    stage.begin("headlamp");
    stage.lay("B1", 0.2, 0.5);
    stage.click("paper/check");
    stage.frames(1);
    const std::string said = stage.labelOf("paper/feedback");
    CHECK(said.find("still in the tray") != std::string::npos);
    stage.takeUp(stage.session().attempt().record());
    stage.frames(1);
    CHECK(stage.labelOf("paper/feedback") == said);
    stage.lay("F3", 0.4, 0.2);
    stage.frames(1);
    const std::string changed = stage.labelOf("paper/feedback");
    CHECK(changed.find("changed something since") != std::string::npos);
    stage.takeUp(stage.session().attempt().record());
    stage.frames(1);
    CHECK(stage.labelOf("paper/feedback") == changed);
}

TEST_CASE("another job opens at once, also from a bench that was worked on") {
    Stage stage(1280, 800);
    stage.begin("headlamp");
    stage.click("leaf/course");
    stage.click("course/relay");
    REQUIRE(stage.session().exercise());
    CHECK(stage.session().exercise()->id == "relay");
    CHECK(stage.has("paper/check"));

    stage.lay("K1", 0.8, 0.3);
    stage.click("leaf/course");
    stage.click("course/headlamp");
    CHECK(stage.session().exercise()->id == "headlamp");
}

TEST_CASE("start again, save and open are on the paper") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.lay("B1", 0.4, 0.4);
    stage.frames(1);
    stage.click("leaf/course");
    stage.click("paper/save");
    CHECK(stage.saved);
    stage.click("paper/restart");
    CHECK(partOf(stage, "B1"));
    stage.click("paper/restart/yes");
    CHECK(benchOf(stage).parts.empty());
    stage.click("leaf/course");
    stage.click("paper/open");
    CHECK(stage.opened);
}

TEST_CASE("parts are dragged up out of the tray, and a kind hands out the next one") {
    Stage stage(1280, 800);
    stage.begin("");
    const Rect board = stage.view.layout.board;
    REQUIRE(stage.has("tray/B1"));
    stage.drag(stage.rectOf("tray/B1").centre(), board.centre());
    CHECK(partOf(stage, "B1"));
    CHECK(stage.has("tray/B2"));
    CHECK_FALSE(stage.has("tray/B1"));
}

TEST_CASE("a tap in the tray picks up, and a tap on the board lays it") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.click("tray/B1");
    CHECK(screen::holdsSomething(stage.ui.board));
    stage.clickAt(stage.view.layout.board.centre());
    CHECK(partOf(stage, "B1"));
}

TEST_CASE(
    "a sideways drag scrolls the tray and takes nothing; the wheel and the finder scroll too") {
    Stage stage(1280, 800);
    stage.begin("");
    const ImVec2 from = stage.rectOf("tray/F1").centre();
    stage.drag(from, {from.x - 120.0f, from.y + 4.0f});
    CHECK(benchOf(stage).parts.empty());
    CHECK_FALSE(screen::holdsSomething(stage.ui.board));
    CHECK(stage.ui.tray.scroll == doctest::Approx(120).epsilon(0.15));
    stage.moveTo(stage.view.layout.tray.centre());
    stage.wheel(-1.0f);
    CHECK(stage.ui.tray.scroll > 130.0f);
    stage.click("tray/to/3");
    stage.frames(60);
    const Rect reel = stage.rectOf("tray/reel/2");
    CHECK(reel.width() >= 44.0f);
    stage.click("tray/reel/2");
    CHECK(stage.ui.board.reel == 2);
    CHECK(stage.labelOf("tray/reel/2").find("Chosen") != std::string::npos);
}

TEST_CASE("what is out of sight in the tray is reached by arrow keys and brought into sight") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.ui.items.setFocus("tray/B1");
    stage.frames(2);
    for (int i = 0; i < 12; ++i)
        stage.key(ImGuiKey_RightArrow);
    stage.frames(60);
    const std::string focused = stage.ui.items.focused();
    CAPTURE(focused);
    CHECK(focused.rfind("tray/", 0) == 0);
    CHECK(stage.ui.tray.scroll > 200.0f);
    CHECK(stage.rectOf(focused).width() >= 40.0f);
}

TEST_CASE("the tray shuts and opens") {
    Stage stage(1280, 800);
    const float before = stage.view.layout.board.height();
    stage.click("tray/handle");
    CHECK_FALSE(stage.ui.tray.open);
    CHECK(stage.view.layout.board.height() > before);
    stage.click("tray/handle");
    CHECK(stage.ui.tray.open);
}

TEST_CASE("the key hangs on its hook until it is taken") {
    Stage stage(1280, 800);
    joinBattery(stage);
    CHECK(stage.labelOf("rail/key").find("on its hook") != std::string::npos);
    stage.click("rail/key");
    CHECK(std::holds_alternative<screen::KeyInHand>(stage.ui.board.hand));
    CHECK(stage.labelOf("rail/key").find("in your hand") != std::string::npos);
    screen::letGo(stage.ui.board);
    stage.ask(bench::Edit{bench::Operate{partOf(stage, "Q1"), 1}});
    stage.frames(1);
    CHECK(stage.labelOf("rail/key").find("in the isolator") != std::string::npos);
    stage.begin("headlamp");
    CHECK_FALSE(stage.has("rail/key"));
}

TEST_CASE("the wall's buttons bring the board closer and show it whole again") {
    Stage stage(1280, 800);
    stage.begin("");
    const double whole = stage.ui.board.camera.zoom;
    stage.click("rail/zoom-in");
    CHECK(stage.ui.board.camera.zoom > whole * 1.1);
    stage.click("rail/fit");
    CHECK(stage.ui.board.camera.zoom == doctest::Approx(whole));
}

TEST_CASE("a fault stays on the line until it is read, whatever happens after it") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.lay("B1", 0.2, 0.7);
    stage.lay("B2", 0.5, 0.7);
    stage.lay("S4", 0.8, 0.3);
    stage.lay("K1", 1.1, 0.5);
    stage.wire("B1 plus", "B2 minus", 10e-6, Sleeve::Red);
    stage.wire("B2 plus", "S4 in", 1e-6, Sleeve::Red);
    stage.wire("S4 out", "K1 coil a", 1e-6, Sleeve::Red);
    stage.wire("K1 coil b", "B1 minus", 1e-6, Sleeve::Black);
    const auto turns = [&](int position) {
        stage.ask(bench::Edit{bench::Operate{partOf(stage, "S4"), position}});
        stage.run(0.5);
        stage.frames(1);
    };
    const auto says = [&](const char* words) {
        CAPTURE(stage.labelOf("events/last"));
        CHECK(stage.labelOf("events/last").find(words) != std::string::npos);
    };
    turns(1);
    says("K1 pulled in at");
    turns(0);
    says("K1’s coil kicked to"); // the relay dropped out after it, in the same instant
    says("Put a diode across the coil.");
    turns(1);
    says("K1’s coil kicked to");
    stage.shoot("events-unread");
    stage.click("events/last");
    stage.frames(1);
    says("K1 pulled in at");
    turns(0);
    says("K1’s coil kicked to");
    stage.click("events/all"); // there it can be read too
    stage.click("events/close");
    stage.frames(1);
    says("K1 dropped out.");
}

TEST_CASE("what happened is said, and the whole list opens and closes") {
    Stage stage(1280, 800);
    joinBattery(stage);
    CHECK_FALSE(stage.has("events/all"));
    // A cable bridges the battery.
    stage.wire("B1 plus", "B1 minus", 1e-6, Sleeve::Red);
    stage.run(3.0);
    stage.frames(2);
    REQUIRE_FALSE(stage.session().attempt().events().empty());
    CHECK(stage.labelOf("events/last").find(" s ") != std::string::npos);
    stage.click("events/all");
    CHECK(stage.ui.events.open);
    CHECK(inside(stage.view.layout.board, stage.rectOf("events/list")));
    stage.click("events/close");
    CHECK_FALSE(stage.ui.events.open);
    stage.click("events/all");
    stage.clickAt({stage.view.layout.board.centre().x, stage.view.layout.board.min.y + 20.0f});
    CHECK_FALSE(stage.ui.events.open);
}

TEST_CASE("a card tells the readings of each kind of part beside it and within the board") {
    const std::map<std::string, std::vector<std::string>> told{
        {"B1", {"Voltage", "Gives", "Charge"}},
        {"F2", {"Fitted", "Towards melting"}},
        {"K1", {"Coil", "Through C–NO", "Through C–NC"}},
        {"S1", {"Position", "Current", "Live lamp"}},
        {"S2", {"To forward", "To reverse"}},
        {"E1", {"Voltage", "Power", "Light"}},
        {"P1", {"Voltage", "Power", "Temperature"}},
        {"R1", {"Current", "Power", "Temperature"}},
        {"D1", {"A above K", "Current"}},
        {"M1", {"Speed", "Voltage", "Power"}},
        {"F4", {"Position", "Across it", "Temperature"}}};
    const std::map<std::string, std::string> traced{
        {"B1", "charge"}, {"M1", "speed"}, {"F2", "temperature"}, {"E1", "voltage"}};
    for (const Size& size : std::vector<Size>{{1280, 800}, {768, 1024}, {600, 600}}) {
        Stage stage(size.width, size.height);
        stage.begin("");
        const bench::Kit kit = benchOf(stage).kit;
        for (const bench::PartSlot& slot : kit.parts) {
            CAPTURE(slot.ref);
            CAPTURE(size.width);
            stage.begin("");
            const bench::PartId id = stage.lay(slot.ref, 0.4, 0.5);
            REQUIRE(id);
            stage.frames(2);
            stage.ui.board.chosen = id;
            stage.frames(2);
            REQUIRE(stage.has("card/sheet"));
            const Rect card = stage.rectOf("card/sheet");
            CHECK(inside(stage.view.layout.board, card));
            if (size.width >= 768) CHECK_FALSE(touches(card, stage.rectOf("part/" + slot.ref)));
            const std::string said = stage.labelOf("card/sheet");
            CHECK(said.find(slot.ref) != std::string::npos);
            if (const auto facts = told.find(slot.ref); facts != told.end())
                for (const std::string& fact : facts->second)
                    CHECK_MESSAGE(said.find(fact) != std::string::npos, fact);
            if (const auto offer = traced.find(slot.ref);
                size.width >= 768 && offer != traced.end())
                CHECK(stage.has("card/trace/" + offer->second));
            checkItems(stage);
            stage.click("card/remove");
            CHECK(benchOf(stage).parts.empty());
            CHECK_FALSE(stage.has("card/sheet"));
        }
    }
}

TEST_CASE("a card operates, fits fuses and tells a cable's and a terminal's numbers") {
    Stage stage(1280, 800);
    joinBattery(stage);
    stage.ui.board.chosen = partOf(stage, "Q1");
    stage.frames(2);
    stage.click("card/position/1");
    stage.click("card/position/2");
    CHECK(bench::findPart(benchOf(stage), "Q1")->position == 2);

    stage.lay("F2", 1.1, 0.3);
    stage.ui.board.chosen = partOf(stage, "F2");
    stage.frames(2);
    CHECK(stage.labelOf("card/sheet").find("Fitted 7.5 A") != std::string::npos);
    stage.click("card/blade/30");
    CHECK(bench::findPart(benchOf(stage), "F2")->rating == 30.0);
    stage.click("card/blade/0");
    CHECK(bench::findPart(benchOf(stage), "F2")->rating == 0.0);

    stage.ui.board.chosen = stage.terminal("B1", "plus");
    stage.run(0.1);
    stage.frames(2);
    CHECK(stage.labelOf("card/sheet").find("Voltage 12.8") != std::string::npos);
    stage.click("card/wire");
    CHECK(std::holds_alternative<screen::NewCable>(stage.ui.board.hand));
    screen::letGo(stage.ui.board);

    stage.ui.board.chosen = benchOf(stage).cables.front().id;
    stage.frames(2);
    CHECK(stage.labelOf("card/sheet").find("10 mm²") != std::string::npos);
    stage.click("card/off/0");
    CHECK_FALSE(benchOf(stage).cables.front().ends[0].at);
    stage.click("card/remove");
    CHECK(benchOf(stage).cables.empty());
}

TEST_CASE("a button is pressed through the cable that hangs over it") {
    Stage stage(1280, 800);
    stage.begin("");
    stage.lay("B1", 0.2, 0.3);
    stage.lay("X1", 0.85, 0.3);
    stage.wire("B1 plus", "X1 1 upper", 6e-6, Sleeve::Red);
    stage.frames(30);
    const std::vector<ImVec2>& route_m = stage.ui.board.scene.routes.front().points_m;
    const ImVec2 over = route_m[route_m.size() / 3];
    const bench::PartId button = stage.lay("S3", over.x, over.y);
    stage.frames(2);
    const Rect part = stage.rectOf("part/S3");
    const ImVec2 cap{(part.min.x + part.max.x) / 2, (part.min.y + part.max.y) / 2};
    stage.moveTo(cap);
    stage.press();
    stage.frames(2);
    stage.shoot("button-under-cable");
    CHECK(bench::findPart(benchOf(stage), button)->position == 1);
    stage.release();
    stage.frames(2);
    CHECK(bench::findPart(benchOf(stage), button)->position == 0);
}

TEST_CASE("help lies over everything and closes by its cross or a press beside it") {
    Stage stage(1280, 800);
    stage.click("header/help");
    CHECK(stage.has("help/sheet"));
    checkItems(stage);
    stage.click("help/close");
    CHECK_FALSE(stage.has("help/sheet"));
    stage.click("header/help");
    stage.clickAt({5.0f, 700.0f});
    CHECK_FALSE(stage.has("help/sheet"));
}

TEST_CASE("on a tablet the paper is pulled in over the board and put away again") {
    Stage stage(768, 1024);
    stage.begin("relay");
    CHECK_FALSE(stage.has("leaf/job"));
    stage.click("paper/pull");
    stage.frames(20);
    CHECK(stage.has("leaf/job"));
    stage.click("paper/check");
    CHECK(stage.session().verdict());
    stage.clickAt({740.0f, 400.0f});
    stage.frames(20);
    CHECK_FALSE(stage.has("leaf/job"));
    CHECK(stage.labelOf("strip/job").find("still in the tray") != std::string::npos);
}

TEST_CASE("every target is a finger wide and says what it is, at every size and in every state") {
    for (const Size& size : std::vector<Size>{{1280, 800},
                                              {1920, 1080},
                                              {1024, 768},
                                              {1000, 600},
                                              {768, 1024},
                                              {600, 600},
                                              {820, 600}}) {
        CAPTURE(size.width);
        CAPTURE(size.height);
        Stage stage(size.width, size.height);
        for (const char* exercise : {"", "headlamp", "twenty-four-volts", "relay"}) {
            stage.begin(exercise);
            checkItems(stage);
            stage.ui.paper.pulledIn = true;
            stage.frames(20);
            checkItems(stage);
            stage.ui.paper.coursesOpen = true;
            stage.frames(2);
            checkItems(stage);
            stage.ui.paper.coursesOpen = stage.ui.paper.pulledIn = false;
            stage.frames(20);
        }
    }
}

TEST_CASE("a sentence is parted after its first full stop, not inside a number") {
    const screen::Split split = screen::firstSentence("It takes 0.5 A. Where does it go?");
    CHECK(split.first == "It takes 0.5 A.");
    CHECK(split.rest == "Where does it go?");
    CHECK(screen::firstSentence("Only one.").rest.empty());
    CHECK(screen::firstSentence("").first.empty());
}

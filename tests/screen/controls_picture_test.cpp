// SPDX-License-Identifier: MIT
// Pictures of the whole screen in its states, drawn without a graphics card. With LOOM_SHOTS naming a
// folder they are written there to be looked at; what can be told without eyes is checked.
#include "screen/kit/tones.h"
#include "screen/stage.h"

#include <cmath>
#include <cstdlib>
#include <doctest/doctest.h>
#include <set>
#include <string>
#include <vector>

using namespace loom;
using bench::Sleeve;
using screen::Rect;
using test::Bitmap;
using test::Stage;

namespace {

bool near(const Bitmap& picture, ImVec2 at, ImU32 colour, int within = 6) {
    const unsigned char* p = picture.at(static_cast<int>(at.x), static_cast<int>(at.y));
    for (int i = 0; i < 3; ++i)
        if (std::abs(p[i] - static_cast<int>((colour >> (8 * i)) & 255u)) > within) return false;
    return true;
}

bool anyNear(const Bitmap& picture, const Rect& r, ImU32 colour) {
    for (float y = r.min.y; y < r.max.y; y += 1.0f)
        for (float x = r.min.x; x < r.max.x; x += 1.0f)
            if (near(picture, {x, y}, colour)) return true;
    return false;
}

int coloursIn(const Bitmap& picture, const Rect& r) {
    std::set<unsigned> seen;
    for (int y = static_cast<int>(r.min.y) + 1; y < static_cast<int>(r.max.y) - 1; ++y)
        for (int x = static_cast<int>(r.min.x) + 1; x < static_cast<int>(r.max.x) - 1; ++x) {
            const unsigned char* p = picture.at(x, y);
            seen.insert(static_cast<unsigned>(p[0] << 16 | p[1] << 8 | p[2]));
        }
    return static_cast<int>(seen.size());
}

double different(const Bitmap& a, const Bitmap& b, const Rect& r) {
    int count = 0, all = 0;
    for (int y = static_cast<int>(r.min.y); y < static_cast<int>(r.max.y); ++y)
        for (int x = static_cast<int>(r.min.x); x < static_cast<int>(r.max.x); ++x, ++all)
            for (int i = 0; i < 3; ++i)
                if (std::abs(a.at(x, y)[i] - b.at(x, y)[i]) > 12) {
                    ++count;
                    break;
                }
    return all ? static_cast<double>(count) / all : 0.0;
}

void operate(Stage& stage, const char* ref, int position) {
    const bench::Part* part = bench::findPart(stage.session().attempt().bench(), ref);
    stage.ask(bench::Edit{bench::Operate{part->id, position}});
}

// The third exercise wired as it should be, but for the brake.
void wireRelay(Stage& stage) {
    stage.begin("relay");
    const bench::PartId fuse = stage.lay("F2", 0.424, 0.1);
    stage.lay("S3", 0.212, 0.095);
    stage.lay("K1", 0.877, 0.32);
    stage.lay("M1", 0.82, 0.575);
    stage.ask(bench::Edit{bench::FitFuse{fuse, 7.5}});
    stage.wire("X1 1 upper", "F2 in", 1e-6, Sleeve::Red);
    stage.wire("F2 out", "S3 in", 1e-6, Sleeve::Red);
    stage.wire("S3 out", "K1 coil a", 1e-6, Sleeve::Orange);
    stage.wire("K1 coil b", "X1 10 upper", 1e-6, Sleeve::Black);
    stage.wire("X1 1 lower", "K1 normally open", 6e-6, Sleeve::Red);
    stage.wire("K1 common", "M1 lead 1", 6e-6, Sleeve::White);
    stage.wire("M1 lead 2", "X1 10 lower", 6e-6, Sleeve::Black);
}

void drive(Stage& stage) {
    operate(stage, "Q1", 1);
    operate(stage, "Q1", 2);
    stage.run(0.5);
    operate(stage, "S3", 1);
    stage.run(0.3);
    stage.frames(30);
}

} // namespace

TEST_CASE("each control is seen in its place, at three sizes") {
    struct Size {
        int width, height;
        const char* name;
    };

    for (const Size& size : {Size{1280, 800, "controls-bench"},
                             Size{1920, 1080, "controls-wide"},
                             Size{768, 1024, "controls-tablet"}}) {
        CAPTURE(size.width);
        Stage stage(size.width, size.height);
        wireRelay(stage);
        stage.ask(attempt::AskCheck{});
        drive(stage);
        const Bitmap picture = stage.picture();
        stage.shoot(size.name);
        const screen::Layout& layout = stage.view.layout;
        for (const Rect& r :
             {layout.status, layout.buttons, layout.board, layout.events, layout.tray, layout.rail})
            CHECK(coloursIn(picture, r) > 40);
        const Rect& paper = layout.form == screen::Form::Wide ? layout.paper : layout.strip;
        CHECK(near(picture, {paper.min.x + 6.0f, paper.max.y - 6.0f}, screen::tone::kPaper));
        const float lamp_px = 26.0f * layout.unit; // from the left end of the pill
        CHECK(anyNear(picture,
                      {{layout.status.min.x + lamp_px - 8.0f, layout.status.centre().y - 8.0f},
                       {layout.status.min.x + lamp_px + 8.0f, layout.status.centre().y + 8.0f}},
                      screen::tone::kFault)); // the live lamp
    }
}

TEST_CASE("the lamp, the marks and the note change the picture when there is something to say") {
    Stage stage(1280, 800);
    wireRelay(stage);
    stage.frames(20);
    const Bitmap before = stage.picture();
    stage.ask(attempt::AskCheck{});
    stage.frames(40);
    const Bitmap after = stage.picture();
    stage.shoot("controls-checked");
    CHECK(different(before, after, stage.view.layout.paper) > 0.02);
    CHECK(different(before, after, stage.view.layout.tray) == 0.0);
}

TEST_CASE("what is focused by keyboard is ringed, wherever it is") {
    Stage stage(1280, 800);
    stage.begin("relay");
    stage.ask(attempt::AskCheck{});
    stage.frames(40);
    const Bitmap plain = stage.picture();
    std::vector<std::string> names{"tray/K1"};
    for (const screen::Item& item : stage.ui.items.all())
        for (const char* start : {"header/", "leaf/", "paper/", "check/", "rail/", "events/"})
            if (item.name.rfind(start, 0) == 0) names.push_back(item.name);
    CHECK(names.size() > 16);
    for (const std::string& name : names) {
        CAPTURE(name);
        stage.ui.items.setFocus(name);
        stage.frames(3);
        const Rect r = stage.rectOf(name);
        const Rect round{{r.min.x - 4.0f, r.min.y - 4.0f}, {r.max.x + 4.0f, r.max.y + 4.0f}};
        CHECK(different(plain, stage.picture(), round) > 0.015);
    }
}

TEST_CASE("sheets and cards lie over the bench") {
    Stage stage(1280, 800);
    wireRelay(stage);
    drive(stage);
    const Bitmap plain = stage.picture();
    stage.ui.board.chosen = bench::findPart(stage.session().attempt().bench(), "M1")->id;
    stage.frames(3);
    const Rect card = stage.rectOf("card/sheet");
    const Bitmap carded = stage.picture();
    stage.shoot("controls-card");
    CHECK(different(plain, carded, card) > 0.5);
    CHECK(near(carded, {card.min.x + 6.0f, card.min.y + 20.0f}, screen::tone::kPaper));

    stage.ui.board.chosen = std::monostate{};
    stage.click("events/all");
    stage.frames(5);
    stage.shoot("controls-events");
    CHECK(near(stage.picture(),
               {stage.rectOf("events/list").min.x + 8.0f, stage.rectOf("events/list").max.y - 6.0f},
               screen::tone::kEventPaper));
    stage.click("events/close");

    stage.click("header/help");
    stage.shoot("controls-help");
    CHECK(near(stage.picture(),
               {stage.rectOf("help/sheet").min.x + 8.0f, stage.rectOf("help/sheet").centre().y},
               screen::tone::kPaper));
}

TEST_CASE("the other leaves and states are drawn") {
    Stage stage(1280, 800);
    wireRelay(stage);
    stage.wire("K1 normally closed", "X1 10 upper", 6e-6, Sleeve::Black);
    stage.ask(attempt::AskCheck{});
    stage.frames(40);
    REQUIRE(stage.session().verdict()->solved());
    stage.shoot("controls-solved");
    CHECK(stage.labelOf("events/last").find("Solved.") == 0);
    const Rect slip = stage.view.layout.events;
    const float unit = stage.view.layout.unit;
    const ImVec2 sign{slip.min.x + 26.0f * unit, slip.centre().y};
    const Rect around{{sign.x - 12.0f * unit, sign.y - 12.0f * unit},
                      {sign.x + 12.0f * unit, sign.y + 12.0f * unit}};
    const Bitmap solved = stage.picture();
    CHECK(anyNear(solved, around, screen::tone::kDone)); // a tick,
    CHECK_FALSE(anyNear(solved, around, screen::tone::kAttention)); // no warning
    CHECK(stage.has("paper/next"));
    CHECK(stage.labelOf("paper/feedback").find("safely") != std::string::npos);
    stage.ask(bench::Edit{bench::RemoveCable{benchOf(stage).cables.back().id}});
    stage.frames(2);
    stage.shoot("controls-was-solved");
    CHECK(stage.labelOf("paper/feedback").find("safely") == std::string::npos);
    CHECK(stage.labelOf("paper/feedback").find("changed something since") != std::string::npos);
    CHECK_FALSE(stage.has("paper/next"));
    stage.click("header/undo");
    stage.click("paper/check");
    stage.frames(2);
    CHECK(stage.has("paper/next"));
    stage.click("leaf/course");
    stage.shoot("controls-course");
    CHECK(coloursIn(stage.picture(), stage.view.layout.paper) > 60);
    stage.click("tray/handle");
    stage.shoot("controls-tray-shut");
    CHECK(coloursIn(stage.picture(), stage.view.layout.tray) > 20);
}

TEST_CASE("a tablet's paper and a phone's sentence are drawn") {
    {
        Stage tablet(768, 1024);
        tablet.begin("headlamp");
        tablet.click("paper/pull");
        tablet.frames(20);
        tablet.shoot("controls-tablet-paper");
        CHECK(near(tablet.picture(), {6.0f, 900.0f}, screen::tone::kPaper));
    }
    Stage phone(390, 700);
    phone.shoot("controls-phone");
    CHECK(coloursIn(phone.picture(), {{0, 0}, {390, 700}}) > 30);
}

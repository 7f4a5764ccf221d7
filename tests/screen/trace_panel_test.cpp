// SPDX-License-Identifier: MIT
// The trace as a person meets it: chosen on a card, read with the cursor, moved in time, saved.
#include "screen/stage.h"
#include "screen/trace/words.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace loom;
using bench::Sleeve;
using screen::Rect;
using test::Stage;

namespace {

// A battery, a blade fuse and a switch that shorts it through a long thin cable.
struct Table {
    explicit Table(int width = 1280, int height = 800) : stage(width, height) {
        stage.begin("");
        stage.lay("B1", 0.2, 0.55);
        const bench::PartId fuse = stage.lay("F2", 0.25, 0.15);
        stage.lay("S4", 0.45, 0.15);
        stage.ask(bench::Edit{bench::FitFuse{fuse, 7.5}});
        stage.wire("B1 plus", "F2 in", 1e-6, Sleeve::Red);
        stage.wire("F2 out", "S4 in", 1e-6, Sleeve::Red);
        bench::MakeCable back;
        back.from = stage.terminal("S4", "out");
        back.to = stage.terminal("B1", "minus");
        back.area_m2 = 1e-6;
        back.sleeve = Sleeve::Black;
        back.length_m = 20.0;
        stage.ask(bench::Edit{back});
        stage.run(0.5);
        stage.frames(3);
    }

    const bench::Bench& bench() const { return stage.session().attempt().bench(); }

    const attempt::Trace& trace() const { return stage.session().trace(); }

    const screen::TraceUi& ui() const { return stage.ui.trace; }

    bench::PartId part(const char* ref) const { return bench::findPart(bench(), ref)->id; }

    void choose(const char* ref) {
        stage.ui.board.chosen = part(ref);
        stage.frames(2);
    }

    void traceFuse() {
        choose("F2");
        stage.click("card/trace");
        stage.ui.board.chosen = std::monostate{};
        stage.frames(2);
    }

    // The switch is closed at half a second; the fuse opens some time later.
    void blow() {
        traceFuse();
        stage.run(1.0);
        stage.ask(bench::Edit{bench::Operate{part("S4"), 1}});
        stage.run(4.0);
        stage.frames(2);
    }

    double melted_s() const {
        for (const attempt::BenchEvent& h : stage.session().attempt().events())
            if (h.kind == circuit::EventKind::FuseMelted) return h.time_s;
        return -1.0;
    }

    Stage stage;
};

double timeIn(const std::string& spoken) { // the last number before " s."
    const std::size_t end = spoken.rfind(" s.");
    const std::size_t begin = spoken.rfind(' ', end - 1);
    return std::stod(spoken.substr(begin + 1, end - begin - 1));
}

} // namespace

TEST_CASE("a card's button traces the thing and opens the trace") {
    Table t;
    CHECK_FALSE(t.stage.has("trace/plot"));
    t.choose("F2");
    REQUIRE(t.stage.has("card/trace"));
    t.stage.click("card/trace");
    CHECK(t.trace().size() == 1);
    CHECK(t.stage.has("trace/plot"));
    t.choose("B1");
    t.stage.click("card/trace/voltage");
    CHECK(t.trace().size() == 2);
    CHECK(screen::traceLabel(t.bench(), t.trace().quantity(1)).name == "Voltage of B1");
    t.stage.ui.board.chosen = std::monostate{};
    t.stage.frames(2);
    t.stage.click("trace/remove/1");
    CHECK(t.trace().size() == 1);
    t.stage.click("trace/close");
    CHECK_FALSE(t.stage.has("trace/plot"));
    CHECK(t.trace().size() == 1); // it is kept while the panel is away
}

TEST_CASE("a fifth quantity is refused in words, one traced already opens the panel again") {
    Table t;
    t.traceFuse();
    t.stage.click("trace/close");
    t.choose("F2");
    t.stage.click("card/trace");
    CHECK(t.trace().size() == 1);
    CHECK(t.stage.has("trace/plot"));
    t.stage.click("card/trace/temperature");
    t.choose("S4");
    t.stage.click("card/trace");
    t.stage.click("card/trace/voltage");
    CHECK(t.trace().size() == attempt::Trace::kMost);
    CHECK(t.stage.ui.board.notice.empty());
    t.choose("B1");
    t.stage.click("card/trace");
    CHECK(t.trace().size() == attempt::Trace::kMost);
    CHECK(t.stage.ui.board.notice.find("Four") == 0);
}

TEST_CASE("the trace runs with time, and stands still when paused") {
    Table t;
    t.traceFuse();
    const double before_s = t.ui().end_s;
    t.stage.ask(bench::Edit{bench::Operate{t.part("S4"), 1}});
    t.stage.run(0.3);
    t.stage.frames(1);
    CHECK(t.ui().end_s > before_s + 0.25);
    t.stage.click("trace/pause");
    const double still_s = t.ui().end_s;
    t.stage.run(0.5);
    t.stage.frames(1);
    CHECK(t.ui().end_s == still_s);
    t.stage.click("trace/pause");
    t.stage.frames(1);
    CHECK(t.ui().end_s > still_s + 0.4);
}

TEST_CASE("one press goes back to the moment the fuse opened, with the readings there") {
    Table t;
    t.blow();
    t.stage.run(30.0);
    t.stage.frames(2);
    REQUIRE(t.melted_s() > 0.0);
    t.stage.click("trace/event");
    CHECK(t.ui().paused);
    // More can happen than the fuse: step back to it.
    for (int i = 0; i < 5 && t.ui().cursor_s && *t.ui().cursor_s != t.melted_s(); ++i)
        t.stage.click("trace/event");
    REQUIRE(t.ui().cursor_s);
    CHECK(*t.ui().cursor_s == t.melted_s());
    CHECK(t.ui().end_s - t.ui().span_s < t.melted_s());
    CHECK(t.ui().end_s > t.melted_s());
    // The reading there is of what opened it, not of before or after.
    t.stage.frames(1);
    const std::string said = t.stage.labelOf("trace/plot");
    CAPTURE(said);
    const std::size_t at = said.find(": ");
    REQUIRE(at != std::string::npos);
    CHECK(std::stod(said.substr(at + 2)) > 7.5);
}

TEST_CASE("left and right move the cursor, and the reading with it") {
    Table t;
    t.blow();
    t.stage.click("trace/event");
    const double from_s = *t.ui().cursor_s;
    t.stage.ui.items.setFocus("trace/plot");
    t.stage.frames(1);
    for (int i = 0; i < 10; ++i)
        t.stage.key(ImGuiKey_LeftArrow);
    CHECK(*t.ui().cursor_s < from_s - 0.05);
    CHECK(t.stage.ui.items.focused() == "trace/plot");
    const std::string said = t.stage.labelOf("trace/plot");
    CAPTURE(said);
    CHECK(said.find("Current in F2: ") != std::string::npos);
    CHECK(std::fabs(timeIn(said) - *t.ui().cursor_s) < 0.06);
    for (int i = 0; i < 10; ++i)
        t.stage.key(ImGuiKey_RightArrow);
    CHECK(*t.ui().cursor_s == doctest::Approx(from_s));
}

TEST_CASE("dragging and the wheel go back in time; closer and further change how much is seen") {
    Table t;
    t.blow();
    const Rect plot = t.stage.rectOf("trace/plot");
    const double end_s = t.ui().end_s, span_s = t.ui().span_s;
    t.stage.drag(plot.centre(), {plot.centre().x + 60.0f, plot.centre().y});
    CHECK(t.ui().paused);
    CHECK(t.ui().end_s < end_s - 0.05 * span_s);
    t.stage.click("trace/pause");
    t.stage.moveTo(plot.centre());
    t.stage.frames(2);
    t.stage.wheel(1.0f);
    CHECK(t.ui().paused);
    CHECK(t.ui().end_s < t.stage.session().attempt().now_slices() * attempt::kSlice_s);
    t.stage.click("trace/closer");
    CHECK(t.ui().span_s == doctest::Approx(0.5 * span_s));
    t.stage.click("trace/further");
    t.stage.click("trace/further");
    CHECK(t.ui().span_s == doctest::Approx(2.0 * span_s));
    CHECK(t.stage.ui.board.camera.zoom == 1.0); // the board stays
}

TEST_CASE("table and drawing are saved as files of what is shown") {
    Table t;
    t.blow();
    t.stage.click("trace/csv");
    t.stage.click("trace/svg");
    REQUIRE(t.stage.texts.size() == 2);
    CHECK(t.stage.texts[0].name == "trace.csv");
    CHECK(t.stage.texts[0].text.rfind("time (s),Current in F2 (A),event\r\n", 0) == 0);
    CHECK(t.stage.texts[0].text.find("F2") != std::string::npos);
    CHECK(t.stage.texts[1].name == "trace.svg");
    CHECK(t.stage.texts[1].text.find("<svg") != std::string::npos);
    CHECK(t.stage.texts[1].text.find("Current in F2 (A)") != std::string::npos);
}

TEST_CASE("another job has a trace of its own") {
    Table t;
    t.blow();
    t.stage.begin("relay");
    CHECK(t.trace().idle());
}

TEST_CASE("the panel is dragged by its head and stays on the board") {
    Table t;
    t.traceFuse();
    const Rect before = t.stage.rectOf("trace/sheet");
    const ImVec2 head{before.min.x + 150.0f, before.min.y + 16.0f};
    t.stage.drag(head, {head.x - 300.0f, head.y - 100.0f});
    const Rect after = t.stage.rectOf("trace/sheet");
    CHECK(std::fabs(after.min.x - (before.min.x - 300.0f)) < 2.0f);
    t.stage.drag({after.min.x + 150.0f, after.min.y + 16.0f}, {20.0f, 20.0f});
    const Rect& board = t.stage.view.layout.board;
    CHECK(t.stage.rectOf("trace/sheet").min.x >= board.min.x);
    CHECK(t.stage.rectOf("trace/sheet").min.y >= board.min.y);
}

TEST_CASE("everything on the trace can be hit with a finger and has words, at each size") {
    struct Size {
        int width, height;
    };

    for (const Size size : {Size{1280, 800}, Size{1920, 1080}, Size{768, 1024}}) {
        Table t(size.width, size.height);
        CAPTURE(size.width);
        t.blow();
        t.stage.ui.trace.span_s = 6.0;
        t.choose("F2");
        t.stage.click("card/trace/temperature");
        t.choose("B1");
        t.stage.shoot("trace-card-" + std::to_string(size.width));
        t.stage.click("card/trace/voltage");
        t.stage.ui.board.chosen = std::monostate{};
        t.stage.ask(bench::Edit{bench::FitFuse{t.part("F2"), 7.5}});
        t.stage.run(3.0);
        t.stage.frames(2);
        int seen = 0;
        for (const screen::Item& item : t.stage.ui.items.all()) {
            if (item.name.rfind("trace/", 0) != 0) continue;
            CAPTURE(item.name);
            ++seen;
            const float least = 44.0f * t.stage.view.layout.unit - 0.5f;
            CHECK(item.rect.width() >= least);
            CHECK(item.rect.height() >= least);
            CHECK(item.label.find('/') == std::string::npos);
        }
        CHECK(seen == 12);
        t.stage.shoot("trace-" + std::to_string(size.width));
    }
}

TEST_CASE("pictures of the trace in its states") {
    Table t;
    t.stage.ui.trace.open = true;
    t.stage.frames(2);
    t.stage.shoot("trace-empty");
    t.blow();
    t.stage.run(30.0);
    t.stage.frames(1);
    t.stage.shoot("trace-one");
    t.stage.click("trace/event");
    t.stage.moveTo({-1000, -1000});
    t.stage.frames(2);
    t.stage.shoot("trace-event");
    for (const char* ref : {"B1", "S4"}) {
        t.choose(ref);
        t.stage.click("card/trace");
        if (t.stage.has("card/trace/voltage")) t.stage.click("card/trace/voltage");
    }
    t.stage.ui.board.chosen = std::monostate{};
    t.stage.ask(bench::Edit{bench::FitFuse{t.part("F2"), 7.5}});
    t.stage.run(5.0);
    t.stage.click("trace/pause");
    const Rect plot = t.stage.rectOf("trace/plot");
    t.stage.moveTo({plot.min.x + 0.7f * plot.width(), plot.centre().y});
    t.stage.frames(2);
    t.stage.shoot("trace-four");
}

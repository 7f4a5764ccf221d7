// SPDX-License-Identifier: MIT
// The hand meter as a person meets it: dragged, tapped, by keys; what its display says.
#include "screen/meter/face.h"
#include "screen/stage.h"

#include <cmath>
#include <doctest/doctest.h>

using namespace loom;
using bench::MeterRange;
using bench::Sleeve;
using screen::Measured;
using screen::Rect;
using test::Stage;

namespace {

// One battery with a lamp on it, the meter on the board.
struct Table {
    explicit Table(int width = 1280, int height = 800) : stage(width, height) {
        stage.begin("");
        stage.lay("B1", 0.2, 0.55);
        stage.lay("E1", 0.55, 0.2);
        stage.wire("B1 plus", "E1 in", 1e-6, Sleeve::Red);
        stage.wire("E1 out", "B1 minus", 1e-6, Sleeve::Black);
        stage.ask(bench::Edit{bench::PlaceMeter{{0.85, 0.3}}});
        stage.run(0.2);
        stage.frames(3);
    }

    const bench::Bench& bench() const { return stage.session().attempt().bench(); }

    const bench::Meter& meter() const { return *bench().meter; }

    ImVec2 middle(const char* item) const { return stage.rectOf(item).centre(); }

    void set(MeterRange range) { stage.ask(bench::Edit{bench::SetMeter{range}}); }

    void touch(int which, const char* ref, const char* word) {
        bench::ProbeTip tip;
        tip.terminal = stage.terminal(ref, word);
        stage.ask(bench::Edit{bench::Probe{which, tip}});
    }

    void measureBattery() {
        set(MeterRange::Volts);
        touch(0, "B1", "plus");
        touch(1, "B1", "minus");
        stage.run(1.0);
        stage.frames(60);
    }

    Stage stage;
};

bool on(const bench::ProbeTip& tip, bench::TerminalRef terminal) {
    return tip.terminal && *tip.terminal == terminal;
}

} // namespace

TEST_CASE("a probe dragged to a terminal touches it, and dragged off lies by the meter") {
    Table t;
    t.stage.drag(t.middle("meter/red"), t.middle("terminal/B1/plus"));
    CHECK(on(t.meter().probes[0], t.stage.terminal("B1", "plus")));
    CHECK_FALSE(t.meter().probes[1].terminal);
    CHECK(t.stage.labelOf("meter/red") == "Red probe, B1 plus");
    t.stage.drag(t.middle("meter/red"), {700.0f, 520.0f});
    CHECK_FALSE(t.meter().probes[0].terminal);
    CHECK(t.stage.labelOf("meter/red") == "Red probe, beside the meter");
}

TEST_CASE("a probe is grabbed into its terminal from a finger's width, the nearest winning") {
    Table t;
    const ImVec2 at = t.middle("terminal/B1/plus");
    t.stage.drag(t.middle("meter/black"), {at.x + 14.0f, at.y + 14.0f});
    CHECK((on(t.meter().probes[1], t.stage.terminal("B1", "plus")) ||
           t.meter().probes[1].cable)); // an end lies there too
    t.stage.drag(t.middle("meter/black"), {at.x + 40.0f, at.y + 60.0f});
    CHECK_FALSE(t.meter().probes[1].terminal);
    CHECK_FALSE(t.meter().probes[1].cable);
}

TEST_CASE("a probe can touch the metal of an end beside its terminal, and a loose one") {
    Table t;
    const bench::CableId cable = t.bench().cables[0].id;
    t.stage.ask(bench::Edit{bench::FreeEnd{cable, 1, {0.45, 0.45}}});
    t.stage.frames(2);
    const std::string loose = "end/" + std::to_string(cable.number) + "/1";
    REQUIRE(t.stage.has(loose));
    t.stage.drag(t.middle("meter/red"), t.stage.rectOf(loose).centre());
    CHECK(t.meter().probes[0].cable == cable);
    CHECK(t.meter().probes[0].end == 1);
    CHECK_FALSE(t.meter().probes[0].terminal);
}

TEST_CASE("the knob is turned by tapping a range or the knob itself") {
    Table t;
    t.stage.click("meter/range/volts");
    CHECK(t.meter().range == MeterRange::Volts);
    t.stage.click("meter/range/ohms");
    CHECK(t.meter().range == MeterRange::Ohms);
    t.stage.click("meter/knob");
    CHECK(t.meter().range == MeterRange::Tone);
    t.stage.click("meter/range/off");
    CHECK(t.meter().range == MeterRange::Off);
    CHECK(t.stage.labelOf("meter/body").rfind("Meter, switched off.", 0) == 0);
}

TEST_CASE("keys do the same: take a probe up, go to a terminal, put it there, turn the knob") {
    Table t;
    t.stage.ui.items.setFocus("meter/black");
    t.stage.frames(1);
    t.stage.key(ImGuiKey_Enter);
    REQUIRE(std::holds_alternative<screen::ProbeInHand>(t.stage.ui.board.hand));
    t.stage.ui.items.setFocus("terminal/B1/minus");
    t.stage.frames(1);
    t.stage.key(ImGuiKey_Enter);
    CHECK(on(t.meter().probes[1], t.stage.terminal("B1", "minus")));
    CHECK(std::holds_alternative<std::monostate>(t.stage.ui.board.hand));

    t.stage.ui.items.setFocus("meter/range/volts");
    t.stage.frames(1);
    t.stage.key(ImGuiKey_Enter);
    CHECK(t.meter().range == MeterRange::Volts);

    t.stage.ui.items.setFocus("meter/red");
    t.stage.frames(1);
    t.stage.key(ImGuiKey_Enter);
    const std::string end = "end/" + std::to_string(t.bench().cables[0].id.number) + "/0";
    REQUIRE(t.stage.has(end)); // a joined end is reached while a probe is held
    t.stage.ui.items.setFocus(end);
    t.stage.frames(1);
    t.stage.key(ImGuiKey_Enter);
    CHECK(t.meter().probes[0].cable == t.bench().cables[0].id);

    t.stage.ui.items.setFocus("meter/red");
    t.stage.frames(1);
    t.stage.key(ImGuiKey_Enter);
    t.stage.key(ImGuiKey_Escape);
    CHECK(std::holds_alternative<std::monostate>(t.stage.ui.board.hand));
    CHECK(t.meter().probes[0].cable == t.bench().cables[0].id); // let go, not moved
}

TEST_CASE("dragging the body moves the meter and nothing under it; its hook hangs it up") {
    Table t;
    const bench::Point before = t.meter().at_m;
    const Rect body = t.stage.rectOf("meter/body");
    const ImVec2 grip{body.centre().x, body.max.y - 14.0f};
    t.stage.drag(grip, {grip.x - 200.0f, grip.y + 40.0f});
    CHECK(t.meter().at_m.x_m < before.x_m - 0.15);
    const Rect moved = t.stage.rectOf("meter/body");
    CHECK(std::fabs(moved.min.x - (body.min.x - 200.0f)) < 1.5f);
    CHECK(t.bench().parts.size() == 2);
    t.stage.click("meter/hang");
    CHECK_FALSE(t.bench().meter);
    CHECK_FALSE(t.stage.has("meter/body"));
}

TEST_CASE("Escape lets go of the meter's body where it was") {
    Table t;
    const bench::Point before = t.meter().at_m;
    const Rect body = t.stage.rectOf("meter/body");
    const ImVec2 grip{body.centre().x, body.max.y - 14.0f};
    t.stage.moveTo(grip);
    t.stage.frames(2);
    t.stage.press();
    t.stage.frames(2);
    t.stage.moveTo({grip.x - 150.0f, grip.y});
    t.stage.frames(2);
    CHECK(t.stage.rectOf("meter/body").min.x < body.min.x - 100.0f);
    t.stage.key(ImGuiKey_Escape);
    t.stage.release();
    t.stage.frames(3);
    CHECK(t.meter().at_m.x_m == before.x_m);
    CHECK(t.stage.rectOf("meter/body").min.x == body.min.x);
}

TEST_CASE("the reading is a sentence with its uncertainty, and is counted") {
    Table t;
    t.measureBattery();
    const std::string said = t.stage.labelOf("meter/body");
    CAPTURE(said);
    CHECK(said.rfind("Meter: 12.", 0) == 0);
    CHECK(said.find(" V, give or take 0.") != std::string::npos);
    CHECK(said.find("1 measurement") != std::string::npos);
}

TEST_CASE("resistance on a live circuit is refused in words; an open path reads over") {
    Table t;
    t.measureBattery();
    t.set(MeterRange::Ohms);
    t.stage.run(0.5);
    t.stage.frames(2);
    CHECK(t.stage.labelOf("meter/body").find("Switch it off") != std::string::npos);
    t.stage.ask(bench::Edit{bench::Probe{0, {}}});
    t.stage.run(0.1);
    t.stage.frames(2);
    CHECK(t.stage.labelOf("meter/body").find("No path") != std::string::npos);
}

TEST_CASE("amperes across a battery open the meter's own fuse; a new one can be fitted") {
    Table t;
    t.touch(0, "B1", "plus");
    t.touch(1, "B1", "minus");
    t.set(MeterRange::Amperes);
    t.stage.run(5.0);
    t.stage.frames(2);
    REQUIRE(t.meter().fuseOpen);
    CHECK(t.stage.labelOf("meter/body").find("fuse is open") != std::string::npos);
    t.set(MeterRange::Amperes);
    t.stage.ask(bench::Edit{bench::Probe{0, {}}});
    t.stage.frames(2);
    t.stage.click("meter/fuse");
    CHECK_FALSE(t.meter().fuseOpen);
}

TEST_CASE("continuity sounds and shows that it sounds") {
    Table t;
    t.touch(0, "E1", "in");
    bench::ProbeTip end; // of the cable on it: metal on metal
    end.cable = t.bench().cables[0].id;
    end.end = 1;
    t.stage.ask(bench::Edit{bench::RemovePart{bench::findPart(t.bench(), "B1")->id}});
    t.stage.ask(bench::Edit{bench::Probe{1, end}});
    t.set(MeterRange::Tone);
    t.stage.run(0.5);
    t.stage.frames(2);
    CHECK(t.stage.ui.meter.sounding);
    CHECK(t.stage.labelOf("meter/body").find("the tone sounds") != std::string::npos);
    t.stage.ask(bench::Edit{bench::Probe{1, {}}});
    t.stage.run(0.1);
    t.stage.frames(2);
    CHECK_FALSE(t.stage.ui.meter.sounding);
}

TEST_CASE("the display settles within half a second, or at once without motion") {
    double shown = 0.0;
    for (int i = 0; i < 3; ++i)
        shown = screen::settled(shown, 24.87, 1.0 / 60.0, 0.01);
    CHECK(shown > 5.0);
    CHECK(shown < 24.0);
    for (int i = 0; i < 50; ++i)
        shown = screen::settled(shown, 24.87, 1.0 / 60.0, 0.01);
    CHECK(shown == 24.87);

    Table t;
    t.stage.view.reducedMotion = true;
    t.measureBattery();
    const double value = screen::measured(t.stage.session().attempt()).value;
    t.touch(1, "E1", "in");
    t.stage.run(0.1);
    t.stage.frame();
    CHECK(t.stage.ui.meter.shown.value() != value);
    CHECK(t.stage.ui.meter.shown.value() == screen::measured(t.stage.session().attempt()).value);
}

TEST_CASE("the last digit is restless only as far as the uncertainty allows") {
    Measured reading;
    reading.kind = Measured::Kind::Value;
    reading.range = MeterRange::Volts;
    reading.value = 24.87;
    reading.digit = 0.01;
    reading.uncertainty = 0.14;
    bool moved = false;
    for (int i = 0; i < 60; ++i) {
        const double off = screen::unrest(reading, i * 0.1);
        CHECK(std::fabs(off) <= reading.digit * 1.001);
        moved = moved || off != 0.0;
    }
    CHECK(moved);
    reading.uncertainty = 0.004;
    for (int i = 0; i < 20; ++i)
        CHECK(screen::unrest(reading, i * 0.3) == 0.0);
}

TEST_CASE("the face writes what the number means") {
    struct Row {
        MeterRange range;
        double value, digit;
        const char *digits, *unit;
    };

    const Row rows[] = {
        {MeterRange::Volts, 24.87, 0.01, "24.87", "V"},
        {MeterRange::Volts, -0.004, 0.001, "-0.004", "V"},
        {MeterRange::Volts, -0.0001, 0.001, "0.000", "V"},
        {MeterRange::Ohms, 470.0, 1.0, "470", "Ω"},
        {MeterRange::Ohms, 4700.0, 1.0, "4.700", "kΩ"},
        {MeterRange::Amperes, 0.872, 0.001, "0.872", "A"},
    };
    for (const Row& row : rows) {
        Measured reading;
        reading.kind = Measured::Kind::Value;
        reading.range = row.range;
        reading.value = row.value;
        reading.digit = row.digit;
        const screen::MeterFace face = screen::faceOf(reading, row.value);
        CHECK(face.digits == row.digits);
        CHECK(face.unit == row.unit);
    }
}

TEST_CASE("everything on the meter can be hit with a finger and has words, at each size") {
    struct Size {
        int width, height;
    };

    for (const Size size : {Size{1280, 800}, Size{1920, 1080}, Size{768, 1024}}) {
        Table t(size.width, size.height);
        CAPTURE(size.width);
        t.measureBattery();
        int seen = 0;
        for (const screen::Item& item : t.stage.ui.items.all()) {
            if (item.name.rfind("meter/", 0) != 0) continue;
            CAPTURE(item.name);
            ++seen;
            const float least = 44.0f * t.stage.view.layout.unit - 0.5f;
            CHECK(item.rect.width() >= least);
            CHECK(item.rect.height() >= least);
            CHECK(item.label.find(' ') != std::string::npos);
            CHECK(item.label.find('/') == std::string::npos);
        }
        CHECK(seen == 10);
        t.stage.shoot("meter-" + std::to_string(size.width));
    }
}

TEST_CASE("pictures of the meter in its states") {
    Table t;
    t.set(MeterRange::Tone);
    t.touch(0, "E1", "in");
    t.touch(1, "E1", "in");
    t.stage.run(0.5);
    t.stage.frames(60);
    t.stage.shoot("meter-tone");
    t.measureBattery();
    t.set(MeterRange::Ohms);
    t.stage.run(0.5);
    t.stage.frames(60);
    t.stage.shoot("meter-live");
    t.set(MeterRange::Amperes);
    t.stage.run(5.0);
    t.stage.frames(60);
    t.stage.shoot("meter-fuse");
    t.stage.moveTo(t.middle("meter/red"));
    t.stage.frames(2);
    t.stage.press();
    t.stage.frames(2);
    const ImVec2 at = t.middle("terminal/E1/in");
    t.stage.moveTo({at.x + 60.0f, at.y + 60.0f});
    t.stage.frames(2);
    t.stage.moveTo({at.x + 8.0f, at.y + 8.0f});
    t.stage.frames(3);
    t.stage.shoot("meter-probe");
    t.stage.release();
    t.stage.frames(3);
}

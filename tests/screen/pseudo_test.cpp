// SPDX-License-Identifier: MIT
// Every screen, leaf, overlay, card, refusal and verdict in the pseudo-language, at three sizes: each
// word comes from src/words, and words two fifths longer than the English ones fit where they stand.
#include "bench/catalogue.h"
#include "bench/ends.h"
#include "screen/closeup/closeup.h"
#include "screen/plan_stage.h"
#include "screen/sentences.h"
#include "screen/tour.h"

#include <doctest/doctest.h>

using namespace loom;
using bench::EndKind;
using bench::Sleeve;
using nlohmann::json;
using screen::PaperLeaf;
using test::Stage;
using test::Tour;

namespace {

void report(const Tour& tour) {
    for (const auto& [fault, where] : tour.faults)
        FAIL_CHECK(fault << "  (" << where << ")");
    MESSAGE(tour.looks << " looks, " << tour.texts << " texts");
    CHECK(tour.looks > 0);
}

const lesson::Exercise& exerciseOf(const Tour& tour, const std::string& file) {
    static const lesson::Exercise none;
    const std::string hash = lesson::exerciseFromJson(lessontest::textOf(file)).value().id;
    for (const lesson::Exercise& exercise : tour.stage.session().course())
        if (exercise.id == hash) return exercise;
    return none;
}

void operate(Tour& tour, const char* ref, int position) {
    tour.stage.ask(bench::Edit{bench::Operate{tour.part(ref), position}});
}

// A course's bench with all that it shows without being touched.
void rooms(Tour& tour, const std::string& name) {
    Stage& stage = tour.stage;
    tour.look(name);
    tour.leaf(name + ", job", PaperLeaf::Job);
    tour.leaf(name + ", jobs", PaperLeaf::Job, true);
    if (!stage.session().exercise() || !stage.session().exercise()->plan) return;
    tour.leaf(name + ", plan", PaperLeaf::Plan);
    stage.ui.paper.plan.asRows = true;
    tour.leaf(name + ", plan as rows", PaperLeaf::Plan);
    tour.leaf(name + ", sheet as rows", PaperLeaf::Sheet);
    stage.ui.paper.plan.asRows = false;
    tour.leaf(name + ", sheet", PaperLeaf::Sheet);
    tour.leaf(name + ", power-up", PaperLeaf::PowerUp);
}

} // namespace

TEST_CASE("pseudo-language: each exercise from its beginning, its leaves, its verdict, its hints") {
    Tour tour;
    Stage& stage = tour.stage;
    rooms(tour, "free bench");
    std::vector<std::string> ids;
    for (const lesson::Exercise& exercise : stage.session().course())
        ids.push_back(exercise.id);
    for (const std::string& id : ids) {
        stage.begin(id);
        rooms(tour, id);
        stage.ask(attempt::AskCheck{});
        tour.leaf(id + " checked", PaperLeaf::Job);
        for (const lesson::Check& check : stage.session().exercise()->checks)
            stage.ask(attempt::AskHint{check.id});
        tour.leaf(id + " hints", PaperLeaf::Job);
        tour.look(id + " hints");
        const auto parts = test::benchOf(stage).kit.parts;
        double x_m = 0.15;
        for (const bench::PartSlot& slot : parts)
            stage.lay(slot.ref, x_m = x_m > 0.9 ? 0.15 : x_m + 0.17, 0.35);
        stage.ui.paper.coursesOpen = true;
        tour.cards(id);
        for (const char* asking : {"paper/restart", "paper/open"}) {
            stage.ui.paper.asking = asking;
            tour.leaf(id + " asked", PaperLeaf::Job, true);
        }
    }
    report(tour);
}

TEST_CASE("pseudo-language: every wiring of the suite with its verdict") {
    Tour tour;
    for (const char* file : {"tests/lessons/01-headlamp.wirings.json",
                             "tests/lessons/02-twenty-four-volts.wirings.json",
                             "tests/lessons/03-relay.wirings.json",
                             "tests/lessons/04-pippin.wirings.json"}) {
        const json wirings = lessontest::jsonOf(file);
        const lesson::Exercise& exercise = exerciseOf(tour, wirings["exercise"]);
        for (const char* kind : {"wrong", "right"})
            for (const json& wiring : wirings[kind]) {
                tour.take(exercise, wirings, wiring["steps"]);
                tour.stage.ask(attempt::AskCheck{});
                const std::string name = exercise.id + ", " + wiring["name"].get<std::string>();
                tour.look(name);
                tour.leaf(name, PaperLeaf::Job);
                tour.cards(name);
                if (std::string(kind) == "right" && wiring != wirings[kind][0]) continue;
                tour.stage.ui.events.open = true;
                tour.look(name + ", events");
                tour.stage.ui.events.open = false;
                if (!exercise.plan) continue;
                tour.leaf(name, PaperLeaf::Sheet);
                tour.leaf(name, PaperLeaf::PowerUp);
            }
    }
    report(tour);
}

TEST_CASE("pseudo-language: every refusal under the board and at the pointer") {
    Tour tour;
    Stage& stage = tour.stage;
    stage.begin("relay");
    for (int why = 0; why <= static_cast<int>(bench::Why::UnknownWord); ++why) {
        const bench::Refusal refusal{static_cast<bench::Why>(why),
                                     "K1",
                                     bench::phrase("a-ready-made-cable-in-the-tray"),
                                     bench::phrase("an-end-that-fits-its-terminal")};
        tour.look("refusal " + std::to_string(why),
                  [&](Stage& on) { screen::showNotice(on.ui, screen::sentence(refusal)); });
    }
    report(tour);
}

TEST_CASE("pseudo-language: Pippin running, its cards in every state, and what is worn out") {
    Tour tour;
    Stage& stage = tour.stage;
    stage.open(test::pippinBench());
    tour.cards("Pippin at rest");
    operate(tour, "Q1", 1);
    tour.look("key in");
    operate(tour, "Q1", 2);
    operate(tour, "S1", 1);
    for (const int direction : {0, 2}) {
        operate(tour, "S2", direction);
        operate(tour, "S3", 1);
        stage.run(1.0);
        tour.look("Pippin runs");
        tour.cards("Pippin runs");
        operate(tour, "S3", 0);
        stage.run(1.0);
    }
    stage.ui.events.open = true;
    tour.look("events");
    stage.ui.events.open = false;
    // Only the circuit wears, so what is worn comes from a file: each part in each of its conditions.
    bench::Bench bench = test::benchOf(stage);
    for (const std::size_t which : {2u, 1u}) {
        for (bench::Part& part : bench.parts) {
            const auto& conditions = bench::spec(part.kind).conditions;
            if (which < conditions.size()) part.condition = conditions[which];
        }
        int condition = 0;
        for (bench::Cable& cable : bench.cables)
            cable.condition = static_cast<bench::CableCondition>(1 + condition++ % 3);
        stage.open(bench);
        tour.cards("worn");
    }
    for (const bench::Part& part : bench.parts) {
        for (std::size_t i = 0; i < bench::spec(part.kind).positions.size(); ++i) {
            stage.ask(bench::Edit{bench::Operate{part.id, static_cast<int>(i)}});
            tour.cards("worn " + part.ref);
        }
    }
    for (std::size_t i = 3; i < bench.cables.size(); i += 4)
        stage.ask(bench::Edit{bench::FreeEnd{bench.cables[i].id, 0, {0.5, 0.5}}});
    tour.cards("loose ends");
    stage.ui.events.open = true;
    tour.look("events");
    report(tour);
}

TEST_CASE("pseudo-language: help, tray, trace, tools, what is in the hand") {
    Tour tour;
    Stage& stage = tour.stage;
    stage.open(test::pippinBench());
    stage.ui.help.open = true;
    tour.look("help", [&](Stage& on) { tour.scroll("help", on.ui.help.scroll); });
    stage.ui.help.open = false;
    for (int tool = 0; tool <= static_cast<int>(screen::Tool::Marker); ++tool)
        tour.look("tool", [&](Stage& on) { on.ui.board.tool = static_cast<screen::Tool>(tool); });
    stage.ui.board.tool = screen::Tool::BareHand;
    stage.begin("relay");
    for (float scroll = 0.0f; scroll < 900.0f; scroll += 150.0f)
        tour.look("tray", [&](Stage& on) { on.ui.tray.scroll = scroll; });
    for (const screen::Item& item : std::vector<screen::Item>(stage.ui.items.all()))
        if (item.name.rfind("tray/", 0) == 0)
            tour.look("described " + item.name, [&](Stage& on) {
                const screen::Rect at = on.rectOf(item.name);
                on.moveTo(at.centre());
            });
    stage.moveTo({-1000, -1000});
    tour.look("tray shut", [](Stage& on) { on.ui.tray.open = false; });
    stage.ui.tray.open = true;
    const bench::PartId relay = stage.lay("K1", 0.5, 0.3);
    stage.lay("S3", 0.2, 0.3);
    stage.wire("S3 out", "K1 coil a", 1e-6, Sleeve::Orange);
    const bench::CableId cable = test::benchOf(stage).cables.back().id;
    const auto key = [&](const char* word) { return stage.terminal("K1", word); };
    const screen::Hand hands[] = {screen::FromTray{"F2"},
                                  screen::ReadyMade{"P-06"},
                                  screen::FuseInHand{7.5},
                                  screen::KeyInHand{},
                                  screen::PartInHand{relay, 0, 0},
                                  screen::EndInHand{cable, 0},
                                  screen::NewCable{key("common")},
                                  screen::ProbeInHand{0}};
    stage.ask(bench::Edit{bench::PlaceMeter{{0.8, 0.2}}});
    for (const screen::Hand& hand : hands)
        for (const char* over : {"board", "terminal/K1/common", "terminal/S3/in", "tray"})
            tour.look("hand over " + std::string(over), [&](Stage& on) {
                screen::pickUp(on.ui.board, hand, true);
                const screen::Rect at = std::string(over) == "board"  ? on.view.layout.board
                                        : std::string(over) == "tray" ? on.view.layout.tray
                                                                      : on.rectOf(over);
                on.moveTo(at.centre());
            });
    screen::letGo(stage.ui.board);
    stage.moveTo({-1000, -1000});
    stage.ui.trace.open = true;
    tour.look("trace empty");
    stage.open(test::pippinBench());
    stage.ui.trace.open = true;
    using Kind = attempt::Quantity::Kind;

    const struct {
        Kind kind;
        const char* ref;
    } watched[] = {{Kind::Current, "M1"},
                   {Kind::Speed, "M1"},
                   {Kind::Charge, "B1"},
                   {Kind::Across, "K1"},
                   {Kind::Temperature, "F2"},
                   {Kind::Voltage, "M1"}};

    for (const auto& each : watched) {
        attempt::Quantity quantity;
        quantity.kind = each.kind;
        quantity.part = tour.part(each.ref);
        quantity.terminal = stage.terminal("M1", "lead 1");
        quantity.against = stage.terminal("B1", "minus");
        if (!stage.watch(quantity)) {
            stage.unwatchAll();
            stage.watch(quantity);
        }
        operate(tour, "Q1", 1);
        operate(tour, "Q1", 2);
        operate(tour, "S1", 1);
        operate(tour, "S3", 1);
        stage.run(0.6);
        operate(tour, "S3", 0);
        tour.look("trace");
        tour.look("trace paused", [](Stage& on) { on.ui.trace.paused = true; });
        stage.ui.trace.paused = false;
    }
    report(tour);
}

TEST_CASE("pseudo-language: the meter in every range and the close-up of every end and fault") {
    Tour tour;
    Stage& stage = tour.stage;
    bench::Bench bench = test::pippinBench();
    bench.kit.handmade = {"*"};
    stage.open(bench);
    stage.ask(bench::Edit{bench::PlaceMeter{{0.5, 0.4}}});
    const auto touch = [&](int which, const char* ref, const char* word) {
        bench::ProbeTip tip;
        tip.terminal = stage.terminal(ref, word);
        stage.ask(bench::Edit{bench::Probe{which, tip}});
    };
    touch(0, "B1", "plus");
    for (const char* black : {"minus", "plus"})
        for (int range = 0; range <= static_cast<int>(bench::MeterRange::Amperes); ++range) {
            touch(1,
                  black == std::string("plus") ? "M1" : "B1",
                  black == std::string("plus") ? "lead 1" : "minus");
            stage.ask(bench::Edit{bench::SetMeter{static_cast<bench::MeterRange>(range)}});
            stage.run(0.3);
            tour.look("meter");
        }
    stage.ask(bench::Edit{bench::WearMeter{}});
    tour.look("meter's fuse open");
    stage.ask(bench::Edit{bench::HangMeter{}});

    std::set<std::string> kinds;
    for (const bench::Cable& cable : bench.cables)
        for (int end = 0; end < 2; ++end) {
            const bench::CableEnd& at = cable.ends[static_cast<std::size_t>(end)];
            if (!at.at) continue;
            const std::string kind = std::to_string(static_cast<int>(at.kind)) + "/" +
                                     std::to_string(static_cast<int>(
                                         bench::spec(bench::findPart(bench, at.at->part)->kind)
                                             .terminals[at.at->terminal]
                                             .kind));
            if (!kinds.insert(kind).second) continue;
            const auto shown = [&](const std::string& what) {
                tour.look("close-up of " + kind + " " + what, [&](Stage& on) {
                    on.ui.closeup.way = -1;
                    screen::openCloseup(on.ui.closeup, {cable.id, end, at.at});
                });
            };
            const auto does = [&](const char* what, const bench::Edit& edit) {
                stage.ask(edit);
                shown(what);
            };
            shown("as it is");
            does("screw loose", bench::TurnScrew{*at.at, 0.1});
            does("screw open", bench::TurnScrew{*at.at, 0.0});
            for (const double strip_m : {0.0, 0.003, 0.022})
                does("strip", bench::StripEnd{cable.id, end, strip_m});
            does("twisted", bench::TwistEnd{cable.id, end});
            does("pressed", bench::PressEnd{cable.id, end, at.kind});
            for (const double pushed_m : {0.002, 0.03})
                does("pushed", bench::PushEnd{cable.id, end, pushed_m});
            does("screw tight", bench::TurnScrew{*at.at, 12.0});
            does("screw broken", bench::TurnScrew{*at.at, 50.0});
            does("mended", bench::MendScrew{*at.at});
            does("well", bench::MakeEndWell{cable.id, end});
            does("tugged", bench::TugEnd{cable.id, end});
            does("loose", bench::FreeEnd{cable.id, end, {0.5, 0.5}});
            does("loose, bare", bench::PressEnd{cable.id, end, EndKind::Bare});
            does("joined", bench::JoinEnd{cable.id, end, *at.at});
            does("well again", bench::MakeEndWell{cable.id, end});
        }
    CHECK(kinds.size() > 5);
    tour.look("close-up of a terminal", [&](Stage& on) {
        screen::openCloseup(on.ui.closeup, {{}, 0, on.terminal("X1", "9 upper")});
    });
    report(tour);
}

TEST_CASE(
    "pseudo-language: the sheet while it is marked and when it is handed in; too small a window") {
    Tour tour;
    Stage& stage = tour.stage;
    lesson::Exercise exercise = test::pippinExercise();
    const auto english = [](const bench::Phrase& said) {
        return bench::Phrase(bench::Phrase::Text{{{"en", words::text(said)}}, {}});
    };
    exercise.title = english(exercise.title);
    for (lesson::Text& line : exercise.job)
        line = english(line);
    for (plan::PlanCable& cable : exercise.plan->cables)
        if (!cable.note.empty()) cable.note = english(cable.note);
    stage.takeCourse({exercise});
    stage.begin("pippin-test");
    const auto& rows = stage.session().exercise()->plan->cables;
    stage.ui.paper.asking = "sheet/hand-in";
    tour.leaf("sheet, asked", PaperLeaf::Sheet);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (const PaperLeaf leaf : {PaperLeaf::Plan, PaperLeaf::Sheet}) {
            if (leaf == PaperLeaf::Plan && i % 4 != 0) continue;
            stage.ui.paper.plan.row = i;
            stage.ui.paper.planCable = rows[i].label;
            tour.leaf("row", leaf);
        }
        if (i % 3 == 0) stage.ask(attempt::LookAt{rows[i].label, 0});
        if (i % 3 == 0) tour.leaf("row looked at", PaperLeaf::Sheet);
        if (i % 5 == 4) continue;
        stage.ask(attempt::MarkOff{
            rows[i].label, i % 3 == 1 ? attempt::SheetMark::Wrong : attempt::SheetMark::Right});
        if (i % 3 < 2) tour.leaf("row marked", PaperLeaf::Sheet);
    }
    for (int way = 0; way < 10; way += 3) {
        stage.ui.paper.plan.walk = way;
        tour.leaf("walk", PaperLeaf::Plan);
    }
    stage.ui.paper.plan.walk.reset();
    stage.ask(attempt::HandInSheet{});
    tour.leaf("sheet handed in", PaperLeaf::Sheet);
    stage.resize(390, 700);
    stage.frames(2);
    tour.judge("too small");
    report(tour);
}

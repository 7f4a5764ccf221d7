// SPDX-License-Identifier: MIT
// The Plan, Sheet and Power-up leaves as a person meets them.
#include "bench/catalogue.h"
#include "screen/plan_stage.h"

#include <doctest/doctest.h>

using namespace loom;
using test::Stage;

namespace {

// Pippin whole on the bench, its exercise open, a leaf of the paper in front.
struct AtPlan : Stage {
    AtPlan(int w, int h, const char* leaf, lesson::Exercise exercise = test::pippinExercise())
        : Stage(w, h) {
        takeCourse({std::move(exercise)});
        begin("pippin-test");
        if (view.layout.form == screen::Form::Tablet) {
            click("paper/pull");
            frames(20);
        }
        click(std::string("leaf/") + leaf);
        frames(20);
    }

    const bench::Bench& bench() const { return session().attempt().bench(); }

    std::string chosenOnBench() const {
        const auto* id = std::get_if<bench::CableId>(&ui.board.chosen);
        const bench::Cable* cable = id ? bench::findCable(bench(), *id) : nullptr;
        return cable ? cable->label : "";
    }
};

lesson::Exercise withFault() {
    // P-22 on X1/5 instead of X1/4, as among the faults of Pippin.
    lesson::Exercise exercise = test::pippinExercise();
    for (bench::Cable& cable : exercise.start.cables)
        if (cable.label == "P-22")
            cable.ends[0].at = bench::findTerminal(exercise.start, "X1", "5 lower");
    return exercise;
}

} // namespace

TEST_CASE("A leaf of the plan is there only where the exercise has one") {
    {
        Stage stage(1280, 800);
        CHECK_FALSE(stage.has("leaf/plan"));
        CHECK_FALSE(stage.has("leaf/sheet"));
    }
    AtPlan plan(1280, 800, "plan");
    CHECK(plan.has("leaf/sheet"));
    CHECK(plan.has("leaf/power"));
}

TEST_CASE("Opening the plan pulls the paper wide, and the board makes room") {
    AtPlan stage(1280, 800, "plan");
    CHECK(stage.ui.paper.plan.wide);
    CHECK(stage.rectOf("paper/plan").width() > 700.0f);
    stage.click("paper/handle");
    stage.frames(20);
    CHECK_FALSE(stage.ui.paper.plan.wide);
    CHECK_FALSE(stage.has("paper/plan")); // narrow: the list
    CHECK(stage.has("plan/P-06"));
    stage.click("leaf/plan");
    stage.key(ImGuiKey_Escape);
    CHECK_FALSE(stage.ui.paper.plan.wide);
}

TEST_CASE("A cable touched on the plan is chosen on the bench, and the other way round") {
    AtPlan stage(1280, 800, "plan");
    stage.click("plan/P-10");
    CHECK(stage.ui.paper.planCable == "P-10");
    CHECK(stage.chosenOnBench() == "P-10");
    CHECK(stage.labelOf("plan/chosen").find("K1 common to X1/6") != std::string::npos);
    CHECK_FALSE(stage.has("card/sheet")); // the paper tells of it
    CHECK(stage.labelOf("plan/chosen").find("6 mm² · white · 0.35 m") != std::string::npos);
    for (const bench::Cable& cable : stage.bench().cables)
        if (cable.label == "P-20") stage.ui.board.chosen = cable.id;
    stage.frames(2);
    CHECK(stage.ui.paper.planCable == "P-20");
    CHECK(stage.labelOf("plan/chosen").find("P-20") == 0);
}

TEST_CASE("Both pieces of a cable with one label can be chosen") {
    AtPlan stage(1280, 800, "plan");
    stage.click("plan/P-14");
    const auto first = std::get<bench::CableId>(stage.ui.board.chosen);
    stage.click("plan/P-14/2");
    CHECK(stage.chosenOnBench() == "P-14");
    CHECK(std::get<bench::CableId>(stage.ui.board.chosen) != first);
}

TEST_CASE("Dragging moves the plan and chooses nothing; the wheel brings it closer") {
    AtPlan stage(1280, 800, "plan");
    const screen::Rect before = stage.rectOf("plan/P-10");
    stage.moveTo(stage.rectOf("paper/plan").centre());
    stage.frames(2);
    stage.wheel(3.0f);
    CHECK(stage.ui.paper.plan.sight.zoom > 1.1);
    stage.click("paper/closer");
    const ImVec2 from = stage.rectOf("paper/plan").centre();
    const double x = stage.ui.paper.plan.sight.centre.x;
    stage.drag(from, {from.x - 120.0f, from.y});
    CHECK(stage.ui.paper.plan.sight.centre.x > x + 5.0);
    CHECK(stage.ui.paper.planCable.empty());
    stage.click("paper/whole");
    CHECK(stage.rectOf("plan/P-10").min.x == doctest::Approx(before.min.x));
}

TEST_CASE("The walk round the block says what belongs and how many ends are there, not which") {
    AtPlan stage(1280, 800, "plan", withFault());
    stage.click("paper/walk");
    CHECK(stage.labelOf("walk/said").find("X1/1: position 1 of 10") != std::string::npos);
    for (int i = 0; i < 3; ++i)
        stage.click("walk/next");
    const std::string fourth = stage.labelOf("walk/said");
    CHECK(fourth.find("P-22") != std::string::npos);
    CHECK(fourth.find("1 of 2") != std::string::npos);
    stage.click("walk/next");
    const std::string fifth = stage.labelOf("walk/said");
    CHECK(fifth.find("3 of 2") != std::string::npos);
    CHECK(fifth.find("P-22") == std::string::npos);
    for (int i = 0; i < 6; ++i)
        stage.click("walk/next");
    CHECK_FALSE(stage.has("walk/next"));
}

TEST_CASE("The sheet: look at both ends, mark, hand in, and only then is the missed one told") {
    AtPlan stage(1280, 800, "sheet", withFault());
    const auto& sheet = stage.session().sheet();
    stage.click("sheet/P-22");
    stage.click("sheet/look/0");
    stage.click("sheet/look/1");
    CHECK(sheet.looked.count({"P-22", 0}) == 1);
    CHECK(sheet.looked.count({"P-22", 1}) == 1);
    stage.click("sheet/mark");
    CHECK(stage.session().sheet().marks.at("P-22") == attempt::SheetMark::Right);
    CHECK(stage.labelOf("sheet/chosen").find("X1/5") == std::string::npos);
    // The rest one after the other, as fast as somebody can who looks at nothing.
    for (int i = 0; i < 34 && stage.has("sheet/next"); ++i) {
        stage.click("sheet/next");
        stage.click("sheet/mark");
    }
    CHECK_FALSE(stage.has("sheet/next"));
    stage.click("sheet/hand-in");
    REQUIRE(stage.session().sheet().handedIn);
    CHECK(stage.labelOf("sheet/result").find("One cable was missed") != std::string::npos);
    CHECK(stage.labelOf("sheet/P-22").find("X1/5") != std::string::npos);
    stage.shoot("sheet-handed-in");
}

TEST_CASE("A sheet with open rows is handed in only when asked again") {
    AtPlan stage(1280, 800, "sheet");
    stage.click("sheet/P-06");
    stage.click("sheet/wrong");
    stage.click("sheet/hand-in");
    CHECK_FALSE(stage.session().sheet().handedIn);
    stage.click("sheet/hand-in/no");
    CHECK_FALSE(stage.session().sheet().handedIn);
    stage.click("sheet/hand-in");
    stage.click("sheet/hand-in/yes");
    CHECK(stage.session().sheet().handedIn);
    CHECK(stage.labelOf("sheet/P-06").find("it is right") != std::string::npos);
}

TEST_CASE("The power-up list takes the call and the look at the lamp") {
    AtPlan stage(1280, 800, "power");
    CHECK(stage.has("power/step/1"));
    stage.click("power/lamp");
    stage.click("power/call");
    bool called = false, looked = false;
    for (const attempt::Entry& entry : stage.session().attempt().record().entries) {
        called = called || std::holds_alternative<attempt::CallClear>(entry.command);
        const auto* look = std::get_if<attempt::LookAt>(&entry.command);
        looked = looked || (look && look->name == "S1");
    }
    CHECK(called);
    CHECK(looked);
}

TEST_CASE("What can be pressed on the plan's leaves is large enough and on the screen") {
    for (const auto& [w, h] :
         {std::pair{1280, 800}, std::pair{1920, 1080}, std::pair{1366, 625}, std::pair{768, 1024}})
        for (const char* leaf : {"plan", "sheet", "power"}) {
            AtPlan stage(w, h, leaf);
            CAPTURE(w);
            CAPTURE(leaf);
            for (const screen::Item& item : stage.ui.items.all()) {
                const bool ours =
                    item.name.rfind("paper/", 0) == 0 || item.name.rfind("leaf/", 0) == 0 ||
                    item.name.rfind("walk/", 0) == 0 || item.name.rfind("power/c", 0) == 0 ||
                    item.name.rfind("sheet/next", 0) == 0;
                if (!ours) continue;
                CAPTURE(item.name);
                CHECK(item.rect.width() >= 43.5f);
                CHECK(item.rect.height() >= 43.5f);
                CHECK(item.rect.max.x <= static_cast<float>(w) + 0.5f);
                CHECK(item.rect.max.y <= static_cast<float>(h) + 0.5f);
            }
        }
}

TEST_CASE("The buttons over the plan stand clear of its frame") {
    const plan::PlanDrawing drawing = plan::drawPlan(test::pippinPlan());
    for (const auto& [w, h] : {std::pair{1280, 800}, std::pair{1366, 625}, std::pair{1920, 1080}}) {
        AtPlan stage(w, h, "plan");
        // Two labels, whose places in millimetres are known, say where the frame is.
        const auto labelAt = [&](const char* label, float& y_px, float& y_mm) {
            for (const plan::DrawnCable& cable : drawing.cables)
                if (test::pippinPlan().cables[cable.cable].label == label)
                    y_mm = static_cast<float>(cable.label.min.y);
            y_px = stage.rectOf(std::string("plan/") + label).min.y;
        };
        float high_px = 0, high_mm = 0, low_px = 0, low_mm = 0;
        labelAt("P-19", high_px, high_mm);
        labelAt("P-23", low_px, low_mm);
        const float scale = (low_px - high_px) / (low_mm - high_mm);
        const float frame_px =
            high_px - (high_mm - static_cast<float>(drawing.frame.min.y)) * scale;
        CAPTURE(w);
        CHECK(frame_px > 100.0f);
        CHECK(stage.rectOf("paper/print").max.y + 1.0f <= frame_px);
    }
}

TEST_CASE("Pictures of the plan's leaves") {
    for (const auto& [w, h] : {std::pair{1280, 800},
                               std::pair{1920, 1080},
                               std::pair{1366, 625},
                               std::pair{768, 1024}}) {
        AtPlan stage(w, h, "plan");
        const std::string size = std::to_string(w);
        stage.shoot("plan-" + size);
        stage.click("plan/P-10");
        stage.frames(5);
        stage.shoot("plan-chosen-" + size);
        stage.click("paper/walk");
        stage.click("walk/next");
        stage.shoot("plan-walk-" + size);
        stage.click("paper/rows");
        stage.frames(5);
        stage.shoot("plan-rows-" + size);
        stage.click("paper/drawing");
        stage.click("leaf/sheet");
        stage.frames(5);
        stage.click("sheet/P-06");
        stage.click("sheet/mark");
        stage.frames(5);
        stage.shoot("sheet-chosen-" + size);
        stage.click("leaf/power");
        stage.frames(20);
        stage.shoot("power-" + size);
    }
}

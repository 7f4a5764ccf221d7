// SPDX-License-Identifier: MIT
// The Plan, Sheet and Power-up leaves as a person meets them.
#include "screen/plan_stage.h"

#include <doctest/doctest.h>

using namespace loom;
using test::Stage;

TEST_CASE("Pictures of the plan's leaves") {
    for (const auto& [w, h] : {std::pair{1280, 800}, std::pair{1920, 1080}, std::pair{768, 1024}}) {
        Stage stage(w, h);
        stage.takeCourse({test::pippinExercise()});
        stage.begin("pippin-test");
        const std::string size = std::to_string(w);
        if (w == 768) stage.click("paper/pull");
        stage.frames(20);
        stage.shoot("plan-job-" + size);
        stage.click("leaf/plan");
        stage.frames(20);
        stage.shoot("plan-" + size);
        stage.click("plan/P-10");
        stage.frames(5);
        stage.shoot("plan-chosen-" + size);
        stage.click("paper/walk");
        stage.click("walk/next");
        stage.frames(5);
        stage.shoot("plan-walk-" + size);
        stage.click("paper/rows");
        stage.frames(5);
        stage.shoot("plan-rows-" + size);
        stage.click("paper/drawing");
        stage.click("leaf/sheet");
        stage.frames(5);
        stage.shoot("sheet-" + size);
        stage.click("sheet/P-06");
        stage.frames(5);
        stage.click("sheet/mark");
        stage.frames(5);
        stage.shoot("sheet-chosen-" + size);
        if (stage.has("leaf/power")) {
            stage.click("leaf/power");
            stage.frames(20);
            stage.shoot("power-" + size);
        }
    }
}

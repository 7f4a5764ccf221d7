// SPDX-License-Identifier: MIT
// The wiring plan as a drawing: what makes it readable on a sheet of A4.
#include "lessons/paper_pippin.h"
#include "plan/drawing.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <map>

using namespace loom;
using plan::DrawnCable;
using plan::Mm;
using plan::MmBox;
using plan::Plan;
using plan::PlanDrawing;

namespace {

const PlanDrawing& pippin() {
    static const PlanDrawing drawing = plan::drawPlan(test::pippinPlan());
    return drawing;
}

bool onPage(Mm at) {
    return at.x >= 5.0 && at.y >= 5.0 && at.x <= plan::kPlanPage_mm.x - 5.0 &&
           at.y <= plan::kPlanPage_mm.y - 5.0;
}

bool onPage(const MmBox& box) {
    return onPage(box.min) && onPage(box.max);
}

// How long two stretches run on top of one another.
double shared(Mm a, Mm b, Mm c, Mm d) {
    const bool level = std::fabs(a.y - b.y) < 1e-9, other = std::fabs(c.y - d.y) < 1e-9;
    if (level != other) return 0.0;
    const double across = level ? std::fabs(a.y - c.y) : std::fabs(a.x - c.x);
    if (across > 1.0) return 0.0;
    const double from = level ? std::max(std::min(a.x, b.x), std::min(c.x, d.x))
                              : std::max(std::min(a.y, b.y), std::min(c.y, d.y));
    const double to = level ? std::min(std::max(a.x, b.x), std::max(c.x, d.x))
                            : std::min(std::max(a.y, b.y), std::max(c.y, d.y));
    return std::max(0.0, to - from);
}

double shared(const DrawnCable& a, const DrawnCable& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < a.points.size(); ++i)
        for (std::size_t j = 0; j + 1 < b.points.size(); ++j)
            sum += shared(a.points[i], a.points[i + 1], b.points[j], b.points[j + 1]);
    return sum;
}

} // namespace

TEST_CASE("Every cable of Pippin is on the drawing, from its one terminal to its other") {
    const Plan plan = test::pippinPlan();
    const PlanDrawing& drawing = pippin();
    REQUIRE(drawing.cables.size() == plan.cables.size());
    for (const DrawnCable& cable : drawing.cables) {
        const plan::PlanCable& row = plan.cables[cable.cable];
        CAPTURE(row.label);
        const auto ends = {std::make_pair(row.from, cable.points.front()),
                           std::make_pair(row.to, cable.points.back())};
        for (const auto& [spot, at] : ends) {
            const auto terminal = std::find_if(
                drawing.terminals.begin(), drawing.terminals.end(), [&](const auto& each) {
                    return plan.parts[each.part].ref == spot.ref && each.word == spot.terminal;
                });
            REQUIRE(terminal != drawing.terminals.end());
            CHECK(terminal->mark.contains(at));
        }
        for (std::size_t i = 0; i + 1 < cable.points.size(); ++i) {
            const Mm a = cable.points[i], b = cable.points[i + 1];
            CHECK((a.x == b.x) != (a.y == b.y));
        }
    }
}

TEST_CASE("No label of Pippin's plan covers another label or a part, hardly any a foreign cable") {
    const PlanDrawing& drawing = pippin();
    int lanesCovered = 0;
    for (std::size_t i = 0; i < drawing.cables.size(); ++i) {
        const DrawnCable& cable = drawing.cables[i];
        CAPTURE(test::pippinPlan().cables[cable.cable].label);
        for (std::size_t j = i + 1; j < drawing.cables.size(); ++j)
            CHECK_FALSE(plan::overlap(cable.label, drawing.cables[j].label));
        for (const plan::DrawnPart& part : drawing.parts)
            CHECK_FALSE(plan::overlap(cable.label, part.box));
        for (const DrawnCable& other : drawing.cables) {
            if (&other == &cable) continue;
            for (std::size_t k = 0; k + 1 < other.points.size(); ++k) {
                const Mm a = other.points[k], b = other.points[k + 1];
                const MmBox lane{{std::min(a.x, b.x) - 0.3, std::min(a.y, b.y) - 0.3},
                                 {std::max(a.x, b.x) + 0.3, std::max(a.y, b.y) + 0.3}};
                lanesCovered += plan::overlap(cable.label, lane) ? 1 : 0;
            }
        }
    }
    CHECK(lanesCovered <= 2);
}

TEST_CASE("No two cables of Pippin's plan run on top of one another") {
    const PlanDrawing& drawing = pippin();
    for (std::size_t i = 0; i < drawing.cables.size(); ++i)
        for (std::size_t j = i + 1; j < drawing.cables.size(); ++j) {
            CAPTURE(i);
            CAPTURE(j);
            CHECK(shared(drawing.cables[i], drawing.cables[j]) <= 3.0);
        }
}

TEST_CASE("No cable runs through a part, and parts stand apart") {
    const PlanDrawing& drawing = pippin();
    for (const plan::DrawnPart& part : drawing.parts) {
        const MmBox inner{{part.box.min.x + 1.0, part.box.min.y + 1.0},
                          {part.box.max.x - 1.0, part.box.max.y - 1.0}};
        for (const DrawnCable& cable : drawing.cables)
            for (std::size_t k = 0; k + 1 < cable.points.size(); ++k) {
                const Mm a = cable.points[k], b = cable.points[k + 1];
                CHECK_FALSE(plan::overlap(inner,
                                          {{std::min(a.x, b.x), std::min(a.y, b.y)},
                                           {std::max(a.x, b.x), std::max(a.y, b.y)}}));
            }
        for (const plan::DrawnPart& other : drawing.parts)
            if (other.part != part.part) CHECK_FALSE(plan::overlap(part.box, other.box));
    }
}

TEST_CASE("All of it is on the page") {
    const PlanDrawing& drawing = pippin();
    for (const plan::DrawnPart& part : drawing.parts)
        CHECK(onPage(part.box));
    for (const MmBox& wheel : drawing.wheels)
        CHECK(onPage(wheel));
    for (const DrawnCable& cable : drawing.cables) {
        CHECK(onPage(cable.label));
        for (const Mm at : cable.points)
            CHECK(onPage(at));
    }
}

TEST_CASE("A touch finds the cable under it: its label first, then the nearest line") {
    const PlanDrawing& drawing = pippin();
    for (const DrawnCable& cable : drawing.cables) {
        CHECK(plan::cableAt(drawing, cable.label.centre(), 2.0) == cable.cable);
        // Just outside its terminal, where nothing crosses.
        const Mm a = cable.points[0], b = cable.points[1];
        const double length = std::fabs(a.x - b.x) + std::fabs(a.y - b.y);
        const Mm near{a.x + (b.x - a.x) / length * 2.4 + 0.2, a.y + (b.y - a.y) / length * 2.4};
        CHECK(plan::cableAt(drawing, near, 2.0) == cable.cable);
    }
    CHECK_FALSE(plan::cableAt(drawing, {1.0, 1.0}, 2.0));
}

TEST_CASE("The same plan is drawn the same again") {
    const PlanDrawing again = plan::drawPlan(test::pippinPlan());
    REQUIRE(again.cables.size() == pippin().cables.size());
    for (std::size_t i = 0; i < again.cables.size(); ++i) {
        CHECK(again.cables[i].label.min.x == pippin().cables[i].label.min.x);
        CHECK(again.cables[i].points.size() == pippin().cables[i].points.size());
    }
}

TEST_CASE("Parts heaped on one spot are drawn apart; a cable to nowhere is left out") {
    Plan plan = test::pippinPlan();
    for (plan::PlanPart& part : plan.parts)
        part.at_m = {0.6, 0.4};
    plan.cables[0].to = {"Z9", "plus"};
    const PlanDrawing drawing = plan::drawPlan(plan);
    CHECK(drawing.cables.size() == plan.cables.size() - 1);
    for (const plan::DrawnPart& part : drawing.parts)
        for (const plan::DrawnPart& other : drawing.parts)
            if (part.part < other.part) CHECK_FALSE(plan::overlap(part.box, other.box));
    for (const DrawnCable& cable : drawing.cables)
        CHECK(onPage(cable.label));
}

TEST_CASE("A plan of nothing is a frame") {
    const PlanDrawing drawing = plan::drawPlan({});
    CHECK(drawing.cables.empty());
    CHECK(drawing.frame.width() > 100.0);
}

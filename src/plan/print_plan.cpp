// SPDX-License-Identifier: MIT
// The wiring plan on paper: the drawing with its key, and the cables as a table.
#include "bench/catalogue.h"
#include "bench/limits.h"
#include "plan/print_page.h"

#include <algorithm>

namespace loom::plan {
namespace {

void drawFrame(Page& page, const PrintJob& job, const PlanDrawing& drawing) {
    page.box(drawing.frame, 6.0, 0.4);
    for (const MmBox& wheel : drawing.wheels)
        page.box(wheel, 1.4, 0.4, "#ddd");
    page.text(drawing.frontAt, job.say("plan/front"), {kPlanLegends_mm, false, Anchor::Middle});
    if (!drawing.wheels.empty())
        page.text(
            drawing.axleAt, job.say("plan/axle"), {kPlanLegends_mm, false, Anchor::Middle, -90.0});
}

void drawParts(Page& page, const PrintJob& job, const PlanDrawing& drawing) {
    for (const DrawnPart& part : drawing.parts) {
        const PlanPart& row = job.plan.parts[part.part];
        page.box(part.box, 1.8, 0.4, "#f4f1ea");
        page.textWithin(part.refAt,
                        std::max(part.clear_mm, 8.0),
                        row.ref,
                        {kPlanLetters_mm, true, Anchor::Middle});
        if (part.wordsAt)
            page.textWithin(*part.wordsAt,
                            part.clear_mm,
                            underRef(row, job.say),
                            {kPlanLegends_mm, false, Anchor::Middle});
    }
    for (const DrawnWay& way : drawing.ways) {
        page.box(way.box, 0.0, 0.4, "#f4f1ea");
        page.text(
            way.box.centre(), std::to_string(way.number), {kPlanLegends_mm, true, Anchor::Middle});
    }
    for (const DrawnTerminal& terminal : drawing.terminals) {
        page.box(terminal.mark, 0.6, 0.35, "#fff");
        if (bench::isA(job.plan.parts[terminal.part].kind, bench::PartClass::Block)) continue;
        page.text(terminal.legendAt,
                  terminal.legend == "-" ? "\u2212" : terminal.legend,
                  {kPlanLegends_mm, false, Anchor::Middle});
    }
}

void drawLabels(Page& page, const PrintJob& job, const PlanDrawing& drawing) {
    for (const DrawnCable& cable : drawing.cables)
        if (cable.leader) page.line(*cable.leader, cable.label.centre(), 0.3);
    for (const DrawnCable& cable : drawing.cables) {
        page.box(cable.label, 1.2, 0.35, "#fff");
        page.textWithin(cable.label.centre(),
                        std::max(cable.label.width(), cable.label.height()),
                        job.plan.cables[cable.cable].label,
                        {kPlanLetters_mm, true, Anchor::Middle, cable.turned ? -90.0 : 0.0});
    }
}

// The sleeves in use with their words, in the heading.
void drawKey(Page& page, const PrintJob& job) {
    double x = 82.0;
    for (int i = 0; i < 10; ++i) {
        const bench::Sleeve sleeve = static_cast<bench::Sleeve>(i);
        const bool used = std::any_of(job.plan.cables.begin(),
                                      job.plan.cables.end(),
                                      [&](const PlanCable& each) { return each.sleeve == sleeve; });
        if (!used) continue;
        const std::string said = job.say(std::string("sleeve/") + bench::word(sleeve));
        drawSleeve(page, {{x, 9.2}, {x + 13.0, 9.2}}, sleeve, 1.3);
        page.text({x, 13.4}, said, {3.2});
        x += std::max(16.0, textWidth_em(said) * 3.2 + 2.5);
    }
}

Table cableTable(const PrintJob& job) {
    Table table{{{job.say("print/cable"), 17.0, true},
                 {job.say("print/from"), 38.0},
                 {job.say("print/to"), 38.0},
                 {job.say("print/mm2"), 14.0},
                 {job.say("print/sleeve"), 28.0},
                 {job.say("print/metres"), 19.0},
                 {job.say("print/end-from"), 34.0},
                 {job.say("print/end-to"), 34.0},
                 {job.say("print/note"), 51.0}},
                {}};
    for (const PlanCable& cable : job.plan.cables)
        table.rows.push_back({cable.label,
                              placeWords(job, cable.from),
                              placeWords(job, cable.to),
                              mm2Words(cable.area_m2),
                              sleeveWords(job, cable.sleeve),
                              metresWords(cable.length_m),
                              endWords(job, cable.ends[0]),
                              endWords(job, cable.ends[1]),
                              job.say.text(cable.note)});
    return table;
}

} // namespace

std::string underRef(const PlanPart& part, const Say& say) {
    switch (bench::spec(part.kind).plan.under) {
    case bench::UnderRef::Nothing:
        break;
    case bench::UnderRef::Rating:
        if (part.rating > 0.0)
            return say.text(bench::phrase("n-unit",
                                          {{"n", bench::numeral(part.rating)},
                                           {"unit", bench::spec(part.kind).rating->unit}}));
        break;
    case bench::UnderRef::Words:
        return say(std::string("plan/under/") + bench::spec(part.kind).word);
    }
    return {};
}

std::vector<std::string> planPages(const PrintJob& job) {
    const PlanDrawing drawing = drawPlan(job.plan);
    Page page(job, job.say("print/plan"), 1, 1);
    drawKey(page, job);
    drawFrame(page, job, drawing);
    for (const DrawnCable& cable : drawing.cables)
        drawSleeve(page, cable.points, job.plan.cables[cable.cable].sleeve, cable.width_mm);
    drawParts(page, job, drawing);
    drawLabels(page, job, drawing);
    std::vector<std::string> out{page.finish()};
    for (std::string& each : tablePages(job, job.say("print/cables"), cableTable(job)))
        out.push_back(std::move(each));
    return out;
}

} // namespace loom::plan

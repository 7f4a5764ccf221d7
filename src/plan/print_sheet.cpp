// SPDX-License-Identifier: MIT
// The check sheet on paper: a row a cable, boxes to tick for each end and both persons.
#include "plan/print_page.h"
#include "plan/step.h"

namespace loom::plan {
namespace {

Table checkTable(const PrintJob& job) {
    Table table{{{job.say("print/cable"), 18.0, true},
                 {job.say("print/from"), 42.0},
                 {job.say("print/to"), 42.0},
                 {job.say("print/make"), 40.0},
                 {job.say("print/built-from"), 25.0},
                 {job.say("print/built-to"), 25.0},
                 {job.say("print/checked-from"), 28.0},
                 {job.say("print/checked-to"), 28.0},
                 {job.say("print/note"), 25.0}},
                {}};
    for (const PlanCable& cable : job.plan.cables)
        table.rows.push_back(
            {cable.label,
             placeWords(job, cable.from),
             placeWords(job, cable.to),
             mm2Words(cable.area_m2) + " mm\u00b2 " + sleeveWords(job, cable.sleeve),
             "[]",
             "[]",
             "[]",
             "[]",
             ""});
    return table;
}

// Who built, who checked, when; and the order of powering up to tick.
std::string signingPage(const PrintJob& job) {
    Page page(job, job.say("print/power"), 1, 1);
    double y = kPageTop_mm + 4.0;
    for (const char* key : kStepWords) {
        page.box({{kPageLeft_mm, y - 2.2}, {kPageLeft_mm + 4.4, y + 2.2}}, 0.3, 0.35);
        page.text({kPageLeft_mm + 8.0, y}, job.say(std::string("power/step/") + key), {4.2});
        y += 8.6;
    }
    y += 12.0;
    double x = kPageLeft_mm;
    for (const char* key : {"print/built-by", "print/checked-by", "print/adult", "print/date"}) {
        page.line({x, y}, {x + 60.0, y}, 0.3);
        page.text({x, y + 4.0}, job.say(key), {3.6});
        x += 68.0;
    }
    return page.finish();
}

} // namespace

std::vector<std::string> sheetPages(const PrintJob& job) {
    std::vector<std::string> out = tablePages(job, job.say("print/sheet"), checkTable(job));
    out.push_back(signingPage(job));
    return out;
}

} // namespace loom::plan

// SPDX-License-Identifier: MIT
// What to get and what to cut: the parts, the cables off each reel with their totals, the fittings.
#include "bench/catalogue.h"
#include "bench/limits.h"
#include "plan/print_page.h"

#include <algorithm>
#include <map>

namespace loom::plan {
namespace {

Table partsTable(const PrintJob& job) {
    Table table{{{job.say("print/ref"), 24.0, true},
                 {job.say("print/part"), 70.0},
                 {job.say("print/rating"), 40.0},
                 {job.say("print/got"), 20.0}},
                {}};
    for (const PlanPart& part : job.plan.parts)
        table.rows.push_back({part.ref,
                              job.say(std::string("kind/") + bench::spec(part.kind).word),
                              underRef(part, job.say),
                              "[]"});
    return table;
}

// Thickest first, then by colour: one reel after the other.
std::vector<const PlanCable*> byReel(const Plan& plan) {
    std::vector<const PlanCable*> out;
    for (const PlanCable& cable : plan.cables)
        out.push_back(&cable);
    std::stable_sort(out.begin(), out.end(), [](const PlanCable* a, const PlanCable* b) {
        if (a->area_m2 != b->area_m2) return a->area_m2 > b->area_m2;
        return a->sleeve < b->sleeve;
    });
    return out;
}

bool sameReel(const PlanCable& a, const PlanCable& b) {
    return a.area_m2 == b.area_m2 && a.sleeve == b.sleeve;
}

Table cuttingTable(const PrintJob& job) {
    Table table{{{job.say("print/reel"), 56.0, true},
                 {job.say("print/cable"), 26.0, true},
                 {job.say("print/cut"), 24.0},
                 {job.say("print/end-from"), 44.0},
                 {job.say("print/end-to"), 44.0},
                 {job.say("print/done"), 20.0},
                 {job.say("print/note"), 58.0}},
                {}};
    const std::vector<const PlanCable*> cables = byReel(job.plan);
    double sum_m = 0.0;
    for (std::size_t i = 0; i < cables.size(); ++i) {
        const PlanCable& cable = *cables[i];
        const bool first = i == 0 || !sameReel(*cables[i - 1], cable);
        sum_m = first ? cable.length_m : sum_m + cable.length_m;
        const std::string reel =
            mm2Words(cable.area_m2) + " mm\u00b2 " + sleeveWords(job, cable.sleeve);
        table.rows.push_back({first ? reel : "",
                              cable.label,
                              metresWords(cable.length_m) + " m",
                              endWords(job, cable.ends[0]),
                              endWords(job, cable.ends[1]),
                              "[]",
                              job.say.text(cable.note)});
        const bool last = i + 1 == cables.size() || !sameReel(cable, *cables[i + 1]);
        if (last)
            table.rows.push_back(
                {job.say("print/total") + " " + reel, "", metresWords(sum_m) + " m"});
    }
    return table;
}

Table fittingsTable(const PrintJob& job) {
    // By kind and the conductor it is pressed on; a bare end needs none.
    std::map<std::pair<int, double>, int> counts;
    for (const PlanCable& cable : job.plan.cables)
        for (const bench::EndKind end : cable.ends)
            if (end != bench::EndKind::Bare) ++counts[{static_cast<int>(end), cable.area_m2}];
    Table table{{{job.say("print/fitting"), 60.0, true},
                 {job.say("print/mm2"), 24.0},
                 {job.say("print/count"), 24.0},
                 {job.say("print/got"), 20.0}},
                {}};
    for (const auto& [what, count] : counts)
        table.rows.push_back({endWords(job, static_cast<bench::EndKind>(what.first)),
                              mm2Words(what.second),
                              std::to_string(count),
                              "[]"});
    return table;
}

} // namespace

std::vector<std::string> partsPages(const PrintJob& job) {
    std::vector<std::string> out = tablePages(job, job.say("print/parts"), partsTable(job));
    for (std::string& each : tablePages(job, job.say("print/cutting"), cuttingTable(job)))
        out.push_back(std::move(each));
    for (std::string& each : tablePages(job, job.say("print/fittings"), fittingsTable(job)))
        out.push_back(std::move(each));
    return out;
}

} // namespace loom::plan

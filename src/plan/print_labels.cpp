// SPDX-License-Identifier: MIT
// Labels to cut out, one for each end of each cable, with where that end goes; and the choice of
// pages by a word.
#include "plan/print_page.h"

namespace loom::plan {
namespace {

constexpr std::size_t kAcross = 6, kDown = 14;
constexpr double kWide_mm = 45.0, kHigh_mm = 12.2;

struct EndLabel {
    std::string label, place, make;
};

std::vector<EndLabel> endLabels(const PrintJob& job) {
    std::vector<EndLabel> out;
    for (const PlanCable& cable : job.plan.cables) {
        const std::string make =
            mm2Words(cable.area_m2) + " mm\u00b2 " + sleeveInk(cable.sleeve).letters;
        out.push_back({cable.label, placeWords(job, cable.from), make});
        out.push_back({cable.label, placeWords(job, cable.to), make});
    }
    return out;
}

void drawLabel(Page& page, Mm at, const EndLabel& label) {
    page.path({{at.x, at.y},
               {at.x + kWide_mm, at.y},
               {at.x + kWide_mm, at.y + kHigh_mm},
               {at.x, at.y + kHigh_mm},
               {at.x, at.y}},
              "#777",
              0.2,
              "1.5 1.2");
    page.textWithin({at.x + 2.0, at.y + 4.2}, 24.0, label.label, {5.4, true});
    page.textWithin(
        {at.x + kWide_mm - 2.0, at.y + 4.2}, 18.0, label.make, {3.2, false, Anchor::End});
    page.textWithin({at.x + 2.0, at.y + 9.4}, kWide_mm - 4.0, label.place, {3.6});
}

void append(std::vector<std::string>& pages, std::vector<std::string> more) {
    for (std::string& page : more)
        pages.push_back(std::move(page));
}

} // namespace

std::vector<std::string> labelPages(const PrintJob& job) {
    const std::vector<EndLabel> labels = endLabels(job);
    constexpr std::size_t kEach = kAcross * kDown;
    const std::size_t pages = labels.empty() ? 1 : (labels.size() + kEach - 1) / kEach;
    std::vector<std::string> out;
    for (std::size_t i = 0; i < pages; ++i) {
        Page page(job, job.say("print/labels"), i + 1, pages);
        for (std::size_t j = i * kEach; j < labels.size() && j < (i + 1) * kEach; ++j)
            drawLabel(page,
                      {kPageLeft_mm + kWide_mm * static_cast<double>((j - i * kEach) % kAcross),
                       kPageTop_mm + kHigh_mm * static_cast<double>((j - i * kEach) / kAcross)},
                      labels[j]);
        out.push_back(page.finish());
    }
    return out;
}

bench::Outcome<std::vector<std::string>> printedPages(std::string_view which, const PrintJob& job) {
    if (which == "plan") return planPages(job);
    if (which == "sheet") return sheetPages(job);
    if (which == "parts") return partsPages(job);
    if (which == "labels") return labelPages(job);
    if (which != "all")
        return bench::Refusal{bench::Why::UnknownWord,
                              bench::phrase("paper"),
                              bench::phrase("plan-sheet-parts-labels-or-all"),
                              std::string(which)};
    std::vector<std::string> out = planPages(job);
    append(out, sheetPages(job));
    append(out, partsPages(job));
    append(out, labelPages(job));
    return out;
}

} // namespace loom::plan

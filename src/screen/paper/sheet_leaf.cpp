// SPDX-License-Identifier: MIT
// The Sheet leaf: the second person's cross-check. Choose a cable, look at both its ends on the
// bench, mark it; hand the sheet in, and only then is said what was missed.
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/paper/plan_leaf.h"
#include "screen/sentences.h"

#include <algorithm>
#include <array>
#include <set>

namespace loom::screen {
namespace {

using attempt::SheetMark;
using Kind = lesson::SheetFinding::Kind;

constexpr float kGap_px = 8.0f;
constexpr const char* kHandIn = "sheet/hand-in"; // as PaperUi::asking

SheetMark markOf(const lesson::Sheet& sheet, const std::string& label) {
    const auto found = sheet.marks.find(label);
    return found == sheet.marks.end() ? SheetMark::None : found->second;
}

std::vector<RowLook> looksOf(const Leaf& leaf, const plan::Plan& plan, const PlanCache& cache) {
    std::vector<RowLook> out;
    const auto rows = rowsOnBench(plan, leaf.view.session->attempt().bench());
    for (std::size_t i = 0; i < rows.size(); ++i)
        out.push_back({rows[i].laid, markOf(cache.sheet, plan.cables[i].label), false});
    for (std::size_t i = 0; i < cache.findings.size() && i < out.size(); ++i)
        out[i].missed = cache.findings[i].kind == Kind::Missed;
    return out;
}

std::optional<std::size_t>
nextUnmarked(const plan::Plan& plan, const lesson::Sheet& sheet, std::size_t after) {
    for (std::size_t step = 1; step <= plan.cables.size(); ++step) {
        const std::size_t row = (after + step) % plan.cables.size();
        if (markOf(sheet, plan.cables[row].label) == SheetMark::None) return row;
    }
    return std::nullopt;
}

RowWords sheetWords(const plan::Plan& plan, const lesson::Sheet& sheet, std::size_t row) {
    const plan::PlanCable& cable = plan.cables[row];
    RowWords out = rowWords(plan, row, Laid::Joined);
    const int looked = static_cast<int>(sheet.looked.count({cable.label, 0}) +
                                        sheet.looked.count({cable.label, 1}));
    const SheetMark mark = markOf(sheet, cable.label);
    out.last = words(mark == SheetMark::Right   ? "sheet/is-right"
                     : mark == SheetMark::Wrong ? "sheet/is-wrong"
                     : looked == 0              ? "sheet/look-first"
                     : looked == 1              ? "sheet/looked-one"
                                                : "sheet/looked-both");
    return out;
}

// Two rows of two: look at one end, at the other; not right, mark it or go on.
void drawMarking(const Leaf& leaf, const Rect& at, const plan::Plan& plan, std::size_t row) {
    const Pen& pen = leaf.pen;
    const PlanCache& cache = cacheOf(leaf, plan);
    const plan::PlanCable& cable = plan.cables[row];
    const float gap = pen.px(kGap_px), half = (at.width() - gap) * 0.5f, high = pen.px(44.0f);
    const auto place = [&](int column, int line) {
        return rectAt(at.min.x + static_cast<float>(column) * (half + gap),
                      at.min.y + static_cast<float>(line) * (high + gap),
                      half,
                      high);
    };
    const std::array<plan::Spot, 2> ends{cable.from, cable.to};
    for (int end = 0; end < 2; ++end) {
        const Rect box = place(end, 0);
        if (button(pen,
                   leaf.items,
                   "sheet/look/" + std::to_string(end),
                   words("sheet/look",
                         {{"place", placeOf(plan, ends[static_cast<std::size_t>(end)])}}),
                   Zone::Paper,
                   box,
                   ButtonLook::Paper)) {
            leaf.out.push_back(Do{attempt::LookAt{cable.label, end}});
            showEnd(leaf, plan, row, end);
        }
        if (cache.sheet.looked.count({cable.label, end}) > 0)
            drawMark(pen.list,
                     {box.max.x - pen.px(4.0f), box.min.y + pen.px(4.0f)},
                     pen.px(9.0f),
                     Mark::Done);
    }
    const SheetMark mark = markOf(cache.sheet, cable.label);
    const auto set = [&](SheetMark to) {
        leaf.out.push_back(Do{attempt::MarkOff{cable.label, to}});
    };
    const bool wrong = mark == SheetMark::Wrong;
    if (button(pen,
               leaf.items,
               wrong ? "sheet/mark" : "sheet/wrong",
               words(wrong ? "sheet/right-after-all" : "sheet/wrong"),
               Zone::Paper,
               place(0, 1),
               ButtonLook::Paper))
        set(wrong ? SheetMark::Right : SheetMark::Wrong);
    // Once it is marked, going on stands in the same place: pressing twice marks nothing unseen.
    if (mark == SheetMark::None) {
        if (button(pen,
                   leaf.items,
                   "sheet/mark",
                   words("sheet/mark"),
                   Zone::Paper,
                   place(1, 1),
                   ButtonLook::Main))
            set(SheetMark::Right);
        return;
    }
    const auto next = nextUnmarked(plan, cache.sheet, row);
    if (next && button(pen,
                       leaf.items,
                       "sheet/next",
                       words("sheet/next"),
                       Zone::Paper,
                       place(1, 1),
                       ButtonLook::Main))
        chooseRow(leaf, plan, *next);
}

// Nothing is chosen: begin with the first that is not marked.
void drawBeginning(const Leaf& leaf, const Rect& at, const plan::Plan& plan) {
    const PlanCache& cache = cacheOf(leaf, plan);
    const auto next = nextUnmarked(plan, cache.sheet, plan.cables.size() - 1);
    if (next && button(leaf.pen,
                       leaf.items,
                       "sheet/next",
                       words(cache.sheet.marks.empty() ? "sheet/begin" : "sheet/next"),
                       Zone::Paper,
                       at,
                       ButtonLook::Main))
        chooseRow(leaf, plan, *next);
}

int unmarked(const plan::Plan& plan, const lesson::Sheet& sheet) {
    return static_cast<int>(
        std::count_if(plan.cables.begin(), plan.cables.end(), [&](const auto& cable) {
            return markOf(sheet, cable.label) == SheetMark::None;
        }));
}

// Not every cable is marked: asked for once more, since it cannot be taken back.
void drawQuestion(const Leaf& leaf, const Rect& at) {
    const float half = (at.width() - leaf.pen.px(kGap_px)) * 0.5f;
    if (button(leaf.pen,
               leaf.items,
               "sheet/hand-in/no",
               words("sheet/not-yet"),
               Zone::Paper,
               rectAt(at.min.x, at.min.y, half, at.height()),
               ButtonLook::Paper))
        leaf.ui.asking.clear();
    if (!button(leaf.pen,
                leaf.items,
                "sheet/hand-in/yes",
                words("sheet/hand-in"),
                Zone::Paper,
                {{at.max.x - half, at.min.y}, at.max},
                ButtonLook::Main))
        return;
    leaf.ui.asking.clear();
    leaf.out.push_back(Do{attempt::HandInSheet{}});
}

// The looks want their words whole where there is room.
float marksWidth(const Leaf& leaf, const plan::Plan& plan, std::size_t row, float whole) {
    const Pen& pen = leaf.pen;
    float wide = pen.px(120.0f);
    for (const plan::Spot& spot : {plan.cables[row].from, plan.cables[row].to})
        wide =
            std::max(wide, buttonWidth(pen, words("sheet/look", {{"place", placeOf(plan, spot)}})));
    return std::min(2.0f * wide + pen.px(kGap_px), 0.62f * whole);
}

std::string findingWords(const lesson::SheetFinding& finding) {
    const bool wrong = !finding.difference.empty();
    switch (finding.kind) {
    case Kind::Missed:
        return words("sheet/missed", {{"difference", text(finding.difference)}});
    case Kind::FalseAlarm:
        return words("sheet/false-alarm");
    case Kind::Caught:
        return words("sheet/caught", {{"difference", text(finding.difference)}});
    case Kind::NotMarked:
        return wrong ? words("sheet/not-marked-wrong", {{"difference", text(finding.difference)}})
                     : words("sheet/not-marked");
    case Kind::Confirmed:
        break;
    }
    return words("sheet/confirmed");
}

// The ones that matter most first; what was rightly marked is only counted.
std::vector<std::size_t> inOrder(const std::vector<lesson::SheetFinding>& findings) {
    std::vector<std::size_t> out;
    for (const Kind kind : {Kind::Missed, Kind::FalseAlarm, Kind::NotMarked, Kind::Caught})
        for (std::size_t i = 0; i < findings.size(); ++i)
            if (findings[i].kind == kind) out.push_back(i);
    return out;
}

int countOf(const std::vector<lesson::SheetFinding>& findings, Kind kind) {
    return static_cast<int>(std::count_if(
        findings.begin(), findings.end(), [&](const auto& each) { return each.kind == kind; }));
}

void addFinding(const Leaf& leaf,
                Stack& stack,
                const plan::Plan& plan,
                const lesson::SheetFinding& finding,
                std::size_t row_,
                std::optional<std::size_t>& touched) {
    const Pen& pen = leaf.inner;
    const std::string said =
        findingWords(finding) + (finding.lookedAtBoth || finding.kind == Kind::NotMarked
                                     ? ""
                                     : " " + words("sheet/not-looked"));
    const float textX = pen.px(92.0f), width = stack.width - textX - pen.px(8.0f);
    const float high = pen.paragraphHeight(Face::Body, width, said);
    const bool missed = finding.kind == Kind::Missed;
    stack.add(high + pen.px(22.0f), [=, &leaf, &pen, &plan, &touched, &finding](const Rect& at) {
        const Rect box{{at.min.x - pen.px(6.0f), at.min.y + pen.px(2.0f)},
                       {at.max.x + pen.px(6.0f), at.max.y - pen.px(2.0f)}};
        const Touch touch = row(pen,
                                leaf.items,
                                rowItem("sheet/", plan, row_),
                                finding.label + ". " + said,
                                Zone::Paper,
                                box,
                                leaf.ui.plan.row == row_);
        if (missed)
            pen.list->AddRect(box.min, box.max, tone::kFault, pen.px(8.0f), 0, pen.px(2.0f));
        if (touch.clicked) touched = row_;
        const float top = at.min.y + pen.px(10.0f), middle = top + pen.line(Face::Body) * 0.5f;
        const bool good = finding.kind == Kind::Caught || finding.kind == Kind::Confirmed;
        const bool open = finding.kind == Kind::NotMarked;
        drawMark(pen.list,
                 {at.min.x + pen.px(12.0f), middle},
                 pen.px(11.0f),
                 good   ? Mark::Done
                 : open ? Mark::Empty
                        : Mark::Wrong);
        pen.left(Face::Bold, {at.min.x + pen.px(32.0f), middle}, tone::kInk, finding.label);
        pen.paragraph(Face::Body, {at.min.x + textX, top}, width, tone::kInk, said);
    });
}

void drawFindings(const Leaf& leaf, const Rect& area, const plan::Plan& plan) {
    const Pen& pen = leaf.inner;
    const auto& findings = cacheOf(leaf, plan).findings;
    const int missed = countOf(findings, Kind::Missed);
    std::optional<std::size_t> touched;
    Stack stack(area.width());
    stack.space(pen.px(12.0f));
    const std::string headline =
        missed == 0 ? words("sheet/none-missed")
                    : words("sheet/missed-count", {{"count", std::to_string(missed)}});
    const float high = pen.paragraphHeight(Face::Large, stack.width, headline);
    stack.add(high, [&leaf, &pen, headline, missed](const Rect& at) {
        pen.paragraph(
            Face::Large, at.min, at.width(), missed ? tone::kFault : tone::kDone, headline);
        readable(pen, leaf.items, "sheet/result", headline, Zone::Paper, at, pen.px(6.0f));
    });
    stack.text(pen,
               Face::Body,
               tone::kInkSoft,
               words("sheet/counts",
                     {{"right", std::to_string(countOf(findings, Kind::Confirmed))},
                      {"caught", std::to_string(countOf(findings, Kind::Caught))},
                      {"alarms", std::to_string(countOf(findings, Kind::FalseAlarm))},
                      {"unmarked", std::to_string(countOf(findings, Kind::NotMarked))}}));
    stack.space(pen.px(10.0f));
    for (const std::size_t i : inOrder(findings))
        addFinding(leaf, stack, plan, findings[i], i, touched);
    drawColumn(leaf, area, stack);
    if (touched) chooseRow(leaf, plan, *touched);
}

} // namespace

void askToHandIn(const Leaf& leaf, const plan::Plan& plan) {
    if (unmarked(plan, cacheOf(leaf, plan).sheet) > 0)
        leaf.ui.asking = kHandIn;
    else
        leaf.out.push_back(Do{attempt::HandInSheet{}});
}

std::string sheetCount(const plan::Plan& plan, const lesson::Sheet& sheet) {
    std::set<std::string> all, marked;
    for (const plan::PlanCable& cable : plan.cables) {
        all.insert(cable.label);
        if (markOf(sheet, cable.label) != SheetMark::None) marked.insert(cable.label);
    }
    return words("sheet/count",
                 {{"checked", std::to_string(marked.size())}, {"all", std::to_string(all.size())}});
}

void drawSheetLeaf(const Leaf& leaf, const Rect& whole) {
    const plan::Plan* plan = planOf(*leaf.view.session);
    if (!plan || plan->cables.empty()) return;
    const Pen& pen = leaf.pen;
    PlanUi& ui = leaf.ui.plan;
    const PlanCache& cache = cacheOf(leaf, *plan);
    const Rect area{{whole.min.x, whole.min.y + pen.px(6.0f)},
                    {whole.max.x, whole.max.y - pen.px(8.0f)}};
    if (cache.sheet.handedIn) return drawFindings(leaf, area, *plan);
    PlanPicture picture{
        *plan, cache.drawing, looksOf(leaf, *plan, cache), ui.row, std::nullopt, false, "sheet/"};
    const bool asking = leaf.ui.asking == kHandIn;
    const bool chosen = !asking && ui.row && *ui.row < plan->cables.size();
    RowWords said{sheetCount(*plan, cache.sheet), words("sheet/how"), ""};
    if (chosen) said = sheetWords(*plan, cache.sheet, *ui.row);
    if (asking)
        said.make =
            words("sheet/not-all", {{"count", std::to_string(unmarked(*plan, cache.sheet))}});
    else if (!chosen && unmarked(*plan, cache.sheet) == 0)
        said.make = words("sheet/all-marked");
    const int lines = chosen ? 2 : 1;
    const float buttons =
        chosen ? marksWidth(leaf, *plan, *ui.row, area.width()) : pen.px(asking ? 260.0f : 150.0f);
    const float high =
        std::max(pen.px(120.0f), stripHeight(leaf, area.width(), said, buttons, lines));
    const Rect strip{{area.min.x, area.max.y - high}, area.max};
    const auto touched =
        drawPlanBody(leaf, {area.min, {area.max.x, strip.min.y - pen.px(8.0f)}}, picture);
    const StripBox box = drawStrip(leaf, strip, "sheet/chosen", said, buttons, lines);
    if (asking)
        drawQuestion(leaf, box.buttons);
    else if (chosen)
        drawMarking(leaf, box.buttons, *plan, *ui.row);
    else
        drawBeginning(leaf, box.buttons, *plan);
    if (touched) leaf.ui.asking.clear();
    if (touched) chooseRow(leaf, *plan, *touched);
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The sheet at the left with its clip, title and leaves; on a tablet it is pulled in over the board.
#include "screen/paper/paper.h"

#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/paper/leaf.h"
#include "screen/paper/plan_leaf.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

// The leaves that exist, in their order; another one is another row here.
struct LeafTab {
    const char *name, *key;
    bool courses; // which leaf: coursesOpen while it is shown
    PaperLeaf leaf;
    bool wantsPlan, wide; // only where there is a plan; the paper is pulled wide for it
    void (*draw)(const Leaf& leaf, const Rect& area);
};

constexpr LeafTab kLeaves[] = {
    {"leaf/job", "leaf/job", false, PaperLeaf::Job, false, false, drawJobLeaf},
    {"leaf/plan", "leaf/plan", false, PaperLeaf::Plan, true, true, drawPlanLeaf},
    {"leaf/sheet", "leaf/sheet", false, PaperLeaf::Sheet, true, true, drawSheetLeaf},
    {"leaf/power", "leaf/power", false, PaperLeaf::PowerUp, true, false, drawPowerUpLeaf},
    {"leaf/course", "leaf/course", true, PaperLeaf::Job, false, false, drawCourseLeaf},
};

constexpr float kInset = 18.0f;
constexpr float kTabletBeside = 56.0f; // left beside a wide leaf, to press and be back at the board
constexpr float kWideShare = 0.625f;   // of the window, while the paper is pulled wide

std::string titleOf(const Job& job) {
    return job.exercise ? text(job.exercise->title) : words("free/title");
}

bool isShown(const PaperUi& ui, const LeafTab& tab) {
    return ui.coursesOpen ? tab.courses : !tab.courses && ui.plan.leaf == tab.leaf;
}

bool exists(const lesson::Session& session, const LeafTab& tab) {
    if (tab.leaf == PaperLeaf::PowerUp) return procedureOn(session) != nullptr;
    return !tab.wantsPlan || planOf(session) != nullptr;
}

void openLeaf(const View& view, PaperUi& ui, const LeafTab& tab) {
    ui.coursesOpen = tab.courses;
    if (!tab.courses) ui.plan.leaf = tab.leaf;
    ui.plan.wide = tab.wide && view.layout.form == Form::Wide;
    ui.asking.clear();
}

// Asked for from elsewhere: by the marker.
void openSheet(const View& view, PaperUi& ui) {
    if (!ui.wantsSheet) return;
    for (const LeafTab& tab : kLeaves)
        if (tab.leaf == PaperLeaf::Sheet && exists(*view.session, tab)) {
            openLeaf(view, ui, tab);
            ui.pulledIn = view.layout.form != Form::Wide;
        }
    ui.wantsSheet = false;
}

// The chosen leaf stands out as a raised tab with a stroke under its word.
void drawTab(const Leaf& leaf, const LeafTab& tab, const Rect& rect) {
    const bool chosen = isShown(leaf.ui, tab);
    const std::string label = words(tab.key);
    const Touch touch = row(leaf.pen, leaf.items, tab.name, label, Zone::Paper, rect, chosen);
    const Pen& pen = leaf.pen;
    const Face face = chosen ? Face::Bold : Face::Body;
    if (chosen) {
        pen.list->AddRect(rect.min, rect.max, tone::kPaperLine, pen.px(8.0f), 0, 1.0f);
        const float half = pen.width(face, label) * 0.5f, y = rect.max.y - pen.px(7.0f);
        pen.list->AddLine({rect.centre().x - half, y},
                          {rect.centre().x + half, y},
                          tone::kAttention,
                          pen.px(3.0f));
    }
    pen.centred(face, rect.centre(), tone::kInk, label);
    if (touch.clicked) openLeaf(leaf.view, leaf.ui, tab);
}

float tabWidth(const Pen& pen, const LeafTab& tab) {
    return std::max(pen.px(58.0f), pen.width(Face::Bold, words(tab.key)) + pen.px(26.0f));
}

// Tabs from a place on, in further rows where one does not take them; returns the lower edge.
float drawTabs(const Leaf& leaf, ImVec2 from, float right) {
    const Pen& pen = leaf.pen;
    ImVec2 at = from;
    for (const LeafTab& tab : kLeaves) {
        if (!exists(*leaf.view.session, tab)) continue;
        const float wide = tabWidth(pen, tab);
        if (at.x > from.x && at.x + wide > right) at = {from.x, at.y + pen.px(46.0f)};
        drawTab(leaf, tab, rectAt(at.x, at.y, wide, pen.px(44.0f)));
        at.x += wide + pen.px(6.0f);
    }
    return at.y + pen.px(46.0f);
}

float tabsWidth(const Leaf& leaf) {
    float sum = 0.0f;
    for (const LeafTab& tab : kLeaves)
        if (exists(*leaf.view.session, tab)) sum += tabWidth(leaf.pen, tab) + leaf.pen.px(6.0f);
    return sum;
}

// How far the sheet is, while it is in front.
std::string countWords(const Leaf& leaf) {
    const plan::Plan* plan = planOf(*leaf.view.session);
    if (!plan || leaf.ui.coursesOpen || leaf.ui.plan.leaf != PaperLeaf::Sheet) return {};
    return sheetCount(*plan, leaf.view.session->sheet());
}

// Title over the tabs, or before them where there is room; returns what is left for the leaf.
Rect drawHead(const Leaf& leaf, const Rect& sheet) {
    const Pen& pen = leaf.pen;
    const float x = sheet.min.x + pen.px(kInset), width = sheet.width() - pen.px(2.0f * kInset);
    float y = sheet.min.y + pen.px(28.0f);
    const float closing =
        leaf.view.layout.form == Form::Tablet ? pen.px(36.0f) : 0.0f; // room for the cross
    const std::string title = titleOf(leaf.job);
    const float titleWide = pen.width(Face::Title, title) + pen.px(16.0f);
    const float right = sheet.max.x - pen.px(12.0f);
    if (titleWide + tabsWidth(leaf) + closing <= width) {
        y -= pen.px(6.0f);
        pen.left(Face::Title, {x, y + pen.px(22.0f)}, tone::kInk, title);
        const float at = y + pen.px(22.0f);
        y = drawTabs(leaf, {x + titleWide, y}, right);
        const std::string count = countWords(leaf);
        const float spare = width - closing - titleWide - tabsWidth(leaf);
        if (!count.empty() && pen.width(Face::Bold, count) <= spare)
            pen.right(Face::Bold, {x + width - closing, at}, tone::kInk, count);
    } else {
        y += pen.paragraph(Face::Title, {x, y}, width - closing, tone::kInk, title);
        y = drawTabs(leaf, {sheet.min.x + pen.px(12.0f), y + pen.px(8.0f)}, right);
    }
    pen.list->AddLine(
        {sheet.min.x + pen.px(12.0f), y}, {sheet.max.x - pen.px(12.0f), y}, tone::kPaperLine, 1.2f);
    return {{x, y + pen.px(2.0f)}, {sheet.max.x - pen.px(kInset), sheet.max.y - pen.px(6.0f)}};
}

void drawSheet(const Leaf& leaf, const Rect& sheet) {
    drawPaperSheet(leaf.pen.list, sheet);
    if (leaf.view.layout.form == Form::Wide) drawClip(leaf.pen, {sheet.centre().x, sheet.min.y});
    const Rect rest = drawHead(leaf, sheet);
    for (const LeafTab& tab : kLeaves) {
        if (!isShown(leaf.ui, tab)) continue;
        // A change of exercise or of leaf starts at the top.
        const std::string shown =
            std::string(tab.name) + "/" + (leaf.job.exercise ? leaf.job.exercise->id : "");
        if (leaf.ui.leafShown != shown) {
            leaf.ui.leafShown = shown;
            leaf.ui.scroll = 0.0f;
        }
        return tab.draw(leaf, rest);
    }
}

// At the right edge: pulls the paper wide over the board and pushes it back.
void drawHandle(const Leaf& leaf, const Rect& sheet) {
    if (!planOf(*leaf.view.session)) return;
    const Pen& pen = leaf.pen;
    PlanUi& ui = leaf.ui.plan;
    const float y = sheet.centre().y;
    const Rect target{{sheet.max.x - pen.px(14.0f), y - pen.px(44.0f)},
                      {sheet.max.x + pen.px(30.0f), y + pen.px(44.0f)}};
    const Touch touch = leaf.items.add(
        "paper/handle", words(ui.wide ? "paper/narrow" : "paper/wide"), Zone::Paper, target);
    const Rect tab{{sheet.max.x - pen.px(1.0f), y - pen.px(34.0f)},
                   {sheet.max.x + pen.px(16.0f), y + pen.px(34.0f)}};
    const ImU32 ground = touch.hot || touch.down ? tone::kPaperHot : tone::kPaper;
    drawSoftShadow(pen.list, tab, pen.px(6.0f), pen.px(5.0f), 0.3f);
    pen.list->AddRectFilled(tab.min, tab.max, ground, pen.px(8.0f), ImDrawFlags_RoundCornersRight);
    pen.list->AddRect(
        tab.min, tab.max, tone::kPaperLine, pen.px(8.0f), ImDrawFlags_RoundCornersRight, 1.0f);
    drawChevron(pen.list,
                tab.centre(),
                pen.px(5.0f),
                {ui.wide ? -1.0f : 1.0f, 0},
                tone::kInk,
                pen.px(2.2f));
    if (touch.focused) drawFocusRing(pen.list, tab, pen.px(8.0f));
    const float pulled = ImGui::GetIO().MousePos.x - ImGui::GetIO().MouseClickedPos[0].x;
    if (touch.down && (ui.wide ? -pulled : pulled) > pen.px(40.0f)) {
        ui.wide = !ui.wide;
        leaf.items.letGo();
    } else if (touch.clicked) {
        ui.wide = !ui.wide;
    }
}

float wideRight(const Layout& layout) {
    const float window = layout.rail.max.x + 12.0f * layout.unit;
    return layout.paper.min.x + kWideShare * window;
}

void pullWide(const View& view, PlanUi& ui) {
    const float goal = ui.wide ? 1.0f : 0.0f,
                step = view.reducedMotion ? 1.0f : ImGui::GetIO().DeltaTime / 0.16f;
    ui.pulled =
        goal > ui.pulled ? std::min(goal, ui.pulled + step) : std::max(goal, ui.pulled - step);
}

// Wide screen: the sheet hangs at the left; pulled wide it takes every press upon it.
void drawHanging(const Leaf& leaf) {
    PlanUi& ui = leaf.ui.plan;
    const Layout& layout = leaf.view.layout;
    pullWide(leaf.view, ui);
    Rect sheet = layout.paper;
    const float eased = 1.0f - (1.0f - ui.pulled) * (1.0f - ui.pulled);
    sheet.max.x += (wideRight(layout) - sheet.max.x) * eased;
    // The clip stands over the sheet a little.
    const Rect covered{{sheet.min.x, sheet.min.y - leaf.pen.px(24.0f)}, sheet.max};
    if (ui.pulled > 0.0f) leaf.items.add("paper/sheet", titleOf(leaf.job), Zone::Paper, covered);
    drawSheet(leaf, sheet);
    drawHandle(leaf, sheet);
}

void pullIn(const Leaf& leaf) {
    leaf.ui.pulledIn = true;
    if (leaf.items.focusVisible()) leaf.items.setFocus("paper/close");
}

// Under the board's top, to the left edge: the name of the paper, written upwards.
void drawLeafTab(const Leaf& leaf) {
    const Pen& pen = leaf.pen;
    const Rect& target = leaf.view.layout.leafTab;
    const Touch touch = leaf.items.add("paper/pull", words("paper/pull"), Zone::Paper, target);
    const Rect tab{target.min, {target.min.x + pen.px(32.0f), target.max.y}};
    drawSoftShadow(pen.list, tab, pen.px(6.0f), pen.px(7.0f), 0.35f);
    const ImU32 ground = touch.hot || touch.down ? tone::kPaperHot : tone::kPaper;
    pen.list->AddRectFilled(tab.min, tab.max, ground, pen.px(8.0f), ImDrawFlags_RoundCornersRight);
    pen.list->AddRect(
        tab.min, tab.max, tone::kPaperLine, pen.px(8.0f), ImDrawFlags_RoundCornersRight, 1.0f);
    if (touch.focused) drawFocusRing(pen.list, tab, pen.px(8.0f));
    pen.upward(Face::Bold,
               {tab.centre().x + pen.px(0.5f), tab.centre().y + pen.px(10.0f)},
               tone::kInk,
               words("leaf/job"));
    drawChevron(pen.list,
                {tab.centre().x, tab.min.y + pen.px(20.0f)},
                pen.px(5.0f),
                {1, 0},
                tone::kInkSoft,
                pen.px(2.0f));
    if (touch.clicked) pullIn(leaf);
}

// Tablet: the job's title, what was said last, the main action.
void drawStrip(const Leaf& leaf) {
    const Pen& pen = leaf.pen;
    const Rect& strip = leaf.view.layout.strip;
    drawPaperSheet(pen.list, strip);
    const float wide =
        std::min(buttonWidth(pen, mainActionWords(leaf.job)) + pen.px(4.0f), strip.width() * 0.4f);
    const Rect action{{strip.max.x - pen.px(12.0f) - wide, strip.centre().y - pen.px(22.0f)},
                      {strip.max.x - pen.px(12.0f), strip.centre().y + pen.px(22.0f)}};
    const Rect said{strip.min, {action.min.x - pen.px(8.0f), strip.max.y}};
    std::string line = words("free/strip");
    if (leaf.job.exercise) {
        line =
            leaf.job.exercise->job.empty() ? std::string() : text(leaf.job.exercise->job.front());
        if (leaf.job.solved)
            line = words("job/solved-line", {{"marks", std::to_string(leaf.job.verdict->marks)}});
        else if (leaf.job.wasSolved)
            line = words("job/was-solved") + " " + words("job/changed-since");
        else if (leaf.job.failing)
            line = leaf.job.headline + " " + leaf.job.explanation;
    }
    const std::string title = titleOf(leaf.job);
    const Touch touch =
        row(pen, leaf.items, "strip/job", title + ". " + line, Zone::Paper, said, false);
    const float x = said.min.x + pen.px(22.0f), room = said.width() - pen.px(26.0f);
    pen.left(Face::Title,
             {x, strip.centre().y - pen.px(12.5f)},
             tone::kInk,
             pen.cut(Face::Title, title, room));
    pen.left(Face::Body,
             {x, strip.centre().y + pen.px(14.0f)},
             tone::kInk,
             pen.cut(Face::Body, line, room));
    if (touch.clicked) {
        pullIn(leaf);
        leaf.ui.coursesOpen = false;
    }
    drawMainAction(leaf, action, "strip");
}

// The plan and the sheet want all the width there is on a tablet.
bool wantsRoom(const PaperUi& ui) {
    for (const LeafTab& tab : kLeaves)
        if (isShown(ui, tab)) return tab.wide;
    return false;
}

// Moves the pulled-in paper by this frame's share of its way.
void slide(const View& view, PaperUi& ui) {
    const float goal = ui.pulledIn ? 1.0f : 0.0f;
    const float step = view.reducedMotion ? 1.0f : ImGui::GetIO().DeltaTime / 0.16f;
    ui.slide = goal > ui.slide ? std::min(goal, ui.slide + step) : std::max(goal, ui.slide - step);
}

void drawPulledIn(const Leaf& leaf) {
    PaperUi& ui = leaf.ui;
    const Pen& pen = leaf.pen;
    const float eased = 1.0f - (1.0f - ui.slide) * (1.0f - ui.slide);
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    pen.list->AddRectFilled({0, 0}, window, art::fade(IM_COL32_BLACK, 0.3f * eased));
    Rect sheet = leaf.view.layout.paper;
    if (wantsRoom(leaf.ui)) sheet.max.x = std::max(sheet.max.x, window.x - pen.px(kTabletBeside));
    const float away = (1.0f - eased) * (sheet.width() + pen.px(20.0f));
    sheet.min.x -= away;
    sheet.max.x -= away;
    if (!ui.pulledIn) return drawPaperSheet(pen.list, sheet);
    // A press beside it puts it away, and nothing under it is pressed by accident.
    const Touch beside =
        leaf.items.add("paper/beside", words("close"), Zone::Paper, {{sheet.max.x, 0}, window});
    const Touch all = leaf.items.add(
        "paper/sheet", words("leaf/job"), Zone::Paper, {{0, 0}, {sheet.max.x, window.y}});
    drawSheet(leaf, sheet);
    if (all.focused || beside.focused) drawFocusRing(pen.list, shrunk(sheet, 4.0f), pen.px(3.0f));
    const bool closed = closeButton(pen,
                                    leaf.items,
                                    "paper/close",
                                    Zone::Paper,
                                    {sheet.max.x - pen.px(28.0f), sheet.min.y + pen.px(36.0f)});
    if (!beside.clicked && !closed) return;
    ui.pulledIn = false;
    if (leaf.items.focusVisible()) leaf.items.setFocus("paper/pull");
}

} // namespace

void drawColumn(const Leaf& leaf, const Rect& area, const Stack& stack) {
    const Pen& pen = leaf.inner;
    Window& window = *pen.window;
    window.area = area;
    PaperUi& ui = leaf.ui;
    scrollBy(leaf.items, area, Axis::Down, stack.height(), leaf.free, ui.scroll, ui.grip);
    const Item* focus = leaf.items.focusVisible() ? leaf.items.find(leaf.items.focused()) : nullptr;
    if (leaf.free && focus && focus->zone == Zone::Paper) pageByKeys(area, ui.scroll, ui.grip);
    // A little more at the sides, for rings round what stands at the edge.
    const float spare = pen.px(8.0f);
    pen.list->PushClipRect(
        {area.min.x - spare, area.min.y}, {area.max.x + spare, area.max.y}, true);
    stack.draw({area.min.x, std::round(area.min.y - ui.scroll)});
    pen.list->PopClipRect();
    // What goes on beyond an edge fades out there.
    const float fade = pen.px(22.0f), below = stack.height() - ui.scroll - area.height();
    const ImU32 solid = tone::kPaper, clear = art::fade(tone::kPaper, 0.0f);
    if (below > 1.0f)
        pen.list->AddRectFilledMultiColor({area.min.x - spare, area.max.y - fade},
                                          {area.max.x + spare, area.max.y},
                                          clear,
                                          clear,
                                          solid,
                                          solid);
    if (ui.scroll > 1.0f)
        pen.list->AddRectFilledMultiColor({area.min.x - spare, area.min.y},
                                          {area.max.x + spare, area.min.y + fade},
                                          solid,
                                          solid,
                                          clear,
                                          clear);
    const Rect side{area.min, {area.max.x + pen.px(12.0f), area.max.y}};
    drawScrollBar(pen.list, side, Axis::Down, stack.height(), ui.scroll, tone::kPaperLine);
    followFocus(window, Axis::Down, pen.px(8.0f), ui.scroll, ui.grip);
}

namespace {

// What belongs to another exercise is forgotten; a leaf that is not there gives way to the job.
void keepToExercise(const View& view, const Job& job, PlanUi& ui) {
    const std::string id = job.exercise ? job.exercise->id : std::string();
    if (ui.exercise != id) {
        ui = {};
        ui.exercise = id;
    }
    for (const LeafTab& tab : kLeaves)
        if (!tab.courses && tab.leaf == ui.leaf && !exists(*view.session, tab)) {
            ui.leaf = PaperLeaf::Job;
            ui.wide = false;
        }
    if (view.layout.form != Form::Wide) ui.wide = false;
}

} // namespace

Layout besidePaper(const Layout& layout, const PaperUi& ui) {
    Layout out = layout;
    if (layout.form != Form::Wide || !ui.plan.wide) return out;
    const float left = wideRight(layout) + 24.0f * layout.unit;
    out.board.min.x = out.events.min.x = out.tray.min.x = left;
    const float secondLine = 22.0f * layout.unit; // what is said there has half the width
    out.events.min.y -= secondLine;
    out.board.max.y -= secondLine;
    return out;
}

bool paperDescribes(const PaperUi& ui) {
    return ui.plan.wide && (!ui.planCable.empty() || ui.plan.walk);
}

bool onPaper(const View& view, const PaperUi& ui, ImVec2 at) {
    if (view.layout.form == Form::Tablet) return ui.pulledIn;
    const Rect sheet = view.layout.paper;
    return Rect{sheet.min, {ui.plan.wide ? wideRight(view.layout) : sheet.max.x, sheet.max.y}}
        .contains(at);
}

void drawPaper(const View& view,
               Items& items,
               PaperUi& ui,
               const BoardUi& board,
               ImDrawList* list,
               Asked& out) {
    const Pen pen(view, list);
    Window window;
    Pen inner = pen;
    inner.window = &window;
    const Job job = jobOf(*view.session);
    const Leaf leaf{
        view, items, ui, pen, inner, job, out, board, view.over != Over::Help, view.layout.board};
    if (job.exercise && job.verdict) {
        int& best = ui.bestMarks[job.exercise->id];
        best = std::max(best, job.verdict->marks);
    }
    keepToExercise(view, job, ui.plan);
    openSheet(view, ui);
    if (const plan::Plan* plan = planOf(*view.session)) followBench(leaf, *plan);
    if (ui.plan.cameraBefore && !ui.plan.wide) {
        out.push_back(LookAt{*ui.plan.cameraBefore});
        ui.plan.cameraBefore.reset();
    }
    if (view.layout.form == Form::Wide) {
        ui.pulledIn = false;
        ui.slide = 0.0f;
        return drawHanging(leaf);
    }
    drawStrip(leaf);
    drawLeafTab(leaf);
    slide(view, ui);
    if (ui.slide > 0.0f || ui.pulledIn) drawPulledIn(leaf);
}

bool paperMoves(const PaperUi& ui) {
    return ui.slide != (ui.pulledIn ? 1.0f : 0.0f) ||
           ui.plan.pulled != (ui.plan.wide ? 1.0f : 0.0f) || ui.grip.target_px >= 0.0f;
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The sheet at the left with its clip, title and leaves; on a tablet it is pulled in over the board.
#include "screen/leaf.h"
#include "screen/sentences.h"
#include "screen/tones.h"
#include "screen/widgets.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

// The leaves that exist, in their order; another one is another row here.
struct LeafTab {
    const char *name, *key;
    bool courses; // which leaf: coursesOpen while it is shown
    void (*draw)(const Leaf& leaf, const Rect& area);
};

constexpr LeafTab leaves[] = {
    {"leaf/job", "leaf/job", false, drawJobLeaf},
    {"leaf/course", "leaf/course", true, drawCourseLeaf},
};

constexpr float inset = 18.0f;

std::string titleOf(const Job& job) {
    return job.exercise ? job.exercise->title : words("free/title");
}

// The chosen leaf stands out as a raised tab with a stroke under its word.
void drawTab(const Leaf& leaf, const LeafTab& tab, const Rect& rect) {
    const bool chosen = leaf.ui.coursesOpen == tab.courses;
    const std::string label = words(tab.key);
    const Touch touch = row(leaf.pen, leaf.items, tab.name, label, Zone::Paper, rect, chosen);
    const Pen& pen = leaf.pen;
    const Face face = chosen ? Face::Bold : Face::Body;
    if (chosen) {
        pen.list->AddRect(rect.min, rect.max, tone::paperLine, pen.px(8.0f), 0, 1.0f);
        const float half = pen.width(face, label) * 0.5f, y = rect.max.y - pen.px(7.0f);
        pen.list->AddLine({rect.centre().x - half, y},
                          {rect.centre().x + half, y},
                          tone::attention,
                          pen.px(3.0f));
    }
    pen.centred(face, rect.centre(), tone::ink, label);
    if (touch.clicked) {
        leaf.ui.coursesOpen = tab.courses;
        leaf.ui.asking.clear();
    }
}

// Title over the tabs; returns what is left for the leaf.
Rect drawHead(const Leaf& leaf, const Rect& sheet) {
    const Pen& pen = leaf.pen;
    const float x = sheet.min.x + pen.px(inset), width = sheet.width() - pen.px(2.0f * inset);
    float y = sheet.min.y + pen.px(28.0f);
    const float closing =
        leaf.view.layout.form == Form::Tablet ? pen.px(36.0f) : 0.0f; // room for the cross
    y += pen.paragraph(Face::Title, {x, y}, width - closing, tone::ink, titleOf(leaf.job));
    y += pen.px(8.0f);
    float tabX = sheet.min.x + pen.px(12.0f);
    for (const LeafTab& tab : leaves) {
        const float wide =
            std::max(pen.px(58.0f), pen.width(Face::Bold, words(tab.key)) + pen.px(26.0f));
        drawTab(leaf, tab, rectAt(tabX, y, wide, pen.px(44.0f)));
        tabX += wide + pen.px(6.0f);
    }
    y += pen.px(46.0f);
    pen.list->AddLine(
        {sheet.min.x + pen.px(12.0f), y}, {sheet.max.x - pen.px(12.0f), y}, tone::paperLine, 1.2f);
    return {{x, y + pen.px(2.0f)}, {sheet.max.x - pen.px(inset), sheet.max.y - pen.px(6.0f)}};
}

void drawSheet(const Leaf& leaf, const Rect& sheet) {
    drawPaperSheet(leaf.pen.list, sheet);
    if (leaf.view.layout.form == Form::Wide) drawClip(leaf.pen, {sheet.centre().x, sheet.min.y});
    const Rect rest = drawHead(leaf, sheet);
    // A change of exercise or of leaf starts at the top.
    const std::string shown = (leaf.ui.coursesOpen ? "course/" : "job/") +
                              (leaf.job.exercise ? leaf.job.exercise->id : std::string());
    if (leaf.ui.leafShown != shown) {
        leaf.ui.leafShown = shown;
        leaf.ui.paperScroll = 0.0f;
    }
    for (const LeafTab& tab : leaves)
        if (leaf.ui.coursesOpen == tab.courses) tab.draw(leaf, rest);
}

void pullIn(const Leaf& leaf) {
    leaf.ui.paperOut = true;
    if (leaf.items.focusVisible()) leaf.items.setFocus("paper/close");
}

// Under the board's top, to the left edge: the name of the paper, written upwards.
void drawLeafTab(const Leaf& leaf) {
    const Pen& pen = leaf.pen;
    const Rect& target = leaf.view.layout.leafTab;
    const Touch touch = leaf.items.add("paper/pull", words("paper/pull"), Zone::Paper, target);
    const Rect tab{target.min, {target.min.x + pen.px(32.0f), target.max.y}};
    drawSoftShadow(pen.list, tab, pen.px(6.0f), pen.px(7.0f), 0.35f);
    const ImU32 ground = touch.hot || touch.down ? tone::paperHot : tone::paper;
    pen.list->AddRectFilled(tab.min, tab.max, ground, pen.px(8.0f), ImDrawFlags_RoundCornersRight);
    pen.list->AddRect(
        tab.min, tab.max, tone::paperLine, pen.px(8.0f), ImDrawFlags_RoundCornersRight, 1.0f);
    if (touch.focused) drawFocusRing(pen.list, tab, pen.px(8.0f));
    pen.upward(Face::Bold,
               {tab.centre().x + pen.px(0.5f), tab.centre().y + pen.px(10.0f)},
               tone::ink,
               words("leaf/job"));
    drawChevron(pen.list,
                {tab.centre().x, tab.min.y + pen.px(20.0f)},
                pen.px(5.0f),
                {1, 0},
                tone::inkSoft,
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
        line = leaf.job.exercise->job.empty() ? std::string() : leaf.job.exercise->job.front();
        if (leaf.job.solved)
            line = words("job/solved-line", {std::to_string(leaf.job.verdict->marks)});
        else if (leaf.job.failing)
            line = leaf.job.headline + " " + leaf.job.explanation;
    }
    const std::string title = titleOf(leaf.job);
    const Touch touch =
        row(pen, leaf.items, "strip/job", title + ". " + line, Zone::Paper, said, false);
    const float x = said.min.x + pen.px(22.0f), room = said.width() - pen.px(26.0f);
    pen.left(Face::Title,
             {x, strip.centre().y - pen.px(12.5f)},
             tone::ink,
             pen.cut(Face::Title, title, room));
    pen.left(Face::Body,
             {x, strip.centre().y + pen.px(14.0f)},
             tone::ink,
             pen.cut(Face::Body, line, room));
    if (touch.clicked) {
        pullIn(leaf);
        leaf.ui.coursesOpen = false;
    }
    drawMainAction(leaf, action, "strip");
}

// Moves the pulled-in paper by this frame's share of its way.
void slide(const View& view, FurnitureUi& ui) {
    const float goal = ui.paperOut ? 1.0f : 0.0f;
    const float step =
        view.reducedMotion || ui.motionPaused ? 1.0f : ImGui::GetIO().DeltaTime / 0.16f;
    ui.paperSlide = goal > ui.paperSlide ? std::min(goal, ui.paperSlide + step)
                                         : std::max(goal, ui.paperSlide - step);
}

void drawPulledIn(const Leaf& leaf) {
    FurnitureUi& ui = leaf.ui;
    const Pen& pen = leaf.pen;
    const float eased = 1.0f - (1.0f - ui.paperSlide) * (1.0f - ui.paperSlide);
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    pen.list->AddRectFilled({0, 0}, window, art::fade(IM_COL32_BLACK, 0.3f * eased));
    Rect sheet = leaf.view.layout.paper;
    const float away = (1.0f - eased) * (sheet.width() + pen.px(20.0f));
    sheet.min.x -= away;
    sheet.max.x -= away;
    if (!ui.paperOut) return drawPaperSheet(pen.list, sheet);
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
    ui.paperOut = false;
    if (leaf.items.focusVisible()) leaf.items.setFocus("paper/pull");
}

} // namespace

void drawColumn(const Leaf& leaf, const Rect& area, const Stack& stack) {
    const Pen& pen = leaf.inner;
    Window& window = *pen.window;
    window.area = area;
    FurnitureUi& ui = leaf.ui;
    scrollBy(leaf.items, area, Axis::Down, stack.height(), leaf.free, ui.paperScroll, ui.paperGrip);
    const Item* focus = leaf.items.focusVisible() ? leaf.items.find(leaf.items.focused()) : nullptr;
    if (leaf.free && focus && focus->zone == Zone::Paper)
        pageByKeys(area, ui.paperScroll, ui.paperGrip);
    // A little more at the sides, for rings round what stands at the edge.
    const float spare = pen.px(8.0f);
    pen.list->PushClipRect(
        {area.min.x - spare, area.min.y}, {area.max.x + spare, area.max.y}, true);
    stack.draw({area.min.x, std::round(area.min.y - ui.paperScroll)});
    pen.list->PopClipRect();
    // What goes on beyond an edge fades out there.
    const float fade = pen.px(22.0f), below = stack.height() - ui.paperScroll - area.height();
    const ImU32 solid = tone::paper, clear = art::fade(tone::paper, 0.0f);
    if (below > 1.0f)
        pen.list->AddRectFilledMultiColor({area.min.x - spare, area.max.y - fade},
                                          {area.max.x + spare, area.max.y},
                                          clear,
                                          clear,
                                          solid,
                                          solid);
    if (ui.paperScroll > 1.0f)
        pen.list->AddRectFilledMultiColor({area.min.x - spare, area.min.y},
                                          {area.max.x + spare, area.min.y + fade},
                                          solid,
                                          solid,
                                          clear,
                                          clear);
    const Rect side{area.min, {area.max.x + pen.px(12.0f), area.max.y}};
    drawScrollBar(pen.list, side, Axis::Down, stack.height(), ui.paperScroll, tone::paperLine);
    followFocus(window, Axis::Down, pen.px(8.0f), ui.paperScroll, ui.paperGrip);
}

void drawPaper(const View& view, Items& items, FurnitureUi& ui, ImDrawList* list, Intents& out) {
    const Pen pen(view, list);
    Window window;
    Pen inner = pen;
    inner.window = &window;
    const Job job = jobOf(*view.session);
    const Leaf leaf{view, items, ui, pen, inner, job, out, !ui.helpOpen};
    if (job.exercise && job.verdict) {
        int& best = ui.bestMarks[job.exercise->id];
        best = std::max(best, job.verdict->marks);
    }
    if (view.layout.form == Form::Wide) {
        ui.paperOut = false;
        ui.paperSlide = 0.0f;
        return drawSheet(leaf, view.layout.paper);
    }
    drawStrip(leaf);
    drawLeafTab(leaf);
    slide(view, ui);
    if (ui.paperSlide > 0.0f || ui.paperOut) drawPulledIn(leaf);
}

bool furnitureMoves(const FurnitureUi& ui) {
    const bool sliding = ui.paperSlide != (ui.paperOut ? 1.0f : 0.0f);
    return sliding || ui.trayGrip.target_px >= 0.0f || ui.eventsGrip.target_px >= 0.0f ||
           ui.paperGrip.target_px >= 0.0f || ui.helpGrip.target_px >= 0.0f;
}

} // namespace loom::screen

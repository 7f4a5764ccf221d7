// SPDX-License-Identifier: MIT
// One sheet over the bench with the few gestures and keys, and the cautions. Closes with Escape, its
// cross, or a press beside it.
#include "screen/room/help.h"

#include "screen/kit/stack.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace loom::screen {
namespace {

// A thing to do, and how: by pointer or finger, and with keys.
constexpr const char* kRows[] = {"take",
                                 "wire",
                                 "move",
                                 "turn",
                                 "remove",
                                 "look",
                                 "operate",
                                 "ends",
                                 "measure",
                                 "trace",
                                 "plan",
                                 "power",
                                 "view",
                                 "undo",
                                 "let-go"};
constexpr const char* kWays[] = {"hand", "keys"};
constexpr const char* kCautions[] = {"caution/adult",
                                     "caution/last",
                                     "caution/bridge",
                                     "caution/wheels",
                                     "caution/second",
                                     "caution/real"};

constexpr float kColumnGap = 16.0f;

constexpr float kHandsShare = 0.6f; // of the two ways; the sentences on keys are shorter

struct Columns {
    float name;
    float way[2];
};

Columns columnsFor(const Pen& pen, float width) {
    float name = 0.0f;
    for (const char* row : kRows)
        name = std::max(name, pen.width(Face::Bold, words(std::string("help/") + row)));
    name += pen.px(4.0f);
    const float both = width - name - 2.0f * pen.px(kColumnGap);
    return {name, {kHandsShare * both, (1.0f - kHandsShare) * both}};
}

std::string cell(const char* row, const char* way) {
    return words(std::string("help/") + row + "/" + way);
}

void addHeads(const Pen& pen, Stack& stack, const Columns& columns) {
    stack.add(pen.px(34.0f), [&pen, columns](const Rect& at) {
        float x = at.min.x + columns.name + pen.px(kColumnGap);
        for (std::size_t i = 0; i < std::size(kWays); ++i) {
            pen.left(Face::Bold,
                     {x, at.centre().y - pen.px(3.0f)},
                     tone::kInkSoft,
                     words(std::string("help/") + kWays[i]));
            x += columns.way[i] + pen.px(kColumnGap);
        }
        pen.list->AddLine({at.min.x, at.max.y}, at.max, tone::kMarkLine, 1.2f);
    });
}

void addRow(const Pen& pen, Stack& stack, const Columns& columns, const char* row) {
    float high = pen.line(Face::Bold);
    for (std::size_t i = 0; i < std::size(kWays); ++i)
        high = std::max(high, pen.paragraphHeight(Face::Body, columns.way[i], cell(row, kWays[i])));
    stack.add(high + pen.px(10.0f), [&pen, columns, row](const Rect& at) {
        const float y = at.min.y + pen.px(5.0f);
        pen.paragraph(Face::Bold,
                      {at.min.x, y},
                      columns.name + 1.0f,
                      tone::kInk,
                      words(std::string("help/") + row));
        float x = at.min.x + columns.name + pen.px(kColumnGap);
        for (std::size_t i = 0; i < std::size(kWays); ++i) {
            pen.paragraph(Face::Body, {x, y}, columns.way[i], tone::kInk, cell(row, kWays[i]));
            x += columns.way[i] + pen.px(kColumnGap);
        }
        pen.list->AddLine({at.min.x, at.max.y}, at.max, tone::kPaperLine, 1.0f);
    });
}

void addCautions(const Pen& pen, Stack& stack) {
    float high = pen.px(22.0f) + pen.line(Face::Bold);
    const float width = stack.width - pen.px(28.0f);
    for (const char* key : kCautions)
        high += pen.paragraphHeight(Face::Body, width, words(key)) + pen.px(2.0f);
    stack.space(pen.px(14.0f));
    stack.add(high, [&pen, width](const Rect& at) {
        drawNote(pen.list, at);
        const float x = at.min.x + pen.px(14.0f);
        float y = at.min.y + pen.px(10.0f);
        y += pen.paragraph(Face::Bold, {x, y}, width, tone::kInk, words("help/real-parts"));
        for (const char* key : kCautions)
            y += pen.paragraph(Face::Body, {x, y}, width, tone::kInk, words(key)) + pen.px(2.0f);
    });
}

std::string spokenHelp() {
    std::string out = words("help/title") + ". ";
    for (const char* row : kRows)
        out += words(std::string("help/") + row) + ": " + cell(row, "hand") + ". " +
               cell(row, "keys") + ". ";
    for (const char* key : kCautions)
        out += words(key) + " ";
    return out;
}

// From the right end of the sheet's head, each by the name it has for itself.
void drawLanguages(const View& view, const Pen& pen, Items& items, ImVec2 rightEnd, Intents& out) {
    if (!view.languages || view.languages->size() < 2) return;
    float right = rightEnd.x;
    for (auto one = view.languages->rbegin(); one != view.languages->rend(); ++one) {
        const float wide = buttonWidth(pen, one->title), high = pen.px(40.0f);
        const Rect at = rectAt(right - wide, rightEnd.y - 0.5f * high, wide, high);
        const bool now = one->name == language();
        if (button(pen,
                   items,
                   "help/language/" + one->name,
                   one->title,
                   Zone::Sheet,
                   at,
                   now ? ButtonLook::Main : ButtonLook::Paper))
            out.push_back(SetLanguage{one->name});
        right = at.min.x - pen.px(8.0f);
    }
}

} // namespace

void drawHelp(const View& view, Items& items, HelpUi& ui, ImDrawList* list, Intents& out) {
    const Pen pen(view, list);
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    list->AddRectFilled({0, 0}, window, art::fade(IM_COL32_BLACK, 0.35f));
    const Touch beside = items.add("help/beside", words("close"), Zone::Sheet, {{0, 0}, window});

    const float wide = std::min(window.x - pen.px(32.0f), pen.px(860.0f));
    const float pad = pen.px(26.0f), head = pen.px(62.0f), foot = pen.px(16.0f);
    Stack stack(wide - 2.0f * pad);
    const Columns columns = columnsFor(pen, stack.width);
    addHeads(pen, stack, columns);
    for (const char* row : kRows)
        addRow(pen, stack, columns, row);
    addCautions(pen, stack);

    const float high = std::min(window.y - pen.px(40.0f), stack.height() + head + foot);
    const Rect sheet = rectAt(
        std::round((window.x - wide) * 0.5f), std::round((window.y - high) * 0.5f), wide, high);
    const Touch all = items.add("help/sheet", spokenHelp(), Zone::Sheet, sheet);
    drawPaperSheet(list, sheet);
    if (all.focused || beside.focused) drawFocusRing(list, sheet, pen.px(3.0f));
    pen.left(Face::Large,
             {sheet.min.x + pad, sheet.min.y + pen.px(36.0f)},
             tone::kInk,
             words("help/title"));

    const Rect area{{sheet.min.x + pad, sheet.min.y + head},
                    {sheet.max.x - pad, sheet.max.y - foot}};
    scrollBy(items, area, Axis::Down, stack.height(), true, ui.scroll, ui.grip);
    pageByKeys(area, ui.scroll, ui.grip);
    list->PushClipRect({sheet.min.x, area.min.y}, {sheet.max.x, area.max.y}, true);
    stack.draw({area.min.x, area.min.y - std::round(ui.scroll)});
    list->PopClipRect();
    const Rect side{area.min, {area.max.x + pen.px(14.0f), area.max.y}};
    drawScrollBar(list, side, Axis::Down, stack.height(), ui.scroll, tone::kPaperLine);

    drawLanguages(
        view, pen, items, {sheet.max.x - pen.px(64.0f), sheet.min.y + pen.px(34.0f)}, out);
    const bool closed = closeButton(pen,
                                    items,
                                    "help/close",
                                    Zone::Sheet,
                                    {sheet.max.x - pen.px(32.0f), sheet.min.y + pen.px(34.0f)});
    if (beside.clicked || closed) {
        ui.open = false;
        ui.scroll = 0.0f;
        if (items.focusVisible()) items.setFocus("header/help");
    }
}

} // namespace loom::screen

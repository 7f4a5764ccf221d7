// SPDX-License-Identifier: MIT
// A small card beside the chosen part, cable or terminal: its readings and what can be done with it.
// It never covers the thing while there is room beside it, and never leaves the board.
#include "screen/card/card.h"

#include "screen/card/text.h"
#include "screen/kit/keep_clear.h"
#include "screen/kit/stack.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr float kColumnWidth = 268.0f, kPadding = 14.0f, kButtonHeight = 44.0f, kButtonGap = 6.0f;

struct Card {
    Items& items;
    const Pen& pen;
    Asked& out;
    float column; // width of one
};

void act(const Card& card, const Action& action) {
    std::visit([&](const auto& asks) { card.out.push_back(asks); }, action.asks);
    if (action.away) card.out.push_back(Choose{});
}

// Buttons side by side as long as they fit, each row filled out.
void addActions(const Card& card, Stack& stack, const std::vector<Action>& actions) {
    const Pen& pen = card.pen;
    const float gap = pen.px(kButtonGap), high = pen.px(kButtonHeight);
    std::size_t first = 0;
    while (first < actions.size()) {
        std::size_t end = first;
        float used = 0.0f;
        while (end < actions.size()) {
            const float wide = buttonWidth(pen, actions[end].label) + (end > first ? gap : 0.0f);
            if (end > first && used + wide > stack.width) break;
            used += wide;
            ++end;
        }
        const float spare = std::max(0.0f, (stack.width - used) / static_cast<float>(end - first));
        stack.add(high, [&card, &pen, &actions, first, end, spare, gap](const Rect& at) {
            float x = at.min.x;
            for (std::size_t i = first; i < end; ++i) {
                const float wide =
                    std::min(buttonWidth(pen, actions[i].label) + spare, at.max.x - x);
                if (button(pen,
                           card.items,
                           actions[i].name,
                           actions[i].label,
                           Zone::Card,
                           rectAt(x, at.min.y, wide, at.height()),
                           ButtonLook::Paper))
                    act(card, actions[i]);
                x += wide + gap;
            }
        });
        stack.space(gap);
        first = end;
    }
}

void addFact(const Card& card, Stack& stack, const Fact& fact) {
    const Pen& pen = card.pen;
    const float labelWidth = pen.width(Face::Body, fact.label) + pen.px(10.0f);
    const float room = stack.width - labelWidth;
    const bool own = pen.width(Face::Bold, fact.value) > room; // a line of its own
    const float line = pen.line(Face::Body);
    const float gauge = fact.share >= 0.0 ? pen.px(14.0f) : 0.0f;
    const float valueHigh = own ? pen.paragraphHeight(Face::Bold, stack.width, fact.value) : 0.0f;
    stack.add(line + valueHigh + gauge, [&pen, &fact, own, line, gauge](const Rect& at) {
        const float y = at.min.y + line * 0.5f;
        const ImU32 ink = fact.fault ? tone::kFault : tone::kInk;
        pen.left(Face::Body, {at.min.x, y}, tone::kInkSoft, fact.label);
        if (own)
            pen.paragraph(Face::Bold, {at.min.x, at.min.y + line}, at.width(), ink, fact.value);
        else
            pen.right(Face::Bold, {at.max.x, y}, ink, fact.value);
        if (gauge > 0.0f)
            drawGauge(pen.list,
                      {{at.min.x, at.max.y - pen.px(11.0f)}, {at.max.x, at.max.y - pen.px(4.0f)}},
                      static_cast<float>(fact.share),
                      static_cast<float>(fact.tooMuch));
    });
}

Stack factsOf(const Card& card, const CardText& text) {
    const Pen& pen = card.pen;
    Stack stack(card.column);
    stack.add(pen.paragraphHeight(Face::Title, stack.width - pen.px(36.0f), text.title),
              [&pen, &text](const Rect& at) {
                  pen.paragraph(
                      Face::Title, at.min, at.width() - pen.px(36.0f), tone::kInk, text.title);
              });
    if (!text.second.empty()) stack.text(pen, Face::Body, tone::kInkSoft, text.second);
    stack.space(pen.px(6.0f));
    for (const Fact& fact : text.facts)
        addFact(card, stack, fact);
    return stack;
}

Stack actionsOf(const Card& card, const CardText& text) {
    const Pen& pen = card.pen;
    Stack stack(card.column);
    if (!text.fuseHeading.empty()) {
        stack.text(pen, Face::Body, tone::kInkSoft, text.fuseHeading);
        stack.space(pen.px(4.0f));
        addActions(card, stack, text.fuses);
        stack.space(pen.px(2.0f));
    }
    addActions(card, stack, text.actions);
    return stack;
}

// How far two spans are from each other.
float apart(float aLow, float aHigh, float bLow, float bHigh) {
    return std::max({0.0f, bLow - aHigh, aLow - bHigh});
}

// Where the card goes: beside the thing, hiding as little as it can of it, of other parts, of the
// meter and the trace.
Rect placed(const Items& items, const Rect& board, const Rect& thing, ImVec2 size, float away) {
    const float right = thing.max.x + away, left = thing.min.x - away - size.x;
    const float below = thing.max.y + away, above = thing.min.y - away - size.y;
    const float ys[] = {thing.centre().y - size.y * 0.5f,
                        thing.min.y,
                        thing.max.y - size.y,
                        board.min.y,
                        board.max.y - size.y};
    const float xs[] = {thing.centre().x - size.x * 0.5f, thing.min.x, thing.max.x - size.x};
    std::vector<ImVec2> wishes;
    for (const float y : ys) {
        wishes.push_back({right, y});
        wishes.push_back({left, y});
    }
    for (const float x : xs) {
        wishes.push_back({x, below});
        wishes.push_back({x, above});
    }
    for (const float x : {board.max.x - size.x, board.min.x})
        for (const float y : {board.min.y, board.max.y - size.y})
            wishes.push_back({x, y});

    constexpr float kThingCounts = 200.0f; // times what another part counts
    constexpr float kWayCounts_px = 30.0f; // a pixel away from the thing, in square pixels hidden
    Rect best;
    float least = -1.0f;
    for (const ImVec2& wish : wishes) {
        const Rect place = keptWithin(board, rectAt(wish.x, wish.y, size.x, size.y));
        float hidden = kThingCounts * overlap(place, thing) +
                       kWayCounts_px * (apart(place.min.x, place.max.x, thing.min.x, thing.max.x) +
                                        apart(place.min.y, place.max.y, thing.min.y, thing.max.y));
        hidden += hiddenOnBoard(items, place);
        if (least >= 0.0f && hidden >= least) continue;
        least = hidden;
        best = place;
    }
    return best;
}

std::string spokenOf(const CardText& text) {
    std::string out = text.title + ". " + text.second + ".";
    for (const Fact& fact : text.facts)
        out += " " + fact.label + " " + fact.value + ".";
    return out;
}

// On the smallest boards what the thing is for goes before what can be watched of it.
void leaveOutTraces(CardText& text) {
    auto& all = text.actions;
    all.erase(std::remove_if(all.begin(),
                             all.end(),
                             [](const Action& a) { return a.name.rfind("card/trace", 0) == 0; }),
              all.end());
}

} // namespace

void drawCard(const View& view, Items& items, const BoardUi& ui, ImDrawList* list, Asked& out) {
    if (std::holds_alternative<std::monostate>(ui.chosen) || holdsSomething(ui)) return;
    CardText text = cardOf(view.session->attempt(), ui.chosen);
    if (text.title.empty()) {
        out.push_back(Choose{});
        return;
    }
    offerMore(view, ui, text);
    const Item* thing = items.find(text.item);
    if (!thing) return;
    // A terminal's card keeps clear of its whole part.
    const Item* around = items.find(text.around);
    const Rect about = around ? around->rect : thing->rect;

    const Pen pen(view, list);
    const float pad = pen.px(kPadding), between = pen.px(10.0f);
    const Rect board = shrunk(clearBoard(view.layout), pen.px(8.0f));
    Card card{items, pen, out, pen.px(kColumnWidth)};
    Stack facts = factsOf(card, text), actions = actionsOf(card, text);
    // Beside each other where the board is too low for one above the other.
    const bool two = facts.height() + actions.height() + 2.0f * pad + between > board.height();
    if (two) {
        card.column = std::min(card.column, (board.width() - 3.0f * pad) * 0.5f);
        facts = factsOf(card, text);
        actions = actionsOf(card, text);
        if (actions.height() + pen.px(30.0f) + 2.0f * pad > board.height()) {
            leaveOutTraces(text);
            actions = actionsOf(card, text);
        }
    }
    const ImVec2 size =
        two ? ImVec2(2.0f * (card.column + pad) + pad,
                     std::max(facts.height(), actions.height() + pen.px(30.0f)) + 2.0f * pad)
            : ImVec2(card.column + 2.0f * pad,
                     facts.height() + between + actions.height() + 2.0f * pad - pen.px(kButtonGap));
    const Rect at = placed(items, board, about, size, pen.px(12.0f));

    const Touch sheet = items.add("card/sheet", spokenOf(text), Zone::Card, at);
    drawSoftShadow(list, at, pen.px(8.0f), pen.px(12.0f), 0.4f);
    list->AddRectFilled(at.min, at.max, tone::kPaper, pen.px(8.0f));
    list->AddRect(at.min, at.max, tone::kAttention, pen.px(8.0f), 0, 1.6f);
    if (sheet.focused) drawFocusRing(list, at, pen.px(8.0f));
    facts.draw({at.min.x + pad, at.min.y + pad});
    const bool closed = closeButton(
        pen, items, "card/close", Zone::Card, {at.max.x - pen.px(24.0f), at.min.y + pen.px(24.0f)});
    if (two)
        actions.draw({at.min.x + card.column + 2.0f * pad, at.min.y + pad + pen.px(30.0f)});
    else
        actions.draw({at.min.x + pad, at.min.y + pad + facts.height() + between});
    if (closed) out.push_back(Choose{});
}

} // namespace loom::screen

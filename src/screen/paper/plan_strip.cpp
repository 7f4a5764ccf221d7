// SPDX-License-Identifier: MIT
#include "screen/paper/plan_strip.h"

#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/sentences.h"

#include <algorithm>

namespace loom::screen {
namespace {

constexpr float kPad = 14.0f, kButtonHigh = 44.0f, kButtonGap = 8.0f;

float textWidth(const Leaf& leaf, float width, float buttonsWidth) {
    const float inner = width - 2.0f * leaf.pen.px(kPad);
    const float beside = inner - buttonsWidth - leaf.pen.px(kPad);
    return beside >= leaf.pen.px(220.0f) ? beside : inner;
}

bool buttonsBeside(const Leaf& leaf, float width, float buttonsWidth) {
    const float inner = width - 2.0f * leaf.pen.px(kPad);
    return inner - buttonsWidth - leaf.pen.px(kPad) >= leaf.pen.px(220.0f);
}

float wordsHeight(const Leaf& leaf, float width, const RowWords& said) {
    float height = 0.0f;
    if (!said.title.empty()) height += leaf.pen.paragraphHeight(Face::Title, width, said.title);
    if (!said.make.empty()) height += leaf.pen.paragraphHeight(Face::Body, width, said.make);
    if (!said.last.empty()) height += leaf.pen.paragraphHeight(Face::Body, width, said.last);
    return height;
}

float buttonsHeight(const Leaf& leaf, int rows) {
    return rows == 0
               ? 0.0f
               : leaf.pen.px(static_cast<float>(rows) * (kButtonHigh + kButtonGap) - kButtonGap);
}

// A sample of the sleeve with its letters, so that no colour goes unnamed.
void drawSample(const Pen& pen, const Rect& at, const plan::PlanCable& cable) {
    const art::SleeveTone tone = art::sleeveTone(cable.sleeve);
    pen.list->AddRectFilled(at.min, at.max, tone.body, pen.px(3.0f));
    pen.list->AddRect(at.min, at.max, tone::kTubeEdge, pen.px(3.0f), 0, 1.0f);
}

} // namespace

RowWords rowWords(const plan::Plan& plan, std::size_t row, Laid laid) {
    const plan::PlanCable& cable = plan.cables[row];
    const char* state = laid == Laid::Joined  ? "plan/laid"
                        : laid == Laid::Loose ? "plan/loose"
                                              : "plan/not-laid";
    RowWords out;
    out.title = words("plan/title",
                      {{"cable", cable.label},
                       {"from", placeOf(plan, cable.from)},
                       {"to", placeOf(plan, cable.to)}});
    out.make = makeOf(cable);
    out.last = words(state);
    if (!cable.note.empty()) out.last += " " + words("plan/note", {{"note", text(cable.note)}});
    return out;
}

float stripHeight(
    const Leaf& leaf, float width, const RowWords& said, float buttonsWidth, int buttonRows) {
    const float text = wordsHeight(leaf, textWidth(leaf, width, buttonsWidth), said);
    const float buttons = buttonsHeight(leaf, buttonRows);
    const float spare = leaf.pen.px(24.0f);
    return buttonsBeside(leaf, width, buttonsWidth)
               ? std::max(text, buttons) + spare
               : text + buttons + (buttonRows > 0 ? leaf.pen.px(10.0f) : 0.0f) + spare;
}

StripBox drawStrip(const Leaf& leaf,
                   const Rect& at,
                   const char* item,
                   const RowWords& said,
                   float buttonsWidth,
                   int buttonRows) {
    const Pen& pen = leaf.pen;
    drawNote(pen.list, at);
    const float width = textWidth(leaf, at.width(), buttonsWidth);
    const float high = wordsHeight(leaf, width, said), x = at.min.x + pen.px(kPad);
    const bool beside = buttonsBeside(leaf, at.width(), buttonsWidth);
    const float top = beside ? at.centre().y - high * 0.5f : at.min.y + pen.px(12.0f);
    float y = top;
    if (!said.title.empty()) y += pen.paragraph(Face::Title, {x, y}, width, tone::kInk, said.title);
    if (!said.make.empty()) y += pen.paragraph(Face::Body, {x, y}, width, tone::kInk, said.make);
    if (!said.last.empty()) pen.paragraph(Face::Body, {x, y}, width, tone::kInkSoft, said.last);
    readable(pen,
             leaf.items,
             item,
             said.title + ". " + said.make + ". " + said.last,
             Zone::Paper,
             {{x - pen.px(6.0f), top - pen.px(2.0f)}, {x + width, top + high + pen.px(2.0f)}},
             pen.px(6.0f));
    const float buttons = buttonsHeight(leaf, buttonRows);
    if (beside) {
        const float right = at.max.x - pen.px(kPad);
        return {
            rectAt(right - buttonsWidth, at.centre().y - buttons * 0.5f, buttonsWidth, buttons)};
    }
    return {
        rectAt(x, at.max.y - pen.px(12.0f) - buttons, at.width() - 2.0f * pen.px(kPad), buttons)};
}

void addRows(const Leaf& leaf,
             Stack& stack,
             const PlanPicture& picture,
             std::optional<std::size_t>& touched) {
    const Pen& pen = leaf.inner;
    for (std::size_t i = 0; i < picture.plan.cables.size(); ++i) {
        const plan::PlanCable& cable = picture.plan.cables[i];
        const std::string where = words(
            "plan/from-to",
            {{"from", placeOf(picture.plan, cable.from)}, {"to", placeOf(picture.plan, cable.to)}});
        const float textX = pen.px(92.0f), width = stack.width - textX - pen.px(8.0f);
        const float high = pen.paragraphHeight(Face::Body, width, where) +
                           pen.paragraphHeight(Face::Body, width, makeOf(cable));
        stack.add(
            high + pen.px(14.0f), [=, &leaf, &pen, &picture, &touched, &cable](const Rect& at) {
                const RowLook& look = picture.looks[i];
                const Rect box{{at.min.x - pen.px(6.0f), at.min.y},
                               {at.max.x + pen.px(6.0f), at.max.y}};
                const bool chosen = picture.chosen == i;
                const Touch touch = row(pen,
                                        leaf.items,
                                        rowItem(picture.itemPrefix, picture.plan, i),
                                        spokenRow(picture.plan, cable, look.laid),
                                        Zone::Paper,
                                        box,
                                        chosen);
                if (chosen)
                    pen.list->AddRect(
                        box.min, box.max, tone::kAttention, pen.px(8.0f), 0, pen.px(2.0f));
                if (touch.clicked) touched = i;
                const float top = at.min.y + pen.px(7.0f),
                            middle = top + pen.line(Face::Body) * 0.5f;
                const bool wrong = look.mark == attempt::SheetMark::Wrong || look.missed;
                const bool done = look.mark == attempt::SheetMark::Right ||
                                  (look.mark == attempt::SheetMark::None &&
                                   look.laid == Laid::Joined && picture.marksAreLaid);
                drawMark(pen.list,
                         {at.min.x + pen.px(12.0f), middle},
                         pen.px(11.0f),
                         wrong  ? Mark::Wrong
                         : done ? Mark::Done
                                : Mark::Empty);
                pen.left(Face::Bold,
                         {at.min.x + pen.px(32.0f), middle},
                         tone::kInk,
                         pen.cut(Face::Bold, cable.label, textX - pen.px(38.0f)));
                const float used =
                    pen.paragraph(Face::Body, {at.min.x + textX, top}, width, tone::kInk, where);
                pen.paragraph(Face::Body,
                              {at.min.x + textX, top + used},
                              width,
                              tone::kInkSoft,
                              makeOf(cable));
                drawSample(pen,
                           rectAt(at.min.x + pen.px(34.0f),
                                  top + pen.line(Face::Body) + pen.px(4.0f),
                                  pen.px(42.0f),
                                  pen.px(12.0f)),
                           cable);
            });
    }
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The Job leaf: what to achieve, marks, what the last check said, hints, the main action, cautions.
// On the free bench: what can be done there.
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/paper/leaf.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr float kButtonHeight = 48.0f;

std::string marksWords(const Job& job) {
    const std::string all = std::to_string(marksOf(*job.exercise));
    if (!job.verdict) return words("job/marks-in-all", {{"all", all}});
    return words("job/marks-of", {{"marks", std::to_string(job.verdict->marks)}, {"all", all}});
}

void addMarks(const Leaf& leaf, Stack& stack) {
    const Pen& pen = leaf.inner;
    const Job& job = leaf.job;
    stack.space(pen.px(10.0f));
    stack.add(pen.px(28.0f), [&](const Rect& at) {
        pen.left(Face::Bold, {at.min.x, at.centre().y}, tone::kInk, words("job/marks"));
        pen.right(Face::Bold, {at.max.x, at.centre().y}, tone::kInk, marksWords(job));
    });
    stack.space(pen.px(2.0f));
    for (const lesson::Check& check : job.exercise->checks) {
        const float textX = pen.px(34.0f);
        const float width = stack.width - textX - pen.px(26.0f);
        const float high = pen.paragraphHeight(Face::Body, width, text(check.title));
        stack.add(std::max(pen.px(32.0f), high + pen.px(8.0f)), [&, textX, width](const Rect& at) {
            const float top = at.min.y + pen.px(4.0f);
            const float middle = top + pen.line(Face::Body) * 0.5f;
            const bool done = job.passed(check);
            drawMark(pen.list,
                     {at.min.x + pen.px(12.5f), middle},
                     pen.px(12.0f),
                     done ? Mark::Done : Mark::Empty);
            pen.paragraph(
                Face::Body, {at.min.x + textX, top}, width, tone::kInk, text(check.title));
            pen.right(Face::Body, {at.max.x, middle}, tone::kInk, std::to_string(check.marks));
            const std::string state =
                words(done          ? "job/check-done"
                      : job.verdict ? "job/check-not-yet"
                                    : "job/check-open",
                      {{"check", text(check.title)}, {"marks", std::to_string(check.marks)}});
            readable(pen, leaf.items, "check/" + check.id, state, Zone::Paper, at, pen.px(6.0f));
        });
    }
}

// A boxed note: a bold headline and what follows it.
void addNote(const Leaf& leaf,
             Stack& stack,
             const char* name,
             std::string headline,
             std::string rest,
             std::string foot) {
    const Pen& pen = leaf.inner;
    const float pad = pen.px(13.0f), width = stack.width + pen.px(8.0f) - 2.0f * pad;
    const auto high = [&](Face face, const std::string& text) {
        return text.empty() ? 0.0f : pen.paragraphHeight(face, width, text);
    };
    const float height = high(Face::Bold, headline) + high(Face::Body, rest) +
                         high(Face::Body, foot) + pen.px(20.0f);
    stack.add(height,
              [&leaf,
               &pen,
               name,
               pad,
               width,
               said = std::move(headline),
               more = std::move(rest),
               last = std::move(foot)](const Rect& at) {
                  // The box reaches a little beyond the column, as a slip laid on the sheet.
                  const Rect box{{at.min.x - pen.px(4.0f), at.min.y},
                                 {at.max.x + pen.px(4.0f), at.max.y}};
                  drawNote(pen.list, box);
                  float y = box.min.y + pen.px(10.0f);
                  const float x = box.min.x + pad;
                  if (!said.empty())
                      y += pen.paragraph(Face::Bold, {x, y}, width, tone::kInk, said);
                  if (!more.empty())
                      y += pen.paragraph(Face::Body, {x, y}, width, tone::kInk, more);
                  if (!last.empty()) pen.paragraph(Face::Body, {x, y}, width, tone::kInkSoft, last);
                  readable(pen,
                           leaf.items,
                           name,
                           said + " " + more + " " + last,
                           Zone::Paper,
                           box,
                           pen.px(8.0f));
              });
}

void addSolved(const Leaf& leaf, Stack& stack) {
    const Pen& pen = leaf.inner;
    const std::string said =
        leaf.job.next ? words("job/solved-next", {{"job", text(leaf.job.next->title)}})
                      : words("job/solved-all");
    const float pad = pen.px(13.0f), width = stack.width + pen.px(8.0f) - 2.0f * pad;
    const float text = pen.paragraphHeight(Face::Body, width, said);
    stack.add(text + pen.px(74.0f), [&leaf, &pen, said, pad, width](const Rect& at) {
        const Rect box{{at.min.x - pen.px(4.0f), at.min.y}, {at.max.x + pen.px(4.0f), at.max.y}};
        pen.list->AddRectFilled(box.min, box.max, tone::kDonePale, pen.px(8.0f));
        pen.list->AddRect(box.min, box.max, tone::kDone, pen.px(8.0f), 0, 1.0f);
        drawStamp(
            pen, {box.centre().x, box.min.y + pen.px(32.0f)}, tone::kDone, words("job/solved"));
        pen.paragraph(
            Face::Body, {box.min.x + pad, box.min.y + pen.px(62.0f)}, width, tone::kInk, said);
        readable(pen,
                 leaf.items,
                 "paper/feedback",
                 words("job/solved") + ". " + said,
                 Zone::Paper,
                 box,
                 pen.px(8.0f));
    });
}

void addFeedback(const Leaf& leaf, Stack& stack) {
    const Job& job = leaf.job;
    const Pen& pen = leaf.inner;
    if (!job.verdict && job.hinted.empty()) return;
    stack.space(pen.px(10.0f));
    if (job.solved)
        addSolved(leaf, stack);
    else if (job.wasSolved)
        addNote(leaf,
                stack,
                "paper/feedback",
                words("job/was-solved"),
                words("job/changed-since"),
                words("job/check-again"));
    else if (job.failing)
        addNote(leaf,
                stack,
                "paper/feedback",
                job.headline,
                job.explanation,
                job.changedSince ? words("job/changed-since") : "");
    for (const lesson::Check* check : job.hinted) {
        stack.space(pen.px(10.0f));
        addNote(leaf,
                stack,
                "paper/hint-said",
                words("job/hint-about", {{"check", text(check->title)}}),
                text(check->hint),
                "");
    }
}

void addCautions(const Leaf& leaf, Stack& stack, const std::vector<lesson::Text>& cautions) {
    if (cautions.empty()) return;
    const Pen& pen = leaf.inner;
    stack.space(pen.px(10.0f));
    stack.add(pen.px(8.0f), [&pen](const Rect& at) {
        pen.list->AddLine(at.min, {at.max.x, at.min.y}, tone::kPaperLine, 1.2f);
    });
    for (const lesson::Text& caution : cautions)
        stack.text(pen, Face::Body, tone::kInkSoft, text(caution));
}

std::vector<lesson::Text> freeCautions() {
    return {words("caution/adult"),
            words("caution/last"),
            words("caution/bridge"),
            words("caution/wheels"),
            words("caution/second")};
}

// Hint and main action side by side; the main action alone when there is nothing to hint at.
void drawActions(const Leaf& leaf, const Rect& at) {
    const Pen& pen = leaf.pen;
    const Job& job = leaf.job;
    if (!job.exercise || job.solved)
        return drawMainAction(leaf, at, "paper");
    const float gap = pen.px(10.0f), half = (at.width() - gap) * 0.5f;
    const std::string hint = job.nextHint
                                 ? words("job/hint", {{"left", std::to_string(job.hintsLeft)}})
                                 : words("job/no-hint");
    if (button(pen,
               leaf.items,
               "paper/hint",
               hint,
               Zone::Paper,
               rectAt(at.min.x, at.min.y, half, at.height()),
               ButtonLook::Paper,
               job.nextHint != nullptr))
        leaf.out.push_back(Do{attempt::AskHint{job.nextHint->id}});
    drawMainAction(leaf, rectAt(at.min.x + half + gap, at.min.y, half, at.height()), "paper");
}

// What was said since the last frame comes into sight.
void bringSaid(const Leaf& leaf, const Rect& shown, float from, float to) {
    std::string said = leaf.job.exercise ? leaf.job.exercise->id : std::string();
    said += leaf.job.headline + (leaf.job.solved ? "+" : "");
    for (const lesson::Check* check : leaf.job.hinted)
        said += "/" + check->id;
    const bool isNew = !leaf.ui.lastSaid.empty() && said != leaf.ui.lastSaid;
    leaf.ui.lastSaid = said;
    if (isNew && to > from)
        leaf.ui.grip.target_px =
            std::max(0.0f, std::min(from, to + leaf.pen.px(24.0f) - shown.height()));
}

} // namespace

std::string mainActionWords(const Job& job) {
    if (!job.exercise) return words("free/choose");
    if (!job.solved) return words("job/check");
    return job.next ? words("job/next") : words("job/to-free");
}

void drawMainAction(const Leaf& leaf, const Rect& rect, const std::string& prefix) {
    const Job& job = leaf.job;
    const bool goesOn = job.exercise && job.solved;
    const char* what = !job.exercise ? "/choose" : goesOn ? "/next" : "/check";
    if (!button(leaf.pen,
                leaf.items,
                prefix + what,
                mainActionWords(job),
                Zone::Paper,
                rect,
                ButtonLook::Main))
        return;
    if (!job.exercise) {
        leaf.ui.coursesOpen = true;
        leaf.ui.pulledIn = true;
    } else if (goesOn) {
        leaf.out.push_back(Begin{job.next ? job.next->id : std::string()});
    } else {
        leaf.out.push_back(Do{attempt::AskCheck{}});
    }
}

void drawJobLeaf(const Leaf& leaf, const Rect& area) {
    const Pen& pen = leaf.inner;
    Stack body(area.width());
    body.space(pen.px(8.0f));
    float said = 0.0f; // where what was said last begins
    if (leaf.job.exercise) {
        for (const lesson::Text& line : leaf.job.exercise->job) {
            body.text(pen, Face::Body, tone::kInk, text(line));
            body.space(pen.px(2.0f));
        }
        addMarks(leaf, body);
        said = body.height();
        addFeedback(leaf, body);
    } else {
        for (const char* key : {"free/lay", "free/wire", "free/run"}) {
            body.text(pen, Face::Body, tone::kInk, words(key));
            body.space(pen.px(6.0f));
        }
    }
    const float actionsHeight = pen.px(kButtonHeight), above = pen.px(12.0f);
    Stack cautions(area.width());
    addCautions(leaf, cautions, leaf.job.exercise ? leaf.job.exercise->cautions : freeCautions());

    // All of it in its natural order when it fits; else the actions stay at the foot, in reach.
    const float needed = body.height() + above + actionsHeight + cautions.height();
    const float reach = pen.px(4.0f);
    const auto actionsAt = [&](float y) {
        return Rect{{area.min.x - reach, y}, {area.max.x + reach, y + actionsHeight}};
    };
    if (needed <= area.height()) {
        drawColumn(leaf, {area.min, {area.max.x, area.min.y + body.height()}}, body);
        const float y = area.min.y + body.height() + above;
        drawActions(leaf, actionsAt(y));
        cautions.draw({area.min.x, y + actionsHeight});
        return;
    }
    Stack whole(area.width());
    whole.add(body.height(), [&](const Rect& at) { body.draw(at.min); });
    whole.add(cautions.height(), [&](const Rect& at) { cautions.draw(at.min); });
    whole.space(pen.px(8.0f));
    const float y = area.max.y - actionsHeight - pen.px(8.0f);
    const Rect shown{area.min, {area.max.x, y - pen.px(8.0f)}};
    bringSaid(leaf, shown, said, body.height());
    drawColumn(leaf, shown, whole);
    pen.list->AddLine({area.min.x - reach, y - pen.px(8.0f)},
                      {area.max.x + reach, y - pen.px(8.0f)},
                      tone::kPaperLine,
                      1.2f);
    drawActions(leaf, actionsAt(y));
}

} // namespace loom::screen

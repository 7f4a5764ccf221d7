// SPDX-License-Identifier: MIT
// The Power-up leaf: the order of powering up and of putting away as a list that ticks itself, what
// came too early, the cautions where the danger is; the call and the look at the lamp.
#include "bench/catalogue.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/paper/plan_bench.h"
#include "screen/sentences.h"

#include <algorithm>

namespace loom::screen {
namespace {

using lesson::StepSeen;
using plan::Step;

std::string keyOf(Step step) {
    return std::string("power/step/") + plan::kStepWords[static_cast<int>(step)];
}

// A caution stands at the step where the danger begins.
std::string cautionAt(Step step) {
    const std::string key =
        std::string("power/caution/") + plan::kStepWords[static_cast<int>(step)];
    return hasWords(key) ? words(key) : std::string();
}

void addStep(const Leaf& leaf, Stack& stack, const StepSeen& seen, std::size_t number, bool next) {
    const Pen& pen = leaf.inner;
    const std::string said = words(keyOf(seen.step));
    const std::string caution = cautionAt(seen.step);
    const std::string early =
        seen.early ? words("power/early", {{"step", words(keyOf(seen.before) + "/noun")}})
                   : std::string();
    const float textX = pen.px(36.0f), width = stack.width - textX - pen.px(4.0f);
    const auto high = [&](Face face, const std::string& text) {
        return text.empty() ? 0.0f : pen.paragraphHeight(face, width, text);
    };
    const Face face = next ? Face::Bold : Face::Body;
    const float height =
        high(face, said) + high(Face::Body, early) + high(Face::Body, caution) + pen.px(12.0f);
    stack.add(height, [=, &leaf, &pen](const Rect& at) {
        const Rect box{{at.min.x - pen.px(6.0f), at.min.y}, {at.max.x + pen.px(6.0f), at.max.y}};
        if (next) {
            pen.list->AddRectFilled(box.min, box.max, tone::kPaperWarm, pen.px(8.0f));
            pen.list->AddRect(box.min, box.max, tone::kAttention, pen.px(8.0f), 0, pen.px(1.6f));
        }
        const float x = at.min.x + textX;
        float y = at.min.y + pen.px(6.0f);
        drawMark(pen.list,
                 {at.min.x + pen.px(14.0f), y + pen.line(Face::Body) * 0.5f},
                 pen.px(12.0f),
                 seen.early  ? Mark::Wrong
                 : seen.done ? Mark::Done
                             : Mark::Empty);
        y += pen.paragraph(face, {x, y}, width, tone::kInk, said);
        if (!early.empty()) y += pen.paragraph(Face::Body, {x, y}, width, tone::kFault, early);
        if (!caution.empty()) pen.paragraph(Face::Body, {x, y}, width, tone::kInkSoft, caution);
        const std::string state = words(seen.early  ? "power/state-early"
                                        : seen.done ? "power/state-done"
                                                    : "power/state-open");
        readable(pen,
                 leaf.items,
                 "power/step/" + std::to_string(number + 1),
                 said + " " + state + " " + early + " " + caution,
                 Zone::Paper,
                 box,
                 pen.px(8.0f));
    });
}

// The rocker on the bench, whose lamp says that it is live.
const bench::Part* rockerOn(const bench::Bench& bench) {
    for (const bench::Part& part : bench.parts)
        if (bench::isA(part, bench::PartClass::LampSwitch)) return &part;
    return nullptr;
}

bool counts(const std::vector<StepSeen>& steps, Step step) {
    return std::any_of(
        steps.begin(), steps.end(), [&](const StepSeen& each) { return each.step == step; });
}

void drawActions(const Leaf& leaf, const Rect& at, const std::vector<StepSeen>& steps) {
    const Pen& pen = leaf.pen;
    const bench::Part* rocker = rockerOn(leaf.view.session->attempt().bench());
    const float gap = pen.px(8.0f), half = (at.width() - gap) * 0.5f;
    const bool lamp = counts(steps, Step::LampSeen);
    if (lamp && button(pen,
                       leaf.items,
                       "power/lamp",
                       words("power/lamp"),
                       Zone::Paper,
                       rectAt(at.min.x, at.min.y, half, at.height()),
                       ButtonLook::Paper,
                       rocker != nullptr))
        leaf.out.push_back(Do{attempt::LookAt{rocker->ref, -1}});
    const float x = lamp ? at.min.x + half + gap : at.min.x;
    if (button(pen,
               leaf.items,
               "power/call",
               words("power/call"),
               Zone::Paper,
               {{x, at.min.y}, at.max},
               ButtonLook::Main))
        leaf.out.push_back(Do{attempt::CallClear{}});
}

} // namespace

void drawPowerUpLeaf(const Leaf& leaf, const Rect& whole) {
    const lesson::Procedure* procedure = procedureOn(*leaf.view.session);
    if (!procedure) return;
    const Pen& pen = leaf.inner;
    const std::vector<StepSeen>& steps = procedure->steps();
    const float high = pen.px(48.0f);
    const Rect actions{{whole.min.x - pen.px(4.0f), whole.max.y - high - pen.px(8.0f)},
                       {whole.max.x + pen.px(4.0f), whole.max.y - pen.px(8.0f)}};
    Stack stack(whole.width());
    stack.space(pen.px(8.0f));
    stack.text(pen, Face::Body, tone::kInkSoft, words("power/how"));
    stack.space(pen.px(6.0f));
    bool open = false; // the first that is not done is the next
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (steps[i].step == Step::Off) {
            stack.space(pen.px(8.0f));
            stack.text(pen, Face::Bold, tone::kInk, words("power/afterwards"));
        }
        const bool next = !steps[i].done && !open;
        open = open || next;
        addStep(leaf, stack, steps[i], i, next);
    }
    drawColumn(leaf, {whole.min, {whole.max.x, actions.min.y - pen.px(8.0f)}}, stack);
    pen.list->AddLine({actions.min.x, actions.min.y - pen.px(8.0f)},
                      {actions.max.x, actions.min.y - pen.px(8.0f)},
                      tone::kPaperLine,
                      1.2f);
    drawActions(leaf, actions, steps);
}

} // namespace loom::screen

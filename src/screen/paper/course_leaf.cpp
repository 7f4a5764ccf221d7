// SPDX-License-Identifier: MIT
// The leaf with all jobs: the exercises with their marks, the free bench, and what is done with a
// bench as a whole: start again, save, open.
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/paper/leaf.h"
#include "screen/sentences.h"

#include <algorithm>

namespace loom::screen {
namespace {

// Something on this leaf that takes the place of what is on the bench.
struct Choice {
    std::string name; // of the item
    std::string label;
    Intent intent;
};

bool hasWork(const Leaf& leaf) {
    const attempt::Attempt& attempt = leaf.view.session->attempt();
    return attempt.canUndo() || attempt.canRedo();
}

// The leaf is done with: back to the job, and off the board on a tablet.
void carryOut(const Leaf& leaf, const Choice& choice) {
    leaf.out.push_back(choice.intent);
    leaf.ui.asking.clear();
    leaf.ui.coursesOpen = false;
    leaf.ui.pulledIn = false;
}

void choose(const Leaf& leaf, const Choice& choice) {
    const bool solved = leaf.job.solved && !leaf.job.changedSince;
    if (!hasWork(leaf) || solved) return carryOut(leaf, choice);
    leaf.ui.asking = choice.name;
    leaf.ui.scroll = 1e6f; // the question stands at the bottom: into sight with it
}

// In the place of what was pressed, once: it clears a bench that was worked on.
void addQuestion(const Leaf& leaf, Stack& stack, const Choice& choice) {
    const Pen& pen = leaf.inner;
    const float pad = pen.px(12.0f), width = stack.width - 2.0f * pad;
    const std::string question = words("course/clears", {{"document", choice.label}});
    const float text = pen.paragraphHeight(Face::Body, width, question);
    stack.add(text + pen.px(78.0f), [&leaf, &pen, question, choice, pad, width](const Rect& at) {
        drawNote(pen.list, at);
        const float textHeight = pen.paragraph(
            Face::Body, {at.min.x + pad, at.min.y + pen.px(10.0f)}, width, tone::kInk, question);
        const float y = at.min.y + textHeight + pen.px(20.0f);
        const float gap = pen.px(8.0f), half = (width - gap) * 0.5f;
        const Rect yes = rectAt(at.min.x + pad, y, half, pen.px(46.0f));
        const Rect no = rectAt(yes.max.x + gap, y, half, pen.px(46.0f));
        if (button(pen,
                   leaf.items,
                   choice.name + "/yes",
                   words("course/yes"),
                   Zone::Paper,
                   yes,
                   ButtonLook::Main))
            carryOut(leaf, choice);
        if (button(pen,
                   leaf.items,
                   choice.name + "/no",
                   words("course/no"),
                   Zone::Paper,
                   no,
                   ButtonLook::Paper))
            leaf.ui.asking.clear();
    });
}

struct Standing {
    std::string text;
    bool done = false;
};

Standing standingOf(const Leaf& leaf, const lesson::Exercise& exercise) {
    const int all = marksOf(exercise);
    const auto best = leaf.ui.bestMarks.find(exercise.id);
    if (best == leaf.ui.bestMarks.end())
        return {words("job/marks-in-all", {{"all", std::to_string(all)}}), false};
    return {words("job/marks-of",
                  {{"marks", std::to_string(best->second)}, {"all", std::to_string(all)}}),
            best->second == all};
}

void addExercise(const Leaf& leaf, Stack& stack, const lesson::Exercise& exercise) {
    const Pen& pen = leaf.inner;
    const Choice choice{"course/" + exercise.id, text(exercise.title), Begin{exercise.id}};
    const bool open = leaf.job.exercise == &exercise;
    const float textX = pen.px(40.0f), width = stack.width - textX - pen.px(6.0f);
    const float title = pen.paragraphHeight(Face::Bold, width, text(exercise.title));
    const Standing standing = standingOf(leaf, exercise);
    const std::string second =
        open ? words("course/open", {{"state", standing.text}}) : standing.text;
    stack.add(title + pen.paragraphHeight(Face::Body, width, second) + pen.px(16.0f),
              [=, &leaf, &pen, &exercise](const Rect& at) {
                  const Touch touch = row(pen,
                                          leaf.items,
                                          choice.name,
                                          text(exercise.title) + ", " + second,
                                          Zone::Paper,
                                          shrunk({{at.min.x - pen.px(6.0f), at.min.y},
                                                  {at.max.x + pen.px(6.0f), at.max.y}},
                                                 1.0f),
                                          open);
                  const float top = at.min.y + pen.px(8.0f);
                  drawMark(pen.list,
                           {at.min.x + pen.px(16.0f), top + pen.line(Face::Bold) * 0.5f},
                           pen.px(12.0f),
                           standing.done ? Mark::Done : Mark::Empty);
                  const float high = pen.paragraph(
                      Face::Bold, {at.min.x + textX, top}, width, tone::kInk, text(exercise.title));
                  pen.paragraph(
                      Face::Body, {at.min.x + textX, top + high}, width, tone::kInkSoft, second);
                  if (!touch.clicked) return;
                  // The one that is open is only shown again; to begin it anew is asked for below.
                  if (open)
                      leaf.ui.coursesOpen = false;
                  else
                      carryOut(leaf, choice); // each job keeps its own bench
              });
    stack.space(pen.px(2.0f));
}

void addFreeBench(const Leaf& leaf, Stack& stack) {
    const Pen& pen = leaf.inner;
    const Choice choice{"course/free", words("free/title"), Begin{""}};
    const bool open = !leaf.job.exercise;
    stack.add(pen.px(48.0f), [=, &leaf, &pen](const Rect& at) {
        const Rect box = shrunk(
            {{at.min.x - pen.px(6.0f), at.min.y}, {at.max.x + pen.px(6.0f), at.max.y}}, 1.0f);
        const Touch touch = row(pen, leaf.items, choice.name, choice.label, Zone::Paper, box, open);
        pen.left(Face::Bold, {at.min.x + pen.px(40.0f), at.centre().y}, tone::kInk, choice.label);
        if (!touch.clicked) return;
        if (open)
            leaf.ui.coursesOpen = false;
        else
            carryOut(leaf, choice);
    });
}

struct Offer {
    Choice choice;
    bool clears = false; // it takes the place of what is on the bench: asked first
};

void press(const Leaf& leaf, const Offer& offer) {
    if (offer.clears)
        choose(leaf, offer.choice);
    else
        leaf.out.push_back(offer.choice.intent);
}

// Side by side, one or two of them.
void addButtons(const Leaf& leaf, Stack& stack, const std::vector<Offer>& offers) {
    const Pen& pen = leaf.inner;
    for (const Offer& offer : offers)
        if (leaf.ui.asking == offer.choice.name) return addQuestion(leaf, stack, offer.choice);
    stack.add(pen.px(46.0f), [=, &leaf, &pen](const Rect& at) {
        const float gap = pen.px(8.0f), count = static_cast<float>(offers.size());
        const float wide = (at.width() - gap * (count - 1.0f)) / count;
        float x = at.min.x;
        for (const Offer& offer : offers) {
            const Rect place = rectAt(x, at.min.y, wide, at.height());
            x += wide + gap;
            if (button(pen,
                       leaf.items,
                       offer.choice.name,
                       offer.choice.label,
                       Zone::Paper,
                       place,
                       ButtonLook::Paper))
                press(leaf, offer);
        }
    });
    stack.space(pen.px(8.0f));
}

} // namespace

void drawCourseLeaf(const Leaf& leaf, const Rect& area) {
    const Pen& pen = leaf.inner;
    Stack stack(area.width());
    stack.space(pen.px(8.0f));
    for (const lesson::Exercise& exercise : leaf.view.session->course())
        addExercise(leaf, stack, exercise);
    addFreeBench(leaf, stack);
    stack.space(pen.px(10.0f));
    stack.add(pen.px(12.0f), [&pen](const Rect& at) {
        pen.list->AddLine(at.min, {at.max.x, at.min.y}, tone::kPaperLine, 1.2f);
    });
    const std::string id = leaf.job.exercise ? leaf.job.exercise->id : std::string();
    addButtons(leaf, stack, {{{"paper/restart", words("course/restart"), Begin{id}}, true}});
    // A job keeps its bench when a file is opened; on the free bench the file takes its place.
    addButtons(leaf,
               stack,
               {{{"paper/save", words("course/save"), SaveBench{}}},
                {{"paper/open", words("course/file"), OpenBench{}}, !leaf.job.exercise}});
    addButtons(leaf,
               stack,
               {{{"paper/hand-over", words("course/hand-over"), HandOver{false}}},
                {{"paper/link", words("course/link"), HandOver{true}}}});
    drawColumn(leaf, area, stack);
}

} // namespace loom::screen

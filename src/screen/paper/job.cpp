// SPDX-License-Identifier: MIT
#include "screen/paper/job.h"

#include "screen/sentences.h"

namespace loom::screen {
namespace {

const lesson::Judged* judgedOf(const lesson::Verdict* verdict, const lesson::Check& check) {
    if (!verdict) return nullptr;
    for (const lesson::Judged& judged : verdict->checks)
        if (judged.check == check.id) return &judged;
    return nullptr;
}

const lesson::Exercise* after(const std::vector<lesson::Exercise>& course,
                              const lesson::Exercise& exercise) {
    for (std::size_t i = 0; i + 1 < course.size(); ++i)
        if (course[i].id == exercise.id) return &course[i + 1];
    return nullptr;
}

} // namespace

bool Job::passed(const lesson::Check& check) const {
    const lesson::Judged* judged = judgedOf(verdict, check);
    return judged && judged->passed;
}

Job jobOf(const lesson::Session& session) {
    Job job;
    job.exercise = session.exercise();
    if (!job.exercise) return job;
    if (session.verdict()) job.verdict = &*session.verdict();
    job.changedSince = session.verdictIsStale();
    const bool passed = job.verdict && job.verdict->solved();
    job.solved = passed && !job.changedSince;
    job.wasSolved = passed && job.changedSince;
    job.next = after(session.course(), *job.exercise);
    const lesson::Check* spare = nullptr; // a hint at what passes
    for (const lesson::Check& check : job.exercise->checks) {
        const bool taken = session.hintsTaken().count(check.id) > 0;
        if (!taken && !check.hint.empty()) ++job.hintsLeft;
        if (job.passed(check)) {
            if (!taken && !check.hint.empty() && !spare) spare = &check;
            continue;
        }
        if (!job.failing && job.verdict) {
            job.failing = &check;
            if (const lesson::Judged* judged = judgedOf(job.verdict, check)) {
                const Split said = firstSentence(text(judged->say));
                job.headline = said.first;
                job.explanation = said.rest;
            }
        }
        if (taken)
            job.hinted.push_back(&check);
        else if (!check.hint.empty() && !job.nextHint)
            job.nextHint = &check;
    }
    if (!job.nextHint) job.nextHint = spare;
    return job;
}

int marksOf(const lesson::Exercise& exercise) {
    int marks = 0;
    for (const lesson::Check& check : exercise.checks)
        marks += check.marks;
    return marks;
}

Split firstSentence(const std::string& text) {
    for (std::size_t i = 0; i + 1 < text.size(); ++i) {
        const bool ends = text[i] == '.' || text[i] == '?' || text[i] == '!';
        if (ends && text[i + 1] == ' ') return {text.substr(0, i + 1), text.substr(i + 2)};
    }
    return {text, ""};
}

} // namespace loom::screen

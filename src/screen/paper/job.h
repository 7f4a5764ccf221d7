// SPDX-License-Identifier: MIT
// What the paper says of the exercise that is open: how far it is, what to say next, what can be
// asked. Worked out anew each frame from the session.
#pragma once

#include "lesson/session.h"

#include <string>
#include <vector>

namespace loom::screen {

struct Job {
    const lesson::Exercise* exercise = nullptr; // none on the free bench
    const lesson::Verdict* verdict = nullptr;   // none before the first check
    bool solved = false;                        // by the last check, and not changed since
    bool wasSolved = false;                     // by the last check, but changed since
    bool changedSince = false;                  // the bench is not as it was then
    const lesson::Check* failing = nullptr;     // the first that did not pass
    std::string headline, explanation;          // what it said, first sentence apart
    std::vector<const lesson::Check*> hinted;   // whose hints were taken and are still wanted
    const lesson::Check* nextHint = nullptr;    // whose hint comes next, of what does not pass first; none: no hint left
    int hintsLeft = 0;
    const lesson::Exercise* next = nullptr; // in the course; none after the last

    bool passed(const lesson::Check& check) const;
};

Job jobOf(const lesson::Session& session);
int marksOf(const lesson::Exercise& exercise);

// "Pippin coasts on. Where can it go?" -> the first sentence and the rest.
struct Split {
    std::string first, rest;
};

Split firstSentence(const std::string& text);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The second person's cross-check: what was marked off, and afterwards whether rightly. Read from
// the record, so that a resumed or replayed attempt has the same sheet. Start with sheetOf().
#pragma once

#include "attempt/attempt.h"
#include "plan/plan.h"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace loom::lesson {

struct Sheet {
    std::map<std::string, attempt::SheetMark> marks; // by label; None is not kept
    std::set<std::pair<std::string, int>> looked;    // ends that were looked at: label, 0 or 1
    bool handedIn = false;
    std::optional<bench::Bench> then; // the bench when it was handed in
};

// After a change of the wiring the marks stay: they say what was looked at then. Once it is handed
// in, a mark can no longer be changed; a cable without one can still get it.
Sheet sheetOf(const attempt::Record& record);

struct SheetFinding {
    enum class Kind {
        Confirmed,  // marked right, and is
        Caught,     // marked wrong, and is
        Missed,     // marked right, but is wrong: the one that matters
        FalseAlarm, // marked wrong, but is right
        NotMarked
    } kind = Kind::NotMarked;
    std::string label;
    bool lookedAtBoth = false;
    bench::Phrase difference; // what is wrong with the cable; empty: nothing
};

// One for each row of the plan, in its order: the marks against the bench as it was when the sheet
// was handed in, or as it is now. A cable whose ends are not well made counts as wrong.
std::vector<SheetFinding>
sheetFindings(const plan::Plan& plan, const attempt::Attempt& attempt, const Sheet& sheet);

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
#include "lesson/sheet.h"

#include "lesson/end_faults.h"
#include "lesson/retrace.h"

#include <algorithm>

namespace loom::lesson {
namespace {

struct Reading {
    Sheet& sheet;

    void operator()(const attempt::MarkOff& marked) {
        if (sheet.handedIn && sheet.marks.count(marked.label)) return;
        if (marked.mark == attempt::SheetMark::None)
            sheet.marks.erase(marked.label);
        else
            sheet.marks[marked.label] = marked.mark;
    }

    void operator()(const attempt::LookAt& look) {
        if (look.end >= 0 && !sheet.handedIn) sheet.looked.insert({look.name, look.end});
    }

    void operator()(const attempt::HandInSheet&) { sheet.handedIn = true; }

    template <class Other> void operator()(const Other&) {}
};

// The bench after the first so many entries.
bench::Bench benchAfter(const attempt::Record& record, std::size_t entries) {
    attempt::Record cut = record;
    cut.entries.resize(entries);
    bench::Bench bench = record.start;
    retrace(cut, [&](const Turn& turn) { bench = turn.after; });
    return bench;
}

// What is wrong with the cables of each label, the first thing only.
std::map<std::string, bench::Phrase> wrongCables(const plan::Plan& plan,
                                                 const bench::Bench& bench) {
    std::map<std::string, bench::Phrase> wrong;
    for (const plan::Difference& difference : plan::differences(plan, bench))
        wrong.insert({difference.label, describe(difference)});
    for (const bench::Cable& cable : bench.cables)
        for (int end = 0; end < 2; ++end) {
            bench::Phrase fault = faultAt(bench, cable, end);
            if (!fault.empty()) wrong.insert({cable.label, std::move(fault)});
        }
    return wrong;
}

SheetFinding::Kind kindOf(attempt::SheetMark mark, bool isWrong) {
    using Kind = SheetFinding::Kind;
    switch (mark) {
    case attempt::SheetMark::None:
        break;
    case attempt::SheetMark::Right:
        return isWrong ? Kind::Missed : Kind::Confirmed;
    case attempt::SheetMark::Wrong:
        return isWrong ? Kind::Caught : Kind::FalseAlarm;
    }
    return Kind::NotMarked;
}

} // namespace

Sheet sheetOf(const attempt::Record& record) {
    Sheet sheet;
    for (std::size_t i = 0; i < record.entries.size(); ++i) {
        std::visit(Reading{sheet}, record.entries[i].command);
        if (sheet.handedIn && !sheet.then) sheet.then = benchAfter(record, i);
    }
    return sheet;
}

std::vector<SheetFinding>
sheetFindings(const plan::Plan& plan, const attempt::Attempt& attempt, const Sheet& sheet) {
    const auto wrong = wrongCables(plan, sheet.then ? *sheet.then : attempt.bench());
    std::vector<SheetFinding> findings;
    for (const plan::PlanCable& row : plan.cables) {
        SheetFinding finding;
        finding.label = row.label;
        const auto difference = wrong.find(row.label);
        if (difference != wrong.end()) finding.difference = difference->second;
        const auto mark = sheet.marks.find(row.label);
        finding.kind = kindOf(mark == sheet.marks.end() ? attempt::SheetMark::None : mark->second,
                              difference != wrong.end());
        finding.lookedAtBoth =
            sheet.looked.count({row.label, 0}) > 0 && sheet.looked.count({row.label, 1}) > 0;
        findings.push_back(std::move(finding));
    }
    return findings;
}

} // namespace loom::lesson

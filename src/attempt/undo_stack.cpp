// SPDX-License-Identifier: MIT
#include "attempt/undo_stack.h"

#include "bench/catalogue.h"

#include <utility>

namespace loom::attempt {

bool isStep(const bench::Bench& before, const bench::Edit& edit) {
    if (bench::rowOf(edit).by != bench::By::Hand) return false;
    const auto* operate = std::get_if<bench::Operate>(&edit);
    const bench::Part* part = operate ? bench::findPart(before, operate->part) : nullptr;
    return !(part && bench::spec(part->kind).springsBack);
}

void UndoStack::keep(const bench::Bench& before) {
    past.push_back(snapshotOf(before, past.empty() ? Snapshot{} : past.back()));
    future.clear();
}

void UndoStack::undo(bench::Bench& bench) {
    swap(bench, past, future);
}

void UndoStack::redo(bench::Bench& bench) {
    swap(bench, future, past);
}

void UndoStack::swap(bench::Bench& bench, std::vector<Snapshot>& from, std::vector<Snapshot>& to) {
    const Snapshot goal = std::move(from.back());
    from.pop_back();
    to.push_back(snapshotOf(bench, goal));
    restore(goal, bench);
}

} // namespace loom::attempt

// SPDX-License-Identifier: MIT
// The steps that can be taken back and done again, without limit. Call keep() before a step changes
// the bench. Knows nothing of time or the circuit.
#pragma once

#include "attempt/snapshot.h"
#include "bench/edit.h"

namespace loom::attempt {

// Whether an edit that changed this bench is a step: all are but operating a control that springs
// back, what the meter does, and what was not done by a hand.
bool isStep(const bench::Bench& before, const bench::Edit& edit);

class UndoStack {
public:
    // A step is about to be made on this bench: it can be taken back, what was undone is forgotten.
    void keep(const bench::Bench& before);

    bool canUndo() const { return !past.empty(); }

    bool canRedo() const { return !future.empty(); }

    // Change places with the bench before the last step, or before the last undo, which must be.
    void undo(bench::Bench& bench);
    void redo(bench::Bench& bench);

private:
    static void swap(bench::Bench& bench, std::vector<Snapshot>& from, std::vector<Snapshot>& to);

    std::vector<Snapshot> past, future;
};

} // namespace loom::attempt

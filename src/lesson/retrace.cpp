// SPDX-License-Identifier: MIT
#include "lesson/retrace.h"

#include "attempt/undo_stack.h"
#include "bench/catalogue.h"

namespace loom::lesson {
namespace {

// As the attempt does: no finger stays on a button through an undo.
void letGo(bench::Bench& bench) {
    for (bench::Part& part : bench.parts)
        if (bench::spec(part.kind).springsBack) part.position = bench::spec(part.kind).restPosition;
}

struct Walk {
    bench::Bench now;
    attempt::UndoStack steps;

    Turn::Move take(const attempt::Command& command) {
        if (const auto* edit = std::get_if<bench::Edit>(&command)) return take(*edit);
        if (std::holds_alternative<attempt::Undo>(command) && steps.canUndo()) {
            steps.undo(now);
            letGo(now);
            return Turn::Move::Undone;
        }
        if (std::holds_alternative<attempt::Redo>(command) && steps.canRedo()) {
            steps.redo(now);
            letGo(now);
            return Turn::Move::Redone;
        }
        return Turn::Move::Nothing;
    }

    Turn::Move take(const bench::Edit& edit) {
        auto outcome = bench::apply(now, edit);
        if (!outcome) return Turn::Move::Nothing;
        const bool step = attempt::isStep(now, edit) && !attempt::sameThings(now, outcome.value());
        if (step) steps.keep(now);
        now = std::move(outcome.value());
        return step ? Turn::Move::Step : Turn::Move::Nothing;
    }
};

} // namespace

void retrace(const attempt::Record& record, const std::function<void(const Turn&)>& each) {
    Walk walk{record.start, {}};
    bench::Bench before = record.start;
    for (const attempt::Entry& entry : record.entries) {
        const Turn::Move move = walk.take(entry.command);
        each({move, entry, before, walk.now});
        before = walk.now;
    }
}

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// The plan beside the bench: which plan the job has, which cable on the bench a row of it is, how
// far it is laid, and the way from one to the other when it is chosen on either.
#pragma once

#include "lesson/procedure.h"
#include "plan/plan.h"
#include "screen/paper/leaf.h"

#include <vector>

namespace loom::screen {

// nullptr: the exercise has none.
const plan::Plan* planOf(const lesson::Session& session);
// nullptr: it is not watched in this exercise.
const lesson::Procedure* procedureOn(const lesson::Session& session);

enum class Laid { No, Loose, Joined }; // not on the bench, an end is loose, both ends are joined

struct RowOnBench {
    bench::CableId cable; // none: not on the bench
    Laid laid = Laid::No;
};

// One for each row. Rows with the same label are given the cables that fit them best.
std::vector<RowOnBench> rowsOnBench(const plan::Plan& plan, const bench::Bench& bench);

// "X1/4", "K1 normally open", "B1 +".
std::string placeOf(const plan::Plan& plan, const plan::Spot& spot);
// "6 mm² · white · 0.35 m · ring M6, ferrule"
std::string makeOf(const plan::PlanCable& cable);
// All of a row in a sentence for a screen reader.
std::string spokenRow(const plan::Plan& plan, const plan::PlanCable& cable, Laid laid);

// On the board, as if it were pressed there.
void chooseOnBoard(const Leaf& leaf, const Chosen& chosen);
// Chooses a row of the plan, and its cable on the bench; the board shows both its ends.
void chooseRow(const Leaf& leaf, const plan::Plan& plan, std::size_t row);
// Follows what is chosen on the bench. Once a frame.
void followBench(const Leaf& leaf, const plan::Plan& plan);

// The end's terminal as the plan has it, or where the cable's end is on the bench; the board moves
// close to it.
void showEnd(const Leaf& leaf, const plan::Plan& plan, std::size_t row, int end);

// The drawing and the sheet, worked out anew when the exercise or the record has changed.
const PlanCache& cacheOf(const Leaf& leaf, const plan::Plan& plan);

} // namespace loom::screen

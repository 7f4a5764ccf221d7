// SPDX-License-Identifier: MIT
// What each edit does, one function an edit; apply() in edit.h chooses among them. Each takes a
// copy of the bench and gives it back changed, or the refusal.
#pragma once

#include "bench/edit.h"

namespace loom::bench {

// edit_parts.cpp
Outcome<Bench> edited(Bench bench, const LayPart& edit);
Outcome<Bench> edited(Bench bench, const MovePart& edit);
Outcome<Bench> edited(Bench bench, const TurnPart& edit);
Outcome<Bench> edited(Bench bench, const RemovePart& edit);
Outcome<Bench> edited(Bench bench, const FitFuse& edit);
Outcome<Bench> edited(Bench bench, const Operate& edit);
Outcome<Bench> edited(Bench bench, const WearPart& edit);

// edit_cables.cpp
Outcome<Bench> edited(Bench bench, const MakeCable& edit);
Outcome<Bench> edited(Bench bench, const TakeCable& edit);
Outcome<Bench> edited(Bench bench, const RemoveCable& edit);
Outcome<Bench> edited(Bench bench, const JoinEnd& edit);
Outcome<Bench> edited(Bench bench, const FreeEnd& edit);
Outcome<Bench> edited(Bench bench, const ChangeCable& edit);
Outcome<Bench> edited(Bench bench, const WearCable& edit);

// Shared by both: a finite point, and the nearest one on the board.
std::optional<Refusal> whyNotPoint(const std::string& place, Point point);
Point ontoBoard(const Bench& bench, Point point);

} // namespace loom::bench

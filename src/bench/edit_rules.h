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

// edit_ends.cpp
Outcome<Bench> edited(Bench bench, const StripEnd& edit);
Outcome<Bench> edited(Bench bench, const TwistEnd& edit);
Outcome<Bench> edited(Bench bench, const PressEnd& edit);
Outcome<Bench> edited(Bench bench, const PushEnd& edit);
Outcome<Bench> edited(Bench bench, const TurnScrew& edit);
Outcome<Bench> edited(Bench bench, const MendScrew& edit);
Outcome<Bench> edited(Bench bench, const TugEnd& edit);
Outcome<Bench> edited(Bench bench, const MakeEndWell& edit);
Outcome<Bench> edited(Bench bench, const WearEnd& edit);

// edit_ties.cpp
Outcome<Bench> edited(Bench bench, const TieCable& edit);
Outcome<Bench> edited(Bench bench, const CutTie& edit);
Outcome<Bench> edited(Bench bench, const ObstructAxle& edit);

// edit_meter.cpp
Outcome<Bench> edited(Bench bench, const PlaceMeter& edit);
Outcome<Bench> edited(Bench bench, const HangMeter& edit);
Outcome<Bench> edited(Bench bench, const SetMeter& edit);
Outcome<Bench> edited(Bench bench, const Probe& edit);
Outcome<Bench> edited(Bench bench, const FitMeterFuse& edit);
Outcome<Bench> edited(Bench bench, const WearMeter& edit);

// Shared by all: a finite point, the nearest one on the board, things by id to be changed.
std::optional<Refusal> whyNotPoint(const Phrase& place, Point point);
Point ontoBoard(const Bench& bench, Point point);
Part* partIn(Bench& bench, PartId id);
Refusal noSuchPart(PartId id);
Cable* cableIn(Bench& bench, CableId id);
Refusal noSuchCable(CableId id);
// UnknownCable, or OutOfRange for an end that is neither 0 nor 1.
std::optional<Refusal> whyNotEnd(const Bench& bench, CableId cable, int end);
bool isReadyMade(const Bench& bench, const std::string& label);

// The rest of joining: how the end is made now and its screw; the end is at no terminal yet.
void joinMade(Bench& bench, Cable& cable, int end, TerminalRef to);
// Takes a joined end off and lays it there; nothing is pushed in any more.
void takeOff(const Bench& bench, CableEnd& end, Point at_m);
// Takes away ties, screws and probes of what is no longer on the bench.
void forgetWhatIsGone(Bench& bench);

} // namespace loom::bench

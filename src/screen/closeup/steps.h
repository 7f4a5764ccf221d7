// SPDX-License-Identifier: MIT
// What the close-up knows of an end: how it is made, which steps it takes, how each stands in
// words, and the edit that each asks for. Plain data, worked out anew each frame. Start with
// endAtHand().
#pragma once

#include "bench/catalogue.h"
#include "bench/ends.h"
#include "screen/closeup/state.h"

#include <vector>

namespace loom::screen {

struct EndAtHand {
    const bench::Bench* bench = nullptr;
    const bench::Cable* cable = nullptr; // none: the terminal alone
    int end = 0;
    bench::EndKind kind = bench::EndKind::Bare;
    bench::EndMake make;                        // as it is; an end made well has the right figures
    std::optional<bench::TerminalRef> terminal; // joined here, or to be joined again
    bool joined = false;
    bool fitted = false; // of a ready-made cable: its fitting stays as it is
    bench::TerminalKind terminalKind = bench::TerminalKind::Clamp;
    bench::EndState state;
    bench::EndTarget target;
    bench::TorqueTarget torque;
    bench::Screw screw;

    bool tightens() const { return torque.right_Nm > 0.0; }
};

// Nothing when what it is about is gone.
std::optional<EndAtHand> endAtHand(const bench::Bench& bench, const CloseupOf& of);
bool hasFault(const EndAtHand& at, bench::EndFault fault);

struct StepTile {
    MakingStep step = MakingStep::Strip;
    std::string item;  // "closeup/strip"
    std::string title; // "Strip"
    std::string state; // "10 mm", "not yet"
    bool good = false, wrong = false;
    bool steps = false;    // has a value that the keys change
    bool possible = false; // at once
};

// In the order in which they are done.
std::vector<StepTile> tilesOf(const EndAtHand& at);

// The value that a step has now, the greatest it may get and what one key press changes.
struct StepRange {
    double now = 0.0, most = 0.03, step = 0.001;
};

StepRange rangeOf(const EndAtHand& at, MakingStep step);
// "10 mm", "0.5 N·m"
std::string valueWords(MakingStep step, double value);
// Loose, right, too tight, broken, open, in words.
std::string tightnessWords(const EndAtHand& at, double torque_Nm, bool broken);

// What a step asks for; nothing where it is not possible. value: of Strip, Push and Tighten, else
// not looked at.
std::optional<bench::Edit> editOf(const EndAtHand& at, MakingStep step, double value);
// What is right for the step.
double rightValue(const EndAtHand& at, MakingStep step);

// What is wrong in words, a heading and a clause; the place of a neighbour is named.
struct FaultWords {
    std::string heading, clause;
};

FaultWords faultWords(const EndAtHand& at, bench::EndFault fault);
// A step that is still to be done shows in its tile; anything else gets a call-out.
bool isUndone(const EndAtHand& at, bench::EndFault fault);
// "One strand is out: it can reach X1 3 upper."
std::string faultSentence(const EndAtHand& at, bench::EndFault fault);

} // namespace loom::screen

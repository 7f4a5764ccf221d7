// SPDX-License-Identifier: MIT
// What an end is worth, from how it was made: the one place that knows the rules of a good end.
// Start with stateOf(). The figures and their sources are in ends.cpp.
#pragma once

#include "bench/bench.h"

#include <optional>
#include <vector>

namespace loom::bench {

// What is wrong with an end, in the order in which a learner meets it.
enum class EndFault {
    NotStripped,   // no copper bare: it touches nothing
    StripTooShort, // not enough copper under the screw or in the barrel: it does not hold
    StripTooLong,  // copper shows outside; from kCopperReaches_m on it lies on the neighbour
    StrandOut,     // not twisted: one strand stands out and reaches the neighbouring terminal
    NotPressed,    // a fitting that was not pressed on: it pulls out
    NotPushedIn,   // not far enough: the screw misses it (also where a deeper end in the same hole
                   // takes the screw), the spade is not home
    OnSleeve,      // pushed too far: the screw bites on the sleeve
    ScrewOpen,     // never tightened
    ScrewLoose,    // tightened too little: it heats and gets worse
    ScrewTight,    // tightened too far: strands cut
    ScrewBroken    // and beyond
};

struct EndState {
    std::vector<EndFault> faults; // empty: made well
    bool touches = true;          // its copper touches the terminal's metal
    double resistance_ohm = 0.5e-3;
    bool loose = false;                  // heats and gets worse (circuit::Joint::loose)
    bool holds = true;                   // at the tug test
    double copperShows_m = 0.0;          // bare outside
    std::optional<TerminalRef> strandOn; // the neighbour a loose strand touches
    std::optional<TerminalRef> copperOn; // the neighbour the bare copper lies on
};

// Bare copper longer than this outside its terminal bends onto the neighbouring one.
inline constexpr double kCopperReaches_m = 0.008;

// Of a joined end. The cable must be on the bench, end 0 or 1; an end that lies loose gives the
// faults of its making only and touches nothing.
EndState stateOf(const Bench& bench, const Cable& cable, int end);

// The right figures for an end of this kind on this conductor.
struct EndTarget {
    double strip_m = 0.0, stripLeast_m = 0.0, stripMost_m = 0.0;
    double pushed_m = 0.0, pushedLeast_m = 0.0, pushedMost_m = 0.0; // 0: nothing to push
};

EndTarget targetFor(EndKind kind, double area_m2);
// Made with just these figures; pushed in when it is joined.
EndMake wellMade(EndKind kind, double area_m2, bool joined);

// The right torque of a terminal's screw or nut and its window; all 0 for a tab.
struct TorqueTarget {
    double right_Nm = 0.0, least_Nm = 0.0, most_Nm = 0.0, breaks_Nm = 0.0;
};

TorqueTarget torqueFor(const Bench& bench, TerminalRef terminal);
// As it is now: the right one unless Bench::screws says otherwise.
Screw screwAt(const Bench& bench, TerminalRef terminal);

// Whether the ends of a cable with this label are made by hand on this bench.
bool isHandmade(const Bench& bench, const std::string& label);

} // namespace loom::bench

// SPDX-License-Identifier: MIT
// What could go wrong with a bench, all of it: in every position of its controls, as it stands, with a
// short from each terminal and loose end to every other potential, with each cable, fuse and contact
// open, with each contact welded. Start with sweepFaults(). It answers with the cables that would
// pass the limit of their sleeve before a fuse opens.
//
// What lies between a battery and its first fuse cannot be protected, nor can a link between two
// batteries: there only cables may lie that are named, and no short is tried there.
//
// Nearly all faults are proved harmless by bounds from one steady solution: the cables' heating
// without any loss against the fuses' opening at less than their current. Only those that are not
// are run through the circuit, with heat and all.
// Left out of the bounds: what a running motor feeds into a short (some 900 A2s for Pippin's, in
// 0.3 s), a fuse that opens before the one the bounds expect, and shorts of more than a milliohm.
#pragma once

#include "bench/bench.h"
#include "lesson/exercise.h"
#include "lesson/trial.h"

#include <cstddef>
#include <string>
#include <vector>

namespace loom::lesson {

bool isNamed(const bench::Bench& bench, const bench::Cable& cable, const NamedCable& named);

struct Threat {
    enum class Kind {
        Unprotected, // it lies before every fuse and is not named
        AsItStands,  // with no fault at all
        Short,       // from a to b
        Opened,      // `part` or the cable of that label is open
        Welded       // a contact of `part` does not open
    } kind = Kind::AsItStands;
    Positions set; // controls that are not at rest
    bench::ProbeTip a{}, b{};
    std::string part{};
    bench::CableId suffers{};
    std::string cable{}; // its label
    double current_A = 0.0, temp_K = 0.0, after_s = 0.0;
};

struct FaultSweep {
    std::vector<Threat> threats; // at most one of each cable that suffers
    std::size_t positions = 0;   // of the controls that make a difference
    std::size_t tried = 0;       // faults
    std::size_t run = 0;         // of them through the circuit
};

FaultSweep sweepFaults(const bench::Bench& bench, const bench::Bench& start, const Protection& asked);

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
// Every single mistake that can be made of a worked solution, as scripts: mutantsOf().
#pragma once

#include "desk/script.h"
#include "lesson/exercise.h"

#include <string>
#include <vector>

namespace loom::desk {

struct Mutant {
    enum class Kind {
        LeftOut,  // a line
        Swapped,  // two lines
        Added,    // a cable between two terminals
        Crossed,  // the far ends of two cables
        Size,     // of a cable
        Reversed, // a part's first two terminals
        Fuse,     // another one, or none
        Moved     // an end to another terminal of the same part
    } kind = Kind::LeftOut;
    std::string what; // "without: lay E1"
    std::vector<ScriptLine> lines;
};

inline constexpr const char* kMutantWords[] = {
    "left out", "swapped", "added", "crossed", "size", "reversed", "fuse", "moved"};

// All pairs of lines are swapped up to this number of pairs; beyond it neighbours, and each line with
// the first and the last.
inline constexpr std::size_t kMostPairs = 1500;

// `done`: the bench that the solution ends with, for the terminals there are.
std::vector<Mutant> mutantsOf(const lesson::Exercise& exercise,
                              const std::vector<ScriptLine>& solution,
                              const bench::Bench& done);

} // namespace loom::desk

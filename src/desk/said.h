// SPDX-License-Identifier: MIT
// What a run of the command says: text for standard output, text for standard error, exit code.
#pragma once

#include "bench/refusal.h"

#include <string>

namespace loom::desk {

enum ExitCode {
    Done = 0,
    WrongUse = 1,   // the arguments
    Unreadable = 2, // a file, a script or a quantity; the message names the place
    Refused = 3,    // a line of the script asked for what the bench refuses
    NotSolved = 4,  // check: not all marks; faults: a cable in danger
    Altered = 5     // check: not an attempt at this exercise as it was made
};

struct Said {
    int exitCode = Done;
    std::string out, err;
};

// The same refusal, its place in a file: "FILE: PLACE".
bench::Refusal inFile(const std::string& file, bench::Refusal refusal);

// "loomwright: PLACE: expected EXPECTED, found FOUND\n" with the exit code given.
Said failure(ExitCode code, const bench::Refusal& refusal);

} // namespace loom::desk

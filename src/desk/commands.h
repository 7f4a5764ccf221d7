// SPDX-License-Identifier: MIT
// The lesser commands of `loomwright`, each given the arguments after its name.
#pragma once

#include "desk/said.h"

#include <string>
#include <vector>

namespace loom::desk {

// A bench that comes with the program, as a file: "free" (the default) or "pippin".
Said newBench(const std::vector<std::string>& arguments);

// Runs a record again and says its state hash.
Said replayAttempt(const std::vector<std::string>& arguments);

// The plan, the check sheet, the parts list or the labels of an exercise, as SVG pages.
Said paper(const std::vector<std::string>& arguments);

// The cables of a bench that some single fault harms before a fuse opens: see lesson/fault_sweep.h.
Said faults(const std::vector<std::string>& arguments);

// Marks an attempt against its exercise.
Said checkAttempt(const std::vector<std::string>& arguments);

} // namespace loom::desk

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

// Marks an attempt against its exercise; without an attempt, checkExercise().
Said checkAttempt(const std::vector<std::string>& arguments);

// Marks many attempts at one exercise: a table as CSV, a line each, with what speaks against a mark.
Said markAttempts(const std::vector<std::string>& arguments);

// Makes every single mistake of the worked solution and says which of them the marks miss; with
// `alarms` also which they count though every part acts as in the solution.
Said checkExercise(const std::string& path, bool alarms);

} // namespace loom::desk

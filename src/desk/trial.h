// SPDX-License-Identifier: MIT
// `loomwright try`: runs a bench through a script and reads quantities. Start with
// trialFrom(arguments), then runTrial().
#pragma once

#include "bench/refusal.h"
#include "desk/said.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace loom::desk {

struct Trial {
    std::string benchFile;
    std::vector<std::string> scripts;   // file names or lines
    std::optional<std::int64_t> slices; // nothing: 1 s after the last line of the scripts
    std::int64_t every_slices = 10;
    std::vector<std::string> quantities;
    bool json = false;
    bool events = false;
};

// The arguments after "try".
bench::Outcome<Trial> trialFrom(const std::vector<std::string>& arguments);

Said runTrial(const Trial& trial);

} // namespace loom::desk

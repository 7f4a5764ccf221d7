// SPDX-License-Identifier: MIT
// A script of what to do and when, one command a line; help.cpp describes it for its users. Start
// with scriptFrom(), then commandFrom() for each line when its time has come, since what a name
// stands for depends on the bench then.
#pragma once

#include "attempt/command.h"
#include "bench/refusal.h"

#include <string>
#include <string_view>
#include <vector>

namespace loom::desk {

struct ScriptLine {
    std::int64_t slice = 0;
    std::string place;              // "drive.txt:3"
    std::vector<std::string> words; // at least one
};

// `name` is the file's, for messages. Lines end with a newline or ';', "…" holds words together,
// '#' at the beginning of a word begins a remark. A number in front is the time in seconds, rounded
// to 0.01 s; without one the line comes at the time of the line before.
bench::Outcome<std::vector<ScriptLine>> scriptFrom(const std::string& name, std::string_view text);

bench::Outcome<attempt::Command> commandFrom(const ScriptLine& line, const bench::Bench& bench);

// The nearest slice; nothing for a time below 0 or above 100 h.
std::optional<std::int64_t> sliceAt(double time_s);

} // namespace loom::desk

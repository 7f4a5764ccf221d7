// SPDX-License-Identifier: MIT
#include "bench/catalogue.h"
#include "bench/file.h"
#include "desk/commands.h"
#include "desk/names.h"
#include "desk/text_file.h"
#include "lesson/fault_sweep.h"
#include "lesson/threat_phrase.h"
#include "words/sentences.h"

namespace loom::desk {

namespace {

using bench::Bench;
using bench::Outcome;
using lesson::Threat;

// "B1/plus" on this bench.
Outcome<plan::Spot> spotFrom(const Bench& bench, const std::string& text) {
    const std::size_t slash = text.find('/');
    if (slash == std::string::npos)
        return bench::Refusal{
            bench::Why::UnknownTerminal, "faults", "a terminal such as B1/plus", text};
    const auto terminal = terminalNamed(bench, text.substr(0, slash), text.substr(slash + 1));
    if (!terminal) return terminal.refusal();
    const bench::Part* part = bench::findPart(bench, terminal.value().part);
    return plan::Spot{part->ref, bench::spec(part->kind).terminals[terminal.value().terminal].word};
}

Outcome<Bench> benchFrom(const std::string& path) {
    const auto text = readTextFile(path, bench::kGreatestFile_bytes);
    if (!text) return text.refusal();
    return bench::fromJson(text.value());
}

// From the options, which begin with the second argument.
Outcome<lesson::Protection> protectionFrom(const Bench& bench,
                                           const std::vector<std::string>& arguments) {
    lesson::Protection asked;
    for (std::size_t i = 1; i < arguments.size();) {
        const std::string& option = arguments[i++];
        const std::size_t wanted = option == "--common" ? 1 : option == "--named" ? 2 : 0;
        if (wanted == 0)
            return bench::Refusal{bench::Why::UnknownWord, "faults", "--common or --named", option};
        std::vector<plan::Spot> spots;
        for (; spots.size() < wanted; ++i) {
            if (i >= arguments.size())
                return bench::Refusal{bench::Why::Missing, option, "a terminal", "nothing"};
            const auto spot = spotFrom(bench, arguments[i]);
            if (!spot) return spot.refusal();
            spots.push_back(spot.value());
        }
        if (wanted == 1)
            asked.common = spots[0];
        else
            asked.unprotected.push_back({spots[0], spots[1], 0.0});
    }
    return asked;
}

std::string lineOf(const Bench& bench, const Threat& threat) {
    std::string line = words::text(lesson::describe(bench, threat));
    for (const auto& [ref, position] : threat.set)
        line += "; " + ref + " " + position;
    return line + "\n";
}

} // namespace

Said faults(const std::vector<std::string>& arguments) {
    if (arguments.empty())
        return failure(WrongUse, {bench::Why::Missing, "faults", "a bench file", "none"});
    const auto read = benchFrom(arguments[0]);
    if (!read) return failure(Unreadable, read.refusal());
    const Bench& bench = read.value();
    const auto asked = protectionFrom(bench, arguments);
    if (!asked) return failure(WrongUse, asked.refusal());
    const lesson::FaultSweep sweep = lesson::sweepFaults(bench, bench, asked.value());
    Said said;
    for (const Threat& threat : sweep.threats)
        said.out += lineOf(bench, threat);
    said.out += std::to_string(sweep.threats.size()) + " cables in danger, of " +
                std::to_string(sweep.tried) + " faults in " + std::to_string(sweep.positions) +
                " positions of the controls\n";
    said.exitCode = sweep.threats.empty() ? Done : NotSolved;
    return said;
}

} // namespace loom::desk

// SPDX-License-Identifier: MIT
#include "desk/desk.h"

#include "desk/commands.h"
#include "desk/help.h"
#include "desk/perform.h"
#include "desk/trial.h"

#include <algorithm>

namespace loom::desk {

namespace {

Said tryBench(const std::vector<std::string>& arguments) {
    const auto trial = trialFrom(arguments);
    if (!trial) return failure(WrongUse, trial.refusal());
    return runTrial(trial.value());
}

Said help(const std::vector<std::string>&) {
    return {Done, helpText(), ""};
}

struct CommandRow {
    const char* word;
    Said (*run)(const std::vector<std::string>& arguments);
};

constexpr CommandRow kCommands[] = {{"try", tryBench},
                                    {"new", newBench},
                                    {"replay", replayAttempt},
                                    {"check", checkAttempt},
                                    {"mark", markAttempts},
                                    {"record", recordAttempt},
                                    {"paper", paper},
                                    {"faults", faults},
                                    {"help", help},
                                    {"--help", help},
                                    {"-h", help}};

} // namespace

Said run(const std::vector<std::string>& arguments) {
    const std::string word = arguments.empty() ? "nothing" : arguments[0];
    if (std::find(arguments.begin(), arguments.end(), "--help") != arguments.end()) return help({});
    for (const CommandRow& command : kCommands)
        if (word == command.word) return command.run({arguments.begin() + 1, arguments.end()});
    return failure(WrongUse,
                   {bench::Why::UnknownWord,
                    "command",
                    "try, new, replay, check, mark, record, paper, faults or --help",
                    word});
}

} // namespace loom::desk

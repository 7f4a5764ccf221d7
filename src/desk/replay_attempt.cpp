// SPDX-License-Identifier: MIT
#include "desk/commands.h"
#include "desk/numbers.h"
#include "desk/record_input.h"
#include "desk/text_file.h"
#include "words/sentences.h"

#include <cstdio>

namespace loom::desk {

namespace {

std::string hex(std::uint64_t value) {
    char text[17];
    std::snprintf(text, sizeof text, "%016llx", static_cast<unsigned long long>(value));
    return text;
}

} // namespace

bench::Outcome<attempt::Record> readRecord(const std::string& path) {
    const auto text = readTextFile(path, attempt::kGreatestRecord_bytes);
    if (!text) return text.refusal();
    auto record = attempt::recordFromJson(text.value());
    if (!record) return inFile(path, record.refusal());
    return record;
}

bench::Outcome<attempt::Attempt> replayFile(const std::string& path) {
    const auto record = readRecord(path);
    if (!record) return record.refusal();
    auto attempt = attempt::replay(record.value());
    if (!attempt) return inFile(path, attempt.refusal());
    return attempt;
}

Said replayAttempt(const std::vector<std::string>& arguments) {
    if (arguments.size() != 1)
        return failure(WrongUse,
                       {bench::Why::Missing,
                        "replay",
                        "one attempt file",
                        std::to_string(arguments.size()) + " arguments"});
    const auto attempt = replayFile(arguments[0]);
    if (!attempt) return failure(Unreadable, attempt.refusal());
    Said said;
    for (const attempt::BenchEvent& event : attempt.value().events())
        said.err += inDigits(event.time_s) + " s: " + words::sentence(event) + "\n";
    said.out = hex(attempt.value().stateHash()) + "\n";
    return said;
}

} // namespace loom::desk

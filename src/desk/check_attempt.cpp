// SPDX-License-Identifier: MIT
#include "desk/commands.h"
#include "desk/exercise_input.h"
#include "desk/record_input.h"
#include "lesson/genuine.h"
#include "lesson/verdict.h"
#include "words/sentences.h"

#include <algorithm>

namespace loom::desk {

namespace {

std::string outOf(int marks, int most) {
    return std::to_string(marks) + " of " + std::to_string(most);
}

int marksFor(const lesson::Exercise& exercise, const std::string& id) {
    const auto found = std::find_if(exercise.checks.begin(),
                                    exercise.checks.end(),
                                    [&](const auto& check) { return check.id == id; });
    return found == exercise.checks.end() ? 0 : found->marks;
}

std::string sheet(const lesson::Exercise& exercise, const lesson::Verdict& verdict) {
    std::string text;
    for (const lesson::Judged& judged : verdict.checks) {
        text += judged.check + ": " + outOf(judged.marks, marksFor(exercise, judged.check));
        text += judged.say.empty() ? "\n" : " - " + words::text(judged.say) + "\n";
    }
    return text + "marks: " + outOf(verdict.marks, verdict.outOf) + "\n";
}

struct Marked {
    lesson::Verdict verdict;
    bool chained = true;
};

// An attempt that was altered is refused with Why::Altered.
bench::Outcome<Marked> marked(const lesson::Exercise& exercise,
                              const std::string& path,
                              lesson::SeenBefore* before = nullptr) {
    const auto record = readRecord(path);
    if (!record) return record.refusal();
    if (const auto refused = lesson::whyNotGenuine(exercise, record.value()))
        return inFile(path, *refused);
    const auto attempt = attempt::replay(record.value());
    if (!attempt) {
        bench::Refusal refused = inFile(path, attempt.refusal());
        refused.why = bench::Why::Altered;
        return refused;
    }
    return Marked{lesson::judge(exercise, attempt.value(), before), record.value().chained};
}

constexpr const char* kNoChain = "the file is of an earlier version and has no chain of hashes: "
                                 "nobody can tell whether it was altered";

std::string inCsv(const std::string& text) {
    if (text.find_first_of(",\"\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + "\"";
}

} // namespace

Said markAttempts(const std::vector<std::string>& arguments) {
    if (arguments.size() < 2)
        return failure(WrongUse,
                       {bench::Why::Missing,
                        "mark",
                        "an exercise file and attempt files",
                        std::to_string(arguments.size()) + " arguments"});
    const auto exercise = readExercise(arguments[0]);
    if (!exercise) return failure(Unreadable, exercise.refusal());
    Said said;
    lesson::SeenBefore before;
    said.out = "file,marks,of";
    for (const lesson::Check& check : exercise.value().checks)
        said.out += "," + check.id;
    said.out += ",note\n";
    for (std::size_t i = 1; i < arguments.size(); ++i) {
        said.out += inCsv(arguments[i]) + ",";
        const auto attempt = marked(exercise.value(), arguments[i], &before);
        if (!attempt) {
            const bench::Refusal& refused = attempt.refusal();
            std::string why = failure(Altered, refused).err;
            why.erase(why.find_last_not_of('\n') + 1);
            said.out += std::string(exercise.value().checks.size() + 2, ',') + inCsv(why) + "\n";
            said.exitCode = refused.why == bench::Why::Altered ? Altered : Unreadable;
            continue;
        }
        const lesson::Verdict& verdict = attempt.value().verdict;
        said.out += std::to_string(verdict.marks) + "," + std::to_string(verdict.outOf);
        for (const lesson::Judged& judged : verdict.checks)
            said.out += "," + std::to_string(judged.marks);
        said.out += std::string(",") + (attempt.value().chained ? "" : kNoChain) + "\n";
        if (!verdict.solved() && said.exitCode == Done) said.exitCode = NotSolved;
    }
    return said;
}

Said checkAttempt(const std::vector<std::string>& arguments) {
    if (arguments.size() == 1) return checkExercise(arguments[0], false);
    if (arguments.size() == 2 && arguments[1] == "--alarms")
        return checkExercise(arguments[0], true);
    if (arguments.size() != 2)
        return failure(WrongUse,
                       {bench::Why::Missing,
                        "check",
                        "an exercise file and an attempt file",
                        std::to_string(arguments.size()) + " arguments"});
    const auto exercise = readExercise(arguments[0]);
    if (!exercise) return failure(Unreadable, exercise.refusal());
    const auto attempt = marked(exercise.value(), arguments[1]);
    if (!attempt)
        return failure(attempt.refusal().why == bench::Why::Altered ? Altered : Unreadable,
                       attempt.refusal());
    const lesson::Verdict& verdict = attempt.value().verdict;
    Said said{verdict.solved() ? Done : NotSolved, sheet(exercise.value(), verdict), ""};
    if (!attempt.value().chained) said.err = std::string("note: ") + kNoChain + "\n";
    return said;
}

} // namespace loom::desk

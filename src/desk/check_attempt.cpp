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

} // namespace

Said checkAttempt(const std::vector<std::string>& arguments) {
    if (arguments.size() == 1) return checkExercise(arguments[0], false);
    if (arguments.size() == 2 && arguments[1] == "--alarms") return checkExercise(arguments[0], true);
    if (arguments.size() != 2)
        return failure(WrongUse,
                       {bench::Why::Missing,
                        "check",
                        "an exercise file and an attempt file",
                        std::to_string(arguments.size()) + " arguments"});
    const auto exercise = readExercise(arguments[0]);
    if (!exercise) return failure(Unreadable, exercise.refusal());
    const auto read = readRecord(arguments[1]);
    if (!read) return failure(Unreadable, read.refusal());
    const attempt::Record& record = read.value();
    if (const auto refused = lesson::whyNotGenuine(exercise.value(), record))
        return failure(Altered, inFile(arguments[1], *refused));
    const auto attempt = attempt::replay(record);
    if (!attempt) return failure(Altered, inFile(arguments[1], attempt.refusal()));
    const lesson::Verdict verdict = lesson::judge(exercise.value(), attempt.value());
    Said said{verdict.solved() ? Done : NotSolved, sheet(exercise.value(), verdict), ""};
    if (!record.chained)
        said.err = "note: the file is of an earlier version and has no chain of hashes: nobody can "
                   "tell whether it was altered\n";
    return said;
}

} // namespace loom::desk

// SPDX-License-Identifier: MIT
#include "desk/commands.h"
#include "desk/exercise_input.h"
#include "desk/record_input.h"
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
    if (arguments.size() != 2)
        return failure(WrongUse,
                       {bench::Why::Missing,
                        "check",
                        "an exercise file and an attempt file",
                        std::to_string(arguments.size()) + " arguments"});
    const auto exercise = readExercise(arguments[0]);
    if (!exercise) return failure(Unreadable, exercise.refusal());
    const auto attempt = replayFile(arguments[1]);
    if (!attempt) return failure(Unreadable, attempt.refusal());
    const attempt::Record& record = attempt.value().record();
    if (record.exercise != exercise.value().id)
        return failure(Unreadable,
                       {bench::Why::UnknownWord,
                        arguments[1] + ": /exercise",
                        exercise.value().id,
                        record.exercise.empty() ? "the free bench" : record.exercise});
    const lesson::Verdict verdict = lesson::judge(exercise.value(), attempt.value());
    Said said{verdict.solved() ? Done : NotSolved, sheet(exercise.value(), verdict), ""};
    if (record.exerciseHash != exercise.value().hash)
        said.err = "note: the attempt was made with another version of this exercise\n";
    return said;
}

} // namespace loom::desk

// SPDX-License-Identifier: MIT
#include "desk/perform.h"

#include "attempt/record_file.h"
#include "desk/exercise_input.h"
#include "desk/numbers.h"
#include "desk/text_file.h"

namespace loom::desk {

namespace {

using bench::Outcome;
using bench::Refusal;
using bench::Why;

constexpr std::int64_t kAfter_slices = 100;
constexpr std::size_t kGreatestScript_bytes = 1u << 20;

Outcome<std::vector<ScriptLine>> linesFrom(const lesson::Exercise& exercise,
                                           const std::string& script) {
    if (script.empty()) return solutionOf(exercise);
    const auto text = readTextFile(script, kGreatestScript_bytes);
    if (!text) return text.refusal();
    return scriptFrom(script, text.value());
}

} // namespace

Outcome<std::vector<ScriptLine>> solutionOf(const lesson::Exercise& exercise) {
    if (exercise.solution.empty())
        return Refusal{Why::Missing, "/solution", "a worked solution", "none"};
    std::string text;
    for (const std::string& line : exercise.solution)
        text += line + "\n";
    return scriptFrom("/solution", text);
}

Outcome<attempt::Attempt> perform(const lesson::Exercise& exercise,
                                  const std::vector<ScriptLine>& lines,
                                  std::uint64_t seed,
                                  bool passOver,
                                  const Watch& before) {
    attempt::Attempt attempt(lesson::startOf(exercise, seed), exercise.id, exercise.hash, seed);
    for (const ScriptLine& line : lines) {
        attempt.advance(line.slice - attempt.now_slices());
        const auto command = commandFrom(line, attempt.bench());
        if (!command && passOver) continue;
        if (!command) return command.refusal();
        if (before) before(attempt, command.value());
        if (auto refused = attempt.ask(command.value())) {
            if (!passOver) return inFile(line.place, *refused);
        }
    }
    attempt.advance(kAfter_slices);
    return attempt;
}

Said recordAttempt(const std::vector<std::string>& arguments) {
    std::vector<std::string> files;
    std::uint64_t seed = 0;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        if (arguments[i] != "--seed") {
            files.push_back(arguments[i]);
            continue;
        }
        const auto number = i + 1 < arguments.size() ? numberFrom(arguments[++i]) : std::nullopt;
        if (!number || *number < 0 || *number > 1e9)
            return failure(WrongUse, {Why::OutOfRange, "--seed", "a whole number from 0", "none"});
        seed = static_cast<std::uint64_t>(*number);
    }
    if (files.empty() || files.size() > 2)
        return failure(WrongUse,
                       {Why::Missing,
                        "record",
                        "an exercise file, and a script or nothing for the worked solution",
                        std::to_string(files.size()) + " arguments"});
    const auto exercise = readExercise(files[0]);
    if (!exercise) return failure(Unreadable, exercise.refusal());
    const auto lines = linesFrom(exercise.value(), files.size() > 1 ? files[1] : std::string());
    if (!lines) return failure(Unreadable, inFile(files.back(), lines.refusal()));
    const auto attempt = perform(exercise.value(), lines.value(), seed);
    if (!attempt) return failure(Refused, attempt.refusal());
    return {Done, attempt::toJson(attempt.value().record()), ""};
}

} // namespace loom::desk

// SPDX-License-Identifier: MIT
#include "desk/commands.h"
#include "desk/exercise_input.h"
#include "plan/print.h"
#include "words/sentences.h"

namespace loom::desk {

Said paper(const std::vector<std::string>& arguments) {
    if (arguments.size() != 2)
        return failure(WrongUse,
                       {bench::Why::Missing,
                        "paper",
                        "an exercise file and plan, sheet, parts, labels or all",
                        std::to_string(arguments.size()) + " arguments"});
    const auto exercise = readExercise(arguments[0]);
    if (!exercise) return failure(Unreadable, exercise.refusal());
    if (!exercise.value().plan)
        return failure(Unreadable,
                       {bench::Why::Missing, arguments[0], "an exercise with a plan", "none"});
    const plan::Say say = words::printed();
    const auto pages =
        plan::printedPages(arguments[1], {*exercise.value().plan, exercise.value().title, say});
    if (!pages) return failure(WrongUse, pages.refusal());
    return {Done, plan::onOneSheet(pages.value()), ""};
}

} // namespace loom::desk

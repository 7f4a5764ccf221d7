// SPDX-License-Identifier: MIT
#include "plan/paper.h"

#include "assets/embedded.h"
#include "bench/checked_json.h"
#include "desk/commands.h"
#include "desk/exercise_input.h"

#include <map>

namespace loom::desk {

namespace {

using Words = std::map<std::string, std::string, std::less<>>;

Words englishWords() {
    Words words;
    const Embedded* file = findEmbedded("assets/strings/en.json");
    if (!file) return words;
    const std::string_view text(reinterpret_cast<const char*>(file->bytes), file->size);
    const auto json = bench::parseJson(text, text.size());
    if (!json || !json.value().is_object()) return words;
    for (const auto& [key, value] : json.value().items())
        if (value.is_string()) words.emplace(key, value.get<std::string>());
    return words;
}

} // namespace

Said paper(const std::vector<std::string>& arguments) {
    if (arguments.size() != 2)
        return sayNot(WrongUse,
                      {bench::Why::Missing,
                       "paper",
                       "an exercise file and plan, sheet, parts, labels or all",
                       std::to_string(arguments.size()) + " arguments"});
    const auto exercise = readExercise(arguments[0]);
    if (!exercise) return sayNot(Unreadable, exercise.refusal());
    if (!exercise.value().plan)
        return sayNot(Unreadable,
                      {bench::Why::Missing, arguments[0], "an exercise with a plan", "none"});
    const Words words = englishWords();
    const plan::Say say = [&](std::string_view key) {
        const auto found = words.find(key);
        return found == words.end() ? std::string(key) : found->second;
    };
    const auto pages =
        plan::paperPages(arguments[1], {*exercise.value().plan, exercise.value().title, say});
    if (!pages) return sayNot(WrongUse, pages.refusal());
    return {Done, plan::onOneSheet(pages.value()), ""};
}

} // namespace loom::desk

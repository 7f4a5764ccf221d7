// SPDX-License-Identifier: MIT
// One line of a script, read word by word from left to right; the first thing wrong is kept. Used by
// script_command.cpp and script_hands.cpp, which know the commands.
#pragma once

#include "bench/refusal.h"
#include "desk/names.h"
#include "desk/script.h"

#include <initializer_list>
#include <optional>
#include <string>

namespace loom::desk {

class LineReader {
public:
    LineReader(const ScriptLine& read, const bench::Bench& now) : bench(now), line(read) {}

    const bench::Bench& bench;

    const std::optional<bench::Refusal>& refusal() const { return trouble; }

    void refuse(const bench::Phrase& expected, const bench::Phrase& found);

    // A value, or the refusal kept and nothing in its place.
    template <class T> T take(const bench::Outcome<T>& outcome) {
        if (outcome) return outcome.value();
        refuse(outcome.refusal().expected, outcome.refusal().found);
        return {};
    }

    bool ended() const { return at >= line.words.size(); }

    // The word that comes next, or "the end of the line".
    std::string peek() const { return ended() ? "the end of the line" : line.words[at]; }

    std::string next(const char* expected);
    bool skip(const char* word);
    double number(const char* expected);
    int whole(const char* expected, int least, int most);
    // The words up to one of the stops, as one.
    std::string phrase(std::initializer_list<const char*> stops);

    bench::PartId part();
    bench::CableId cable();
    int end(); // "1" or "2"
    bench::Point point();
    bench::Point pointOrMiddle();

private:
    const ScriptLine& line;
    std::size_t at = 0;
    std::optional<bench::Refusal> trouble;
};

// The commands of script_hands.cpp; nothing, and no word taken, when the line begins with none of
// their words.
std::optional<attempt::Command> handsOnCommand(LineReader& reader);

} // namespace loom::desk

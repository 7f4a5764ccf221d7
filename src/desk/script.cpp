// SPDX-License-Identifier: MIT
// The lines of a script: cutting them into words and reading their times.
#include "desk/script.h"

#include "attempt/record_file.h"
#include "desk/numbers.h"

#include <cmath>

namespace loom::desk {

namespace {

using bench::Refusal;
using bench::Why;

bool isBlank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}

// Cuts a text into lines of words.
class Cutter {
public:
    Cutter(const std::string& fileName, std::string_view whole) : name(fileName), text(whole) {}

    bench::Outcome<std::vector<ScriptLine>> cut() {
        for (; at < text.size(); ++at) {
            const char c = text[at];
            if (c == '#' && !inWord) {
                while (at + 1 < text.size() && text[at + 1] != '\n')
                    ++at;
            } else if (c == '"') {
                if (!quoted())
                    return Refusal{Why::NotJson, place(), "a closing \"", "the end of the line"};
            } else if (c == '\n' || c == ';') {
                endLine();
                if (c == '\n') ++number;
            } else if (isBlank(c)) {
                endWord();
            } else {
                word += c;
                inWord = true;
            }
        }
        endLine();
        return std::move(lines);
    }

private:
    const std::string& name;
    std::string_view text;
    std::size_t at = 0;
    int number = 1;
    bool inWord = false;
    std::string word;
    ScriptLine line;
    std::vector<ScriptLine> lines;

    std::string place() const { return name + ":" + std::to_string(number); }

    bool quoted() {
        inWord = true;
        for (++at; at < text.size() && text[at] != '\n'; ++at) {
            if (text[at] == '"') return true;
            word += text[at];
        }
        return false;
    }

    void endWord() {
        if (inWord) line.words.push_back(std::move(word));
        word.clear();
        inWord = false;
    }

    void endLine() {
        endWord();
        line.place = place();
        if (!line.words.empty()) lines.push_back(std::move(line));
        line = {};
    }
};

} // namespace

std::optional<std::int64_t> sliceAt(double time_s) {
    const double slices = std::floor(time_s / attempt::kSlice_s + 0.5);
    if (!(slices >= 0.0) || slices > static_cast<double>(attempt::kGreatestReplay_slices))
        return std::nullopt;
    return static_cast<std::int64_t>(slices);
}

bench::Outcome<std::vector<ScriptLine>> scriptFrom(const std::string& name, std::string_view text) {
    auto outcome = Cutter(name, text).cut();
    if (!outcome) return outcome;
    std::int64_t now = 0;
    for (ScriptLine& line : outcome.value()) {
        if (const auto time_s = numberFrom(line.words[0])) {
            const auto slice = sliceAt(*time_s);
            if (!slice || *slice < now)
                return Refusal{Why::OutOfRange,
                               line.place,
                               "a time from " +
                                   inDigits(static_cast<double>(now) * attempt::kSlice_s) +
                                   " s to 100 h",
                               line.words[0]};
            now = *slice;
            line.words.erase(line.words.begin());
            if (line.words.empty())
                return Refusal{Why::Missing, line.place, "a command after the time", "none"};
        }
        line.slice = now;
    }
    return outcome;
}

} // namespace loom::desk

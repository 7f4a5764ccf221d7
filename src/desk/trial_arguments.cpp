// SPDX-License-Identifier: MIT
// Reads the arguments of `loomwright try`.
#include "desk/numbers.h"
#include "desk/script.h"
#include "desk/trial.h"

namespace loom::desk {

namespace {

using bench::Refusal;
using bench::Why;

bool isOption(const std::string& word) {
    return word.compare(0, 2, "--") == 0;
}

class ArgumentReader {
public:
    explicit ArgumentReader(const std::vector<std::string>& given) : arguments(given) {}

    bench::Outcome<Trial> read() {
        while (at < arguments.size() && !trouble)
            argument(arguments[at++]);
        if (!trouble && trial.benchFile.empty()) refuse("try", "a bench file", "none");
        if (!trouble && trial.quantities.empty())
            refuse("try", "--read and at least one quantity", "none");
        if (trouble) return *trouble;
        return trial;
    }

private:
    const std::vector<std::string>& arguments;
    std::size_t at = 0;
    Trial trial;
    std::optional<Refusal> trouble;

    void refuse(const std::string& place, const std::string& expected, const std::string& found) {
        if (!trouble) trouble = Refusal{Why::UnknownWord, place, expected, found};
    }

    void argument(const std::string& word) {
        if (word == "--do") {
            trial.scripts.push_back(valueOf(word, "a script file or lines of one"));
        } else if (word == "--for") {
            trial.slices = slices(word, 0);
        } else if (word == "--every") {
            trial.every_slices = slices(word, 1);
        } else if (word == "--read") {
            quantities(word);
        } else if (word == "--as") {
            const std::string format = valueOf(word, "csv or json");
            trial.json = format == "json";
            if (format != "csv" && format != "json") refuse(word, "csv or json", format);
        } else if (word == "--events") {
            trial.events = true;
        } else if (isOption(word)) {
            refuse("try", "--do, --for, --every, --read, --as or --events", word);
        } else if (trial.benchFile.empty()) {
            trial.benchFile = word;
        } else {
            refuse("try", "one bench file", "a second, " + word);
        }
    }

    std::string valueOf(const std::string& option, const char* expected) {
        if (at < arguments.size()) return arguments[at++];
        refuse(option, expected, "nothing");
        return {};
    }

    std::int64_t slices(const std::string& option, std::int64_t least) {
        const std::string text = valueOf(option, "seconds");
        const auto time_s = numberFrom(text);
        const auto slice = time_s ? sliceAt(*time_s) : std::nullopt;
        if (!slice || *slice < least)
            refuse(option, least ? "seconds from 0.01" : "seconds from 0", text);
        return slice.value_or(least);
    }

    void quantities(const std::string& option) {
        const std::size_t before = trial.quantities.size();
        while (at < arguments.size() && !isOption(arguments[at]))
            trial.quantities.push_back(arguments[at++]);
        if (trial.quantities.size() == before) refuse(option, "a quantity", "none");
    }
};

} // namespace

bench::Outcome<Trial> trialFrom(const std::vector<std::string>& arguments) {
    return ArgumentReader(arguments).read();
}

} // namespace loom::desk

// SPDX-License-Identifier: MIT
// Reads an exercise. Shape and ranges first, member by member; then that every name a row speaks of
// is one that the start or its kit has.
#include "bench/catalogue.h"
#include "bench/file_json.h"
#include "circuit/hash.h"
#include "lesson/exercise.h"
#include "lesson/hidden_fault_file.h"
#include "lesson/plan_file.h"
#include "lesson/row_file.h"

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>

namespace loom::lesson {
namespace {

using bench::JsonPlace;
using bench::numeral;
using bench::phrase;
using bench::Why;

constexpr const char* kFormatWord = "loomwright exercise";
constexpr std::size_t kMostLines = 12, kMostChecks = 40, kMostRows = 40, kMostFaults = 40;
constexpr std::size_t kMostSteps = 500, kLongestStep = 200;
constexpr std::int64_t kMostMarks = 100;

std::string hashOf(std::string_view text) {
    circuit::Hash hash;
    hash.addBytes(text);
    char digits[17];
    std::snprintf(digits, sizeof digits, "%016llx", static_cast<unsigned long long>(hash.value()));
    return digits;
}

// Format and version come first: the rest of another format, or of a later version, means nothing.
void checkHead(const JsonPlace& root) {
    const JsonPlace format = root.member("format");
    const std::string word = format.text();
    if (!root.ok()) return;
    if (word != kFormatWord) return format.refuse(Why::WrongFormat, kFormatWord, word);
    const JsonPlace version = root.member("version");
    const std::int64_t number = version.whole(1, 1000000);
    if (root.ok() && number > kExerciseVersion)
        version.refuse(Why::LaterVersion,
                       phrase("n-at-most", {{"n", numeral(kExerciseVersion)}}),
                       numeral(number));
}

double simulated_s(const Row& row) {
    if (const auto* behaves = std::get_if<Behaves>(&row.look))
        return behaves->after_s + behaves->thenAfter_s;
    if (const auto* unharmed = std::get_if<Unharmed>(&row.look)) return unharmed->for_s;
    if (const auto* survives = std::get_if<Survives>(&row.look))
        return survives->for_s * static_cast<double>(survives->fault_ohm.size());
    return 0.0;
}

class Reader {
public:
    Reader(const nlohmann::json& document, const JsonPlace& place) : only{document}, root(place) {}

    Exercise read() {
        only(root,
             {"format",
              "version",
              "$schema",
              "id",
              "title",
              "job",
              "cautions",
              "start",
              "plan",
              "faults",
              "checks",
              "solution"});
        exercise.id = idOf(root.member("id"));
        exercise.title = sentence(root.member("title"), only);
        exercise.job = lines(root.member("job"));
        exercise.cautions = lines(root.member("cautions"));
        exercise.start = bench::readBench(root.member("start"));
        if (root.ok() && root.has("plan"))
            exercise.plan = readPlan(root.member("plan"), only, exercise.start);
        if (root.ok() && root.has("faults")) faults(root.member("faults"));
        const std::vector<JsonPlace> checks = root.member("checks").items(kMostChecks);
        if (root.ok() && checks.empty())
            root.member("checks").refuse(Why::Missing, phrase("a-check-at-least"), phrase("none"));
        for (const JsonPlace& place : checks)
            if (root.ok()) check(place);
        if (root.ok() && root.has("solution")) solution(root.member("solution"));
        return std::move(exercise);
    }

private:
    KnownMembers only;
    const JsonPlace& root;
    Exercise exercise;

    std::vector<Text> lines(const JsonPlace& place) const {
        std::vector<Text> read;
        for (const JsonPlace& line : place.items(kMostLines))
            read.push_back(sentence(line, only));
        if (place.ok() && read.empty())
            place.refuse(Why::Missing, phrase("a-line-at-least"), phrase("none"));
        return read;
    }

    void solution(const JsonPlace& place) {
        for (const JsonPlace& item : place.items(kMostSteps)) {
            const std::string line = item.text();
            if (item.ok() && (line.empty() || line.size() > kLongestStep))
                item.refuse(Why::OutOfRange,
                            phrase("n-characters", {{"n", numeral(kLongestStep)}}),
                            numeral(line.size()));
            exercise.solution.push_back(line);
        }
    }

    void faults(const JsonPlace& place) {
        for (const JsonPlace& item : place.items(kMostFaults)) {
            if (!root.ok()) return;
            HiddenFault fault = readFault(item, only, exercise.start);
            const auto same = [&](const HiddenFault& other) { return other.id == fault.id; };
            if (std::any_of(exercise.faults.begin(), exercise.faults.end(), same))
                item.member("id").refuse(Why::Duplicate, phrase("an-id-of-its-own"), fault.id);
            exercise.faults.push_back(std::move(fault));
        }
        if (root.ok() && exercise.faults.empty())
            place.refuse(Why::Missing, phrase("a-fault-at-least"), phrase("none"));
    }

    void check(const JsonPlace& place) {
        only(place, {"id", "title", "marks", "rows", "hint"});
        Check check;
        check.id = idOf(place.member("id"));
        const auto same = [&](const Check& other) { return other.id == check.id; };
        if (std::any_of(exercise.checks.begin(), exercise.checks.end(), same))
            place.member("id").refuse(Why::Duplicate, phrase("an-id-of-its-own"), check.id);
        check.title = sentence(place.member("title"), only);
        check.marks = static_cast<int>(place.member("marks").whole(1, kMostMarks));
        check.hint = sentence(place.member("hint"), only);
        const RowReader reader(only, exercise);
        double total_s = 0.0;
        const JsonPlace rows = place.member("rows");
        for (const JsonPlace& row : rows.items(kMostRows)) {
            check.rows.push_back(reader.read(row));
            total_s += simulated_s(check.rows.back());
        }
        if (place.ok() && check.rows.empty())
            rows.refuse(Why::Missing, phrase("a-row-at-least"), phrase("none"));
        if (place.ok() && total_s > kGreatestCheck_s)
            rows.refuse(Why::TooMany,
                        phrase("simulated-at-most", {{"n", numeral(std::floor(kGreatestCheck_s))}}),
                        phrase("seconds", {{"n", numeral(std::floor(total_s))}}));
        exercise.checks.push_back(std::move(check));
    }
};

} // namespace

bench::Outcome<Exercise> exerciseFromJson(std::string_view text) {
    const bench::Outcome<nlohmann::json> parsed = bench::parseJson(text, kGreatestExercise_bytes);
    if (!parsed) return parsed.refusal();
    std::optional<bench::Refusal> refusal;
    const JsonPlace root(parsed.value(), refusal);
    checkHead(root);
    Exercise exercise;
    if (root.ok()) exercise = Reader(parsed.value(), root).read();
    if (refusal) return *refusal;
    exercise.hash = hashOf(text);
    return exercise;
}

} // namespace loom::lesson

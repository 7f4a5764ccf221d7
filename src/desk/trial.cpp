// SPDX-License-Identifier: MIT
#include "desk/trial.h"

#include "bench/file.h"
#include "desk/numbers.h"
#include "desk/readings.h"
#include "desk/script.h"
#include "desk/text_file.h"
#include "words/sentences.h"

#include <algorithm>
#include <set>

namespace loom::desk {

namespace {

using bench::Refusal;
using bench::Why;

constexpr std::size_t kGreatestScript_bytes = 1u << 20;

bench::Outcome<std::vector<ScriptLine>> readScript(const std::string& given) {
    if (!fileExists(given)) {
        // A file's name has no blank in it that a line would not have too.
        if (given.find_first_of(" ;\n") != std::string::npos) return scriptFrom("--do", given);
        return Refusal{Why::Missing, "--do", "a script file or a line such as '0.5 Q1 on'", given};
    }
    const auto text = readTextFile(given, kGreatestScript_bytes);
    if (!text) return text.refusal();
    return scriptFrom(given, text.value());
}

// All scripts' lines in order of time; those of one time in the order given.
bench::Outcome<std::vector<ScriptLine>> readScripts(const std::vector<std::string>& scripts) {
    std::vector<ScriptLine> all;
    for (const std::string& given : scripts) {
        auto lines = readScript(given);
        if (!lines) return lines.refusal();
        all.insert(all.end(), lines.value().begin(), lines.value().end());
    }
    std::stable_sort(all.begin(), all.end(), [](const ScriptLine& l, const ScriptLine& r) {
        return l.slice < r.slice;
    });
    return all;
}

// Runs the lines as time comes to them and keeps what is read.
class TrialRun {
public:
    TrialRun(const Trial& asked, bench::Bench bench, std::vector<ScriptLine> script)
        : trial(asked), attempt(std::move(bench)), lines(std::move(script)) {}

    Said run() {
        if (auto refused = takeQuantities()) return failure(Unreadable, *refused);
        const std::int64_t last =
            trial.slices.value_or((lines.empty() ? 0 : lines.back().slice) + 100);
        while (true) {
            if (auto said = doLines()) return *said;
            const std::int64_t now = attempt.now_slices();
            if (now % trial.every_slices == 0 || now == last)
                if (auto refused = readAll()) return failure(Unreadable, *refused);
            if (now == last) break;
            attempt.advance(std::min({last, nextLine(last), nextReading()}) - now);
        }
        if (auto refused = whyNeverRead()) return failure(Unreadable, *refused);
        return report();
    }

private:
    const Trial& trial;
    attempt::Attempt attempt;
    std::vector<ScriptLine> lines;
    std::size_t line = 0; // the next one
    Readings readings;
    std::set<std::size_t> everRead; // indices of quantities whose thing was there
    std::size_t told = 0;           // events that stand in a row

    std::optional<Refusal> takeQuantities() {
        for (const std::string& text : trial.quantities) {
            const auto quantity = quantityFrom(text);
            if (!quantity) return inFile("--read", quantity.refusal());
            readings.quantities.push_back(quantity.value());
        }
        return std::nullopt;
    }

    std::optional<Said> doLines() {
        for (; line < lines.size() && lines[line].slice <= attempt.now_slices(); ++line) {
            const auto command = commandFrom(lines[line], attempt.bench());
            if (!command) return failure(Unreadable, command.refusal());
            if (auto refused = attempt.ask(command.value()))
                return failure(Refused, inFile(lines[line].place, *refused));
        }
        return std::nullopt;
    }

    std::int64_t nextLine(std::int64_t last) const {
        return line < lines.size() ? lines[line].slice : last;
    }

    std::int64_t nextReading() const {
        return (attempt.now_slices() / trial.every_slices + 1) * trial.every_slices;
    }

    std::optional<Refusal> readAll() {
        ReadingRow row;
        row.slice = attempt.now_slices();
        for (std::size_t i = 0; i < readings.quantities.size(); ++i) {
            const auto value = sample(readings.quantities[i], attempt);
            if (!value) return inFile("--read", value.refusal());
            if (isThere(readings.quantities[i], attempt.bench())) everRead.insert(i);
            row.values.push_back(value.value());
        }
        const std::size_t end = attempt.eventsBefore() + attempt.events().size();
        const std::size_t begin = std::max(told, attempt.eventsBefore());
        for (std::size_t i = begin; i < end; ++i)
            row.events.push_back(attempt.events()[i - attempt.eventsBefore()]);
        told = end;
        readings.rows.push_back(std::move(row));
        return std::nullopt;
    }

    // A name that never stood for anything is a slip of the pen.
    std::optional<Refusal> whyNeverRead() const {
        for (std::size_t i = 0; i < readings.quantities.size(); ++i) {
            if (everRead.count(i)) continue;
            const Quantity& quantity = readings.quantities[i];
            return Refusal{Why::UnknownPart,
                           "--read: " + quantity.asked,
                           "parts or a cable that are on the bench at some time",
                           quantity.measure ? quantity.name
                                            : quantity.firstRef + " and " + quantity.secondRef};
        }
        return std::nullopt;
    }

    Said report() const {
        Said said;
        said.out = trial.json ? asJson(readings, trial.events) : asCsv(readings, trial.events);
        if (!trial.events)
            for (const ReadingRow& row : readings.rows)
                for (const attempt::BenchEvent& event : row.events)
                    said.err += inDigits(event.time_s) + " s: " + words::sentence(event) + "\n";
        for (const circuit::Diagnosis& diagnosis : attempt.diagnoses()) {
            const std::string remark = words::sentence(diagnosis, attempt.bench());
            if (!remark.empty()) said.err += "note: " + remark + "\n";
        }
        return said;
    }
};

} // namespace

Said runTrial(const Trial& trial) {
    const auto text = readTextFile(trial.benchFile, bench::kGreatestFile_bytes);
    if (!text) return failure(Unreadable, text.refusal());
    auto bench = bench::fromJson(text.value());
    if (!bench) return failure(Unreadable, inFile(trial.benchFile, bench.refusal()));
    auto script = readScripts(trial.scripts);
    if (!script) return failure(Unreadable, script.refusal());
    return TrialRun(trial, std::move(bench.value()), std::move(script.value())).run();
}

} // namespace loom::desk

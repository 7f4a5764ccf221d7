// SPDX-License-Identifier: MIT
// Takes a record up again: resume() by its commands alone, replay() with the circuit running.
#include "attempt/record_file.h"
#include "attempt/wear.h"

#include <utility>

namespace loom::attempt {

namespace {

using bench::numeral;
using bench::phrase;
using bench::Refusal;
using bench::Why;

bool didCircuit(const Command& command) {
    const auto* edit = std::get_if<bench::Edit>(&command);
    return edit && isWear(*edit);
}

Refusal inEntry(std::size_t index, Refusal refusal) {
    refusal.place = phrase(
        "in-entry", {{"entry", "/entries/" + std::to_string(index)}, {"place", refusal.place}});
    return refusal;
}

// Entries come in the order of time, none after the record's end.
std::optional<Refusal> whyNotOrdered(const Record& record) {
    std::int64_t least = 0;
    for (std::size_t i = 0; i < record.entries.size(); ++i) {
        const std::int64_t slice = record.entries[i].slice;
        if (slice < least || slice > record.slices)
            return Refusal{
                Why::OutOfRange,
                "/entries/" + std::to_string(i) + "/t",
                phrase("n-to-most", {{"n", numeral(least)}, {"most", numeral(record.slices)}}),
                numeral(slice)};
        least = slice;
    }
    return std::nullopt;
}

// Nothing was done and no time passed since the circuit last was cold.
bool isCold(const Record& record) {
    if (record.entries.empty()) return record.slices == 0;
    const Entry& last = record.entries.back();
    return std::holds_alternative<Reopened>(last.command) && last.slice == record.slices;
}

} // namespace

bench::Outcome<Attempt> resume(const Record& record) {
    if (auto refused = whyNotOrdered(record)) return *refused;
    Attempt attempt(record.start, record.exercise, record.exerciseHash, record.seed);
    attempt.resuming = true;
    attempt.history.altered = record.altered;
    attempt.history.chained = record.chained;
    for (std::size_t i = 0; i < record.entries.size(); ++i) {
        attempt.history.slices = record.entries[i].slice;
        if (auto refused = attempt.replayCommand(record.entries[i].command))
            return inEntry(i, *refused);
    }
    attempt.resuming = false;
    attempt.history.slices = record.slices;
    attempt.live = LiveCircuit(attempt.current, record.slices);
    if (!isCold(record)) attempt.write(Reopened{});
    return attempt;
}

bench::Outcome<Attempt> replay(const Record& record) {
    if (auto refused = whyNotOrdered(record)) return *refused;
    if (record.slices > kGreatestReplay_slices)
        return Refusal{Why::OutOfRange,
                       "/slices",
                       phrase("at-most-n", {{"n", numeral(kGreatestReplay_slices)}}),
                       numeral(record.slices)};
    Attempt attempt(record.start, record.exercise, record.exerciseHash, record.seed);
    attempt.history.altered = record.altered;
    attempt.history.chained = record.chained;
    for (std::size_t i = 0; i < record.entries.size(); ++i) {
        const Entry& entry = record.entries[i];
        attempt.advance(entry.slice - attempt.now_slices());
        if (didCircuit(entry.command)) continue;
        if (std::holds_alternative<Reopened>(entry.command)) {
            attempt.reopen();
            continue;
        }
        if (auto refused = attempt.ask(entry.command)) return inEntry(i, *refused);
    }
    attempt.advance(record.slices - attempt.now_slices());
    return attempt;
}

} // namespace loom::attempt

// SPDX-License-Identifier: MIT
#include "attempt/attempt.h"

#include "attempt/state_hash.h"
#include "attempt/wear.h"
#include "bench/catalogue.h"
#include "bench/limits.h"

#include <algorithm>
#include <utility>

namespace loom::attempt {

namespace {

using bench::numeral;
using bench::phrase;
using bench::Refusal;
using bench::Why;

// A name and an end (-1: none) that a command speaks of.
std::optional<Refusal> whyNotNamed(const std::string& name, int end) {
    if (auto refused = bench::whyNotName(phrase("name"), name)) return refused;
    if (end >= -1 && end <= 1) return std::nullopt;
    return Refusal{Why::OutOfRange, name, phrase("end-0-1-or-none"), numeral(end)};
}

std::optional<Refusal> whyNotSpokenOf(const Command& command) {
    if (const auto* mark = std::get_if<MarkOff>(&command)) return whyNotNamed(mark->label, -1);
    if (const auto* look = std::get_if<LookAt>(&command)) return whyNotNamed(look->name, look->end);
    if (const auto* fault = std::get_if<NameFault>(&command))
        return whyNotNamed(fault->name, fault->end);
    return std::nullopt;
}

std::optional<Refusal> whyNotAsked(const Command& command, std::size_t entries) {
    if (entries >= kMostEntries)
        return Refusal{Why::TooMany,
                       phrase("record"),
                       phrase("at-most-n-commands", {{"n", numeral(kMostEntries)}}),
                       numeral(entries)};
    const auto* edit = std::get_if<bench::Edit>(&command);
    if (std::holds_alternative<Reopened>(command) || (edit && isWear(*edit)))
        return Refusal{Why::UnknownWord,
                       phrase("command"),
                       phrase("what-a-hand-can-do"),
                       phrase("what-only-the-record-tells")};
    const auto* hint = std::get_if<AskHint>(&command);
    if (hint && hint->check.size() > kLongestCheckId)
        return Refusal{Why::OutOfRange,
                       phrase("hint"),
                       phrase("an-id-of-at-most-n-bytes", {{"n", numeral(kLongestCheckId)}}),
                       numeral(hint->check.size())};
    return whyNotSpokenOf(command);
}

// No finger stays on a button through an undo.
void letGo(bench::Bench& bench) {
    for (bench::Part& part : bench.parts)
        if (bench::spec(part.kind).springsBack) part.position = bench::spec(part.kind).restPosition;
}

bool opensByItself(const bench::Bench& bench, bench::PartId id) {
    const bench::Part* part = bench::findPart(bench, id);
    return part && bench::spec(part->kind).opensTo;
}

bool sameOrder(const std::vector<bench::Part>& left, const std::vector<bench::Part>& right) {
    return std::equal(
        left.begin(), left.end(), right.begin(), right.end(), [](const auto& l, const auto& r) {
            return l.id == r.id;
        });
}

} // namespace

bool isOfMeter(const BenchEvent& event) {
    return !event.part && !event.cable && event.name.empty() &&
           event.kind == circuit::EventKind::FuseMelted;
}

const circuit::EventRow& rowOf(const BenchEvent& event) {
    using circuit::EventKind, circuit::EventRow, circuit::Unit, circuit::Weight;
    static constexpr EventRow kStrand{
        EventKind::CableParted, "strand-burnt", Unit::Ampere, Unit::None, Weight::Fault};
    static constexpr EventRow kMeterFuse{
        EventKind::FuseMelted, "meter-fuse", Unit::Ampere, Unit::None, Weight::Fault};
    if (event.strandEnd >= 0) return kStrand;
    return isOfMeter(event) ? kMeterFuse : circuit::rowOf(event.kind);
}

Attempt::Attempt(bench::Bench start,
                 std::string exercise,
                 std::string exerciseHash,
                 std::uint64_t seed)
    : current(std::move(start)), live(current, 0) {
    history.exercise = std::move(exercise);
    history.exerciseHash = std::move(exerciseHash);
    history.seed = seed;
    history.start = current;
}

std::optional<Refusal> Attempt::ask(const Command& command) {
    if (auto refused = whyNotAsked(command, history.entries.size())) return refused;
    if (const auto* asked = std::get_if<bench::Edit>(&command)) return edit(*asked);
    if (std::holds_alternative<Undo>(command)) return undoOrRedo(true);
    if (std::holds_alternative<Redo>(command)) return undoOrRedo(false);
    write(command);
    return std::nullopt;
}

std::optional<Refusal> Attempt::undoOrRedo(bool undo) {
    if (undo && !canUndo())
        return Refusal{Why::NothingToUndo, phrase("record"), phrase("a-step"), phrase("none")};
    if (!undo && !canRedo())
        return Refusal{
            Why::NothingToRedo, phrase("record"), phrase("an-undone-step"), phrase("none")};
    const bench::Bench before = current;
    if (undo) {
        steps.undo(current);
        write(Undo{});
    } else {
        steps.redo(current);
        write(Redo{});
    }
    letGo(current);
    if (!resuming) live.rewire(before, current, {});
    return std::nullopt;
}

std::optional<Refusal> Attempt::edit(const bench::Edit& edit) {
    auto outcome = bench::apply(current, edit);
    if (!outcome) return outcome.refusal();
    const bool unchanged = sameThings(current, outcome.value());
    // A fuse exchanged for its like changes nothing to see, but the new one is cold.
    if (unchanged && !std::holds_alternative<bench::FitFuse>(edit)) return std::nullopt;
    if (!unchanged && isStep(current, edit)) steps.keep(current);
    const bench::Bench before = std::exchange(current, std::move(outcome.value()));
    write(edit);
    if (!resuming) follow(edit, before);
    return std::nullopt;
}

void Attempt::follow(const bench::Edit& edit, const bench::Bench& before) {
    const bool placing = std::holds_alternative<bench::MovePart>(edit) ||
                         std::holds_alternative<bench::TurnPart>(edit);
    if (placing && sameOrder(before.parts, current.parts)) return;
    if (std::holds_alternative<bench::PlaceMeter>(edit)) return; // it touches nothing by that
    const auto* operated = std::get_if<bench::Operate>(&edit);
    if ((operated && !opensByItself(current, operated->part)) ||
        std::holds_alternative<bench::ObstructAxle>(edit)) {
        live.operate(current);
        return;
    }
    const auto* fitted = std::get_if<bench::FitFuse>(&edit);
    live.rewire(before, current, fitted ? fitted->part : bench::PartId{});
}

void Attempt::advance(std::int64_t slices) {
    std::vector<circuit::Event> events;
    for (; slices > 0; --slices) {
        if (live.quiet()) {
            live.rest(slices);
            history.slices += slices;
            return;
        }
        events.clear();
        live.step(events);
        ++history.slices;
        for (const circuit::Event& event : events)
            logEvent(event);
    }
}

// Of a strand that stands out only its burning off is told: it glows in a blink before.
bool Attempt::isLogged(const circuit::Event& event) const {
    return !bench::strandOf(event.element) || event.kind == circuit::EventKind::CableParted;
}

void Attempt::logEvent(const circuit::Event& event) {
    if (!isLogged(event)) return;
    BenchEvent entry;
    entry.slice = history.slices;
    entry.time_s = event.time_s;
    entry.kind = event.kind;
    entry.part = bench::partOf(event.element);
    entry.cable = bench::cableOf(event.element);
    if (const auto strand = bench::strandOf(event.element)) {
        entry.cable = strand->cable;
        entry.strandEnd = strand->end;
    }
    entry.first = event.first;
    entry.second = event.second;
    if (const bench::Part* part = bench::findPart(current, entry.part)) entry.name = part->ref;
    if (const bench::Cable* cable = bench::findCable(current, entry.cable))
        entry.name = cable->label;
    if (loggedEvents.size() >= 2 * kLeastEvents) {
        loggedEvents.erase(loggedEvents.begin(), loggedEvents.begin() + kLeastEvents);
        droppedEvents += kLeastEvents;
    }
    loggedEvents.push_back(std::move(entry));
    if (const auto lasting = wearFrom(event, current)) wear(*lasting);
}

std::optional<Refusal> Attempt::wear(const bench::Edit& edit) {
    auto outcome = bench::apply(current, edit);
    if (!outcome) return outcome.refusal();
    if (sameThings(current, outcome.value())) return std::nullopt;
    current = std::move(outcome.value());
    write(edit);
    return std::nullopt;
}

// Takes a command of the record up again, as it came out then.
std::optional<Refusal> Attempt::replayCommand(const Command& command) {
    const auto* worn = std::get_if<bench::Edit>(&command);
    if (worn && isWear(*worn)) return wear(*worn);
    if (!std::holds_alternative<Reopened>(command)) return ask(command);
    write(command);
    return std::nullopt;
}

void Attempt::reopen() {
    live = LiveCircuit(current, history.slices);
    write(Reopened{});
}

void Attempt::write(const Command& command) {
    history.entries.push_back({history.slices, command});
    ++changes;
}

circuit::Reading Attempt::reading(bench::PartId part, int element) const {
    circuit::Reading read = live.reading(bench::partKey(part, element));
    const bench::Part* broken = bench::findPart(current, part);
    if (!broken || broken->condition != bench::Condition::Open) return read;
    // Inside it hangs on a node of its own. What a person can measure is between its terminals.
    const auto& elements = bench::spec(broken->kind).elements;
    const auto index = static_cast<std::size_t>(element);
    if (index >= elements.size()) return read;
    read.voltage_V =
        voltage_V({part, elements[index].from}, {part, elements[index].to}).value_or(0.0);
    read.power_W = read.voltage_V * read.current_A;
    return read;
}

circuit::Reading Attempt::reading(bench::MeterElement element) const {
    return live.reading(bench::meterKey(element));
}

circuit::Reading Attempt::reading(bench::CableId cable) const {
    return live.reading(bench::cableKey(cable));
}

std::optional<double> Attempt::voltage_V(bench::TerminalRef a, bench::TerminalRef b) const {
    const auto nodeA = bench::nodeOf(current, live.wires(), a);
    const auto nodeB = bench::nodeOf(current, live.wires(), b);
    if (!nodeA || !nodeB) return std::nullopt;
    return live.network().voltage_V(*nodeA, *nodeB);
}

std::uint64_t Attempt::stateHash() const {
    StateHash hash;
    hash.add(static_cast<std::uint64_t>(history.slices));
    hash.add(current);
    hash.add(live.network().stateHash());
    return hash.value();
}

} // namespace loom::attempt

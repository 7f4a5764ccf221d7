// SPDX-License-Identifier: MIT
// One attempt under way: takes commands in order, applies them to the bench, steps the circuit in
// fixed slices, keeps the record. The screen and the lesson read it; only ask() and advance()
// change it. No clock inside: the caller says how many slices have passed.
#pragma once

#include "attempt/command.h"
#include "attempt/live_circuit.h"
#include "attempt/supply.h"
#include "attempt/undo_stack.h"

#include <optional>
#include <string>
#include <vector>

namespace loom::attempt {

// A circuit event told of a part or a cable. The one not concerned is none.
struct BenchEvent {
    std::int64_t slice = 0; // at whose beginning it had happened: time_s <= slice * kSlice_s
    double time_s = 0.0;
    circuit::EventKind kind = circuit::EventKind::FuseMelted;
    bench::PartId part;
    bench::CableId cable;
    int strandEnd = -1; // 0 or 1: of a strand that stands out at this end, not of the cable itself
    std::string name;   // the part's ref or the cable's label then; empty: the meter's
    double first = 0.0, second = 0.0; // what they are: rowOf()
};

// Its fuse has melted.
bool isOfMeter(const BenchEvent& event);

// What it is: the row of its kind, but rows of their own for a strand that stood out ("strand-burnt")
// and for the meter's fuse ("meter-fuse"), which are neither a part nor a cable.
const circuit::EventRow& rowOf(const BenchEvent& event);

inline bool isOrdinary(const BenchEvent& event) {
    return rowOf(event).weight == circuit::Weight::Ordinary;
}

// The log keeps at least this many of the latest events.
inline constexpr std::size_t kLeastEvents = 10000;

class Attempt {
public:
    // The free bench or an exercise from its beginning.
    // The seed says which of an exercise's variants it is; nothing here looks at it.
    explicit Attempt(bench::Bench start,
                     std::string exercise = {},
                     std::string exerciseHash = {},
                     std::uint64_t seed = 0);

    // Does what is asked, now. A refusal leaves everything as it was, the record too. What changes
    // nothing (a part moved to where it is) is done and not recorded. What is a step for undo is
    // said by isStep() in undo_stack.h.
    std::optional<bench::Refusal> ask(const Command& command);

    // Lets time run. Stops nothing: what the circuit does lasting is taken into the bench.
    // However the slices are portioned, the state after them is the same.
    void advance(std::int64_t slices);

    const bench::Bench& bench() const { return current; }

    const Record& record() const { return history; }

    std::int64_t now_slices() const { return history.slices; }

    // The latest events, oldest first, and how many older ones the log has let go.
    const std::vector<BenchEvent>& events() const { return loggedEvents; }

    std::size_t eventsBefore() const { return droppedEvents; }

    bool canUndo() const { return steps.canUndo(); }

    bool canRedo() const { return steps.canRedo(); }

    std::uint64_t revision() const { return changes; } // counts every entry of the record

    circuit::Reading reading(bench::PartId part, int element = 0) const;
    circuit::Reading reading(bench::CableId cable) const;
    circuit::Reading reading(bench::MeterElement element) const;
    // Of a against b; nothing when no metal path joins them.
    std::optional<double> voltage_V(bench::TerminalRef a, bench::TerminalRef b) const;

    Supply supply() const { return supplyOf(current, live); }

    const std::vector<circuit::Diagnosis>& diagnoses() const { return live.network().diagnoses(); }

    bool quiet() const { return live.quiet(); } // time could pass without anything to see

    std::uint64_t stateHash() const; // bench, time and circuit, equal natively and in the browser

private:
    friend bench::Outcome<Attempt> resume(const Record& record);
    friend bench::Outcome<Attempt> replay(const Record& record);

    std::optional<bench::Refusal> replayCommand(const Command& command);
    std::optional<bench::Refusal> undoOrRedo(bool undo);
    std::optional<bench::Refusal> edit(const bench::Edit& edit);
    void follow(const bench::Edit& edit, const bench::Bench& before);
    bool isLogged(const circuit::Event& event) const;
    void logEvent(const circuit::Event& event);
    std::optional<bench::Refusal> wear(const bench::Edit& edit);
    void reopen();
    void write(const Command& command);

    bench::Bench current;
    Record history;
    std::vector<BenchEvent> loggedEvents;
    std::size_t droppedEvents = 0;
    UndoStack steps;
    LiveCircuit live;
    bool resuming = false; // the record is being taken up: the circuit waits until it is done
    std::uint64_t changes = 0;
};

} // namespace loom::attempt

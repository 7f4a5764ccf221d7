// SPDX-License-Identifier: MIT
// One attempt under way: takes commands in order, applies them to the bench, steps the circuit in
// fixed slices, keeps the record. The screen and the lesson read it; only ask() and advance()
// change it. No clock inside: the caller says how many slices have passed.
#pragma once

#include "attempt/command.h"
#include "bench/wiring.h"
#include "circuit/circuit.h"

#include <optional>
#include <string>
#include <vector>

namespace loom::attempt {

// A circuit event told of a part or a cable. The one not concerned is none.
struct Happening {
    std::int64_t slice = 0;
    double time_s = 0.0;
    circuit::EventKind kind = circuit::EventKind::FuseMelted;
    bench::PartId part;
    bench::CableId cable;
    std::string name;  // the part's ref or the cable's label then
    double value = 0.0, second = 0.0;
};

// What the batteries are doing, for the status line.
struct Supply {
    bool live = false;        // some terminal other than a battery's is over 1 V from another
    double voltage_V = 0.0;   // the greatest such voltage
    double current_A = 0.0;   // delivered by the batteries together (a series pair counts once)
    bool batteryOut = false;  // a battery lies on the bench
};

class Attempt {
public:
    // The free bench or an exercise from its beginning.
    explicit Attempt(bench::Bench start, std::string exercise = {}, std::string exerciseHash = {});

    // Does what is asked, now. A refusal leaves everything as it was.
    std::optional<bench::Refusal> ask(const Command& command);

    // Lets time run. Stops nothing: what the circuit does lasting is taken into the bench.
    void advance(std::int64_t slices);

    const bench::Bench& bench() const { return current; }
    const Record& record() const { return history; }
    std::int64_t now_slices() const { return history.slices; }
    const std::vector<Happening>& happenings() const { return happened; }
    bool canUndo() const;
    bool canRedo() const;
    std::uint64_t revision() const;  // counts every change of the bench: save when it moved

    circuit::Reading reading(bench::PartId part, int element = 0) const;
    circuit::Reading reading(bench::CableId cable) const;
    // Of a against b; nothing when no metal path joins them.
    std::optional<double> voltage_V(bench::TerminalRef a, bench::TerminalRef b) const;
    Supply supply() const;
    const std::vector<circuit::Finding>& findings() const;
    bool quiet() const;  // time could pass without anything to see
    std::uint64_t stateHash() const;  // bench and circuit, equal natively and in the browser

private:
    bench::Bench current;
    Record history;
    std::vector<Happening> happened;
    // … the attempt room completes this
};

}  // namespace loom::attempt

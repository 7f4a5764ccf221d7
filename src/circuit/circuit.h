// SPDX-License-Identifier: MIT
// The live network: give it a Netlist, advance it in time, read it. Start with Circuit(netlist),
// then advance(). It knows nothing of benches, screens or files; time comes in as an argument.
// The same calls give bit-identical results natively and in WebAssembly.
#pragma once

#include "circuit/event.h"
#include "circuit/netlist.h"
#include "circuit/reading.h"

#include <memory>
#include <optional>
#include <vector>

namespace loom::circuit {

// Why an answer may not mean what it seems. Outcomes, not failures: numbers stay usable unless said.
enum class DiagnosisKind {
    Floating,      // these elements have no path to any source: no potential of their own
    Contradictory, // ideal sources in conflict or shorted: bounded by kConflict_ohm (joins.h); or a
                   // current source whose current has no way back (current_source.h)
    BadValue,      // NaN or out of range: treated as an open circuit
    DidNotSettle   // the step was accepted at the smallest size; numbers are approximate
};

struct Diagnosis {
    DiagnosisKind kind;
    std::vector<Key> elements;
};

// What the computation has cost since the circuit was made; for benchmarks.
struct Effort {
    std::uint64_t steps = 0;      // accepted
    std::uint64_t rejected = 0;   // tried and found too long, or cut at an event
    std::uint64_t restarts = 0;   // after a jump
    std::uint64_t iterations = 0; // solutions of the node equations
    std::uint64_t factorings = 0; // of them with new conductances
};

class Circuit {
public:
    // tolerance: the error allowed in one step over the usual one (stage.h); for studies of accuracy.
    explicit Circuit(const Netlist& netlist, double tolerance = 1.0);
    ~Circuit();
    Circuit(Circuit&&) noexcept;
    Circuit& operator=(Circuit&&) noexcept;

    // Takes the changed network. Elements with the same key and kind keep what they carry (heat,
    // charge, current, speed, armature); new ones start cold and still.
    void rewire(const Netlist& netlist);

    // Opens or closes a Contact, or jams a Motor, without re-analysing. Unknown keys are ignored.
    void setContact(Key key, bool closed);
    void setJammed(Key key, bool jammed);

    // Moves time on by exactly seconds >= 0 and appends what happened, in time order.
    void advance(double seconds, std::vector<Event>& events);

    double time_s() const;
    Reading reading(Key key) const; // all zero for an unknown key
    // Voltage of a against b, or nothing when no path joins them (a meter would show 0 or drift).
    std::optional<double> voltage_V(Node a, Node b) const;
    const std::vector<Diagnosis>& diagnoses() const;
    // Nothing flows, turns or cools noticeably: advancing changes nothing to see.
    bool quiet() const;
    std::uint64_t stateHash() const; // every state value, field by field
    Effort effort() const;

private:
    struct Impl;
    std::unique_ptr<Impl> impl;
};

} // namespace loom::circuit

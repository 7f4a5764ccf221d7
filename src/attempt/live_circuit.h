// SPDX-License-Identifier: MIT
// The circuit that follows a bench as it is edited under power. Construct it from the bench, call
// operate() or rewire() after each change, step() for each slice of time. It never changes the
// bench: what the circuit did comes out as events.
#pragma once

#include "bench/wiring.h"
#include "circuit/circuit.h"

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

namespace loom::attempt {

class LiveCircuit {
public:
    // Cold and still, with every battery charged as it was laid. `slice`: what time it is.
    LiveCircuit(const bench::Bench& bench, std::int64_t slice);

    // Controls were set or axles obstructed, nothing else: contacts open or close.
    void operate(const bench::Bench& after);

    // The network changed. What is still there keeps heat, charge, current and speed; what was
    // mended or exchanged, and the part `fresh` (may be none), starts cold. A battery that comes
    // back by undo has the charge it left with.
    void rewire(const bench::Bench& before, const bench::Bench& after, bench::PartId fresh);

    // Lets one slice pass. The times of the events count from the attempt's beginning.
    void step(std::vector<circuit::Event>& events);

    // Time passes while quiet() without the circuit being computed: it stays as it is.
    void rest(std::int64_t slices) { unlived_slices += slices; }

    bool quiet() const { return circuit.quiet(); }

    circuit::Reading reading(circuit::Key key) const { return circuit.reading(key); }

    const circuit::Circuit& network() const { return circuit; }

    const bench::Wiring& wires() const { return wiring; }

private:
    void keepCharges();
    bench::Wiring wired(const bench::Bench& bench) const;

    bench::Wiring wiring;
    circuit::Circuit circuit;
    std::map<circuit::Key, double> charges; // of batteries when the network last changed
    std::int64_t unlived_slices = 0;        // of the attempt's time, before its start or at rest
};

} // namespace loom::attempt

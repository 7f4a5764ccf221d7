// SPDX-License-Identifier: MIT
// The live network: give it a Netlist, advance it in time, read it. Start with Circuit(netlist),
// then advance(). It knows nothing of benches, screens or files; time comes in as an argument.
// The same calls give bit-identical results natively and in WebAssembly.
#pragma once

#include "circuit/event.h"
#include "circuit/netlist.h"

#include <memory>
#include <optional>
#include <vector>

namespace loom::circuit {

// What can be said of one element now. Signs: voltage is a minus b (plus minus minus, anode minus
// cathode, coilA minus coilB), current enters at a and leaves at b; a battery's current is positive
// when it delivers.
struct Reading {
    double voltage_V = 0.0;
    double current_A = 0.0;
    double power_W = 0.0; // taken up; a battery's is what it delivers
    double temp_K = 293.15;
    // Relay: the coil is in voltage/current; the two contacts here. Others: zero.
    double contactNO_A = 0.0, contactNC_A = 0.0;
    bool pulledIn = false;    // relay armature, or a contact closed
    bool open = false;        // fuse melted, filament gone, cable parted
    double speed_rad_s = 0.0; // motor
    double angle_rad = 0.0;   // motor, within [0, 2 pi)
    double charge = 0.0;      // battery, 0..1
    double melting = 0.0;     // fuse: 0 cold .. 1 opens
    double brightness = 0.0;  // lamp: light output over rated
    bool gassing = false;     // battery: driven so far that it gives off gas; keep sparks away
};

// Why an answer may not mean what it seems. Outcomes, not failures: numbers stay usable unless said.
enum class FindingKind {
    Floating,      // these elements have no path to any source: no potential of their own
    Contradictory, // ideal sources in conflict, or a short of an ideal source: limited, see circuit.cpp
    BadValue,      // NaN or out of range: treated as an open circuit
    DidNotSettle // the step was accepted at the smallest size; numbers are approximate
};

struct Finding {
    FindingKind kind;
    std::vector<Key> elements;
};

// What the computation has cost since the circuit was made; for benchmarks.
struct Effort {
    std::uint64_t steps = 0;      // accepted
    std::uint64_t rejected = 0;   // tried and found too long, or cut at an event
    std::uint64_t restarts = 0;   // after a jump
    std::uint64_t rounds = 0;     // solutions of the node equations
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
    const std::vector<Finding>& findings() const;
    // Nothing flows, turns or cools noticeably: advancing changes nothing to see.
    bool quiet() const;
    std::uint64_t stateHash() const; // every state value, field by field
    Effort effort() const;

private:
    struct Impl;
    std::unique_ptr<Impl> impl;
};

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
// A bench tried out apart from the learner's: a copy with sound parts and charged batteries, its
// controls set as asked, run for a while. Start with Trial(bench, exercise start, positions), then
// run(). The learner's own bench and its heat, charge and blown fuses play no part in it.
#pragma once

#include "bench/phrase.h"
#include "bench/wiring.h"
#include "circuit/circuit.h"
#include "lesson/exercise.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace loom::lesson {

// The parts as they are, the meter away, controls at rest but for `set`.
bench::Bench copyAsItIs(const bench::Bench& bench, const Positions& set);

// Everything sound, the axle clear, batteries charged as in `start` and its kit, controls at rest but
// for `set`.
// Names in `set` that are not on the bench are passed over.
bench::Bench freshCopy(const bench::Bench& bench, const bench::Bench& start, const Positions& set);

// By name; nothing while its part is not on the bench.
std::optional<bench::TerminalRef> find(const bench::Bench& bench, const plan::Spot& spot);

struct Fault {
    enum class Kind { Short, Open, Weld } kind = Kind::Short;
    bench::ProbeTip a{}, b{}; // short
    double resistance_ohm = 1e-3;
    bench::PartId part{};   // open or weld
    bench::CableId cable{}; // open
};

// What gave way, first things first.
struct Harm {
    std::string name;             // the part's ref or the cable's label
    bench::Phrase::Amount amount; // of a cable its temperature, of a lamp its voltage, else A
    double after_s = 0.0;
    bench::CableId id{};                   // of a cable, with:
    double current_A = 0.0, temp_K = 0.0; // when it passed its limit
    bool cable = false;
    bool fuse = false;
};

class Trial {
public:
    // A short between places of which one is missing is left out.
    Trial(const bench::Bench& bench,
          const bench::Bench& start,
          const Positions& set,
          const std::optional<Fault>& fault = std::nullopt);

    // With the parts as they are, nothing mended: copyAsItIs().
    Trial(const bench::Bench& bench, const Positions& set);

    void run(double seconds);
    // Runs until a cable has suffered, or a fuse has opened and nothing warms any more.
    // These cables may suffer.
    void runFault(double seconds, const std::set<bench::CableId>& excused = {});
    // Moves controls on the way, everything else keeping its heat, speed and charge.
    void move(const Positions& set);

    const std::vector<Harm>& harms() const { return gaveWay; }

    // Of a part on the bench; nothing for one that is not.
    std::optional<double> value(const std::string& ref, Quantity quantity) const;
    // Of a against b; 0 where no path leads, nothing for a spot that is not there.
    std::optional<double> voltage_V(const plan::Spot& a, const plan::Spot& b) const;
    double hottestCable_K() const;

private:
    Trial(bench::Bench ready, const std::optional<Fault>& fault);

    void step(double seconds);
    void note(const circuit::Event& event);
    bool anyCableWarms();
    circuit::Netlist withFault(circuit::Netlist netlist) const;

    bench::Bench tried;
    std::optional<Fault> between;
    bench::Wiring wiring;
    circuit::Circuit live;
    std::vector<circuit::Event> events;
    std::vector<Harm> gaveWay;
    std::vector<double> lastTemps_K;
};

} // namespace loom::lesson

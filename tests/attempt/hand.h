// SPDX-License-Identifier: MIT
// Hands for tests: the benches that come with the program, and commands by name. A command that
// is refused fails the test.
#pragma once

#include "assets/embedded.h"
#include "attempt/attempt.h"
#include "bench/catalogue.h"
#include "bench/file.h"

#include <doctest/doctest.h>
#include <string>

namespace loom::attempt::test {

inline bench::Bench builtInBench(const char* name) {
    const std::string path = std::string("assets/benches/") + name + ".loom.json";
    const Embedded* file = findEmbedded(path.c_str());
    REQUIRE(file);
    const auto outcome = bench::fromJson({reinterpret_cast<const char*>(file->bytes), file->size});
    REQUIRE(outcome);
    return outcome.value();
}

class Hand {
public:
    explicit Hand(Attempt& held) : attempt(held) {}

    void does(const Command& command) {
        const auto refused = attempt.ask(command);
        if (refused)
            FAIL(refused->place, ": expected ", refused->expected, ", found ", refused->found);
    }

    const bench::Bench& bench() const { return attempt.bench(); }

    bench::PartId part(const char* ref) const {
        const bench::Part* found = bench::findPart(attempt.bench(), ref);
        REQUIRE(found);
        return found->id;
    }

    bench::TerminalRef terminal(const char* ref, const char* word) const {
        const auto found = bench::findTerminal(attempt.bench(), ref, word);
        REQUIRE(found);
        return *found;
    }

    const bench::Cable& cable(const char* label) const {
        for (const bench::Cable& cable : attempt.bench().cables)
            if (cable.label == label) return cable;
        FAIL("no cable ", label);
        return attempt.bench().cables.front();
    }

    void lay(const char* ref, double x_m, double y_m) { does(bench::LayPart{ref, {x_m, y_m}, 0}); }

    void cut(const char* label, bench::TerminalRef from, bench::TerminalRef to, double mm2 = 1.0) {
        bench::MakeCable make;
        make.from = from;
        make.to = to;
        make.area_m2 = mm2 * 1e-6;
        make.length_m = 0.3;
        make.label = label;
        does(make);
    }

    void set(const char* ref, int position) { does(bench::Operate{part(ref), position}); }

    void fit(const char* ref, double rating_A) { does(bench::FitFuse{part(ref), rating_A}); }

    void wait(double time_s) {
        attempt.advance(static_cast<std::int64_t>(time_s / kSlice_s + 0.5));
    }

    bool happened(circuit::EventKind kind, const char* name) const {
        for (const BenchEvent& event : attempt.events())
            if (event.kind == kind && event.name == name) return true;
        return false;
    }

private:
    Attempt& attempt;
};

// B1 through F2 (7.5 A) and the switch S4 to the lamp E1 and back.
inline void wireLamp(Hand& hand) {
    hand.lay("B1", 0.3, 0.8);
    hand.lay("F2", 0.3, 0.5);
    hand.lay("S4", 0.6, 0.5);
    hand.lay("E1", 0.9, 0.5);
    hand.cut("W-1", hand.terminal("B1", "plus"), hand.terminal("F2", "in"));
    hand.cut("W-2", hand.terminal("F2", "out"), hand.terminal("S4", "in"));
    hand.cut("W-3", hand.terminal("S4", "out"), hand.terminal("E1", "in"));
    hand.cut("W-4", hand.terminal("E1", "out"), hand.terminal("B1", "minus"));
}

// The lamp bench with the lamp bridged: closing S4 melts the 7.5 A blade.
inline void wireShort(Hand& hand) {
    wireLamp(hand);
    hand.cut("W-5", hand.terminal("E1", "in"), hand.terminal("E1", "out"));
}

} // namespace loom::attempt::test

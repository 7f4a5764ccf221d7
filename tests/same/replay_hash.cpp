// SPDX-License-Identifier: MIT
// Makes a few attempts on the benches that come with the program, prints "name hash" for each at
// several moments, for its record as text, and for its replay from that text; then for 200 thrown
// networks. Built natively and for WebAssembly; compare.mjs holds the two against each other. Fails by
// itself when a replay does not come to the state of the attempt.
#include "assets/embedded.h"
#include "attempt/record_file.h"
#include "attempt/state_hash.h"
#include "bench/catalogue.h"
#include "bench/file.h"
#include "random_networks.h"
#include "words/sentences.h"

#include <cstdio>
#include <cstdlib>
#include <string>

namespace {

using namespace loom;
using attempt::Attempt;

[[noreturn]] void stop(const char* what, const std::string& where) {
    std::fprintf(stderr, "replay_hash: %s: %s\n", where.c_str(), what);
    std::exit(1);
}

bench::Bench builtInBench(const std::string& name) {
    const Embedded* file = findEmbedded(("assets/benches/" + name + ".loom.json").c_str());
    if (!file) stop("not in the program", name);
    const auto outcome = bench::fromJson({reinterpret_cast<const char*>(file->bytes), file->size});
    if (!outcome) stop("not readable", name);
    return outcome.value();
}

void print(const std::string& name, std::uint64_t hash) {
    std::printf("%s %016llx\n", name.c_str(), static_cast<unsigned long long>(hash));
}

// One attempt under a name, its hash printed at each pause.
class Run {
public:
    Run(std::string title, const std::string& bench)
        : name(std::move(title)), attempt(builtInBench(bench)) {}

    void does(const attempt::Command& command) {
        const auto refused = attempt.ask(command);
        if (refused) stop(words::inShort(*refused).c_str(), name);
    }

    bench::PartId part(const char* ref) const {
        const bench::Part* found = bench::findPart(attempt.bench(), std::string(ref));
        if (!found) stop("no such part", ref);
        return found->id;
    }

    void lay(const char* ref, double x_m, double y_m) { does(bench::LayPart{ref, {x_m, y_m}, 0}); }

    void set(const char* ref, int position) { does(bench::Operate{part(ref), position}); }

    bench::TerminalRef terminal(const char* ref, const char* word) const {
        const auto found = bench::findTerminal(attempt.bench(), ref, word);
        if (!found) stop("no such terminal", ref);
        return *found;
    }

    void cut(bench::TerminalRef from, bench::TerminalRef to, double area_m2) {
        does(bench::MakeCable{from, to, area_m2, bench::Sleeve::Red, 0.3, ""});
    }

    bench::CableId cable(const char* label) const {
        for (const bench::Cable& cable : attempt.bench().cables)
            if (cable.label == label) return cable.id;
        stop("no such cable", label);
    }

    void joinLink(bench::TerminalRef to) { does(bench::JoinEnd{cable("P-01"), 1, to}); }

    void pause(std::int64_t slices) {
        attempt.advance(slices);
        print(name + " at " + std::to_string(attempt.now_slices()), attempt.stateHash());
    }

    // Puts the attempt away and takes it up again.
    void reopen() {
        auto outcome = attempt::resume(attempt.record());
        if (!outcome) stop("does not resume", name);
        attempt = std::move(outcome.value());
    }

    void replay() const {
        const std::string text = attempt::toJson(attempt.record());
        attempt::StateHash written;
        written.add(text);
        print(name + " written", written.value());
        const auto record = attempt::recordFromJson(text);
        if (!record) stop("its record is not readable", name);
        const auto again = attempt::replay(record.value());
        if (!again) stop("does not replay", name);
        print(name + " replayed", again.value().stateHash());
        if (again.value().stateHash() != attempt.stateHash())
            stop("the replay came to another state", name);
    }

private:
    std::string name;
    Attempt attempt;
};

void powerUp(Run& run) {
    run.set("Q1", 1);
    run.set("Q1", 2);
    run.set("S1", 1);
    run.pause(20);
}

void driveBothWays() {
    Run run("pippin forward, braked, reverse, headlamp", "pippin");
    powerUp(run);
    run.set("S4", 1);
    run.set("S2", 2);
    run.set("S3", 1);
    run.pause(5);
    run.pause(95);
    run.set("S3", 0);
    run.pause(50);
    run.set("S2", 0);
    run.set("S3", 1);
    run.pause(100);
    run.does(attempt::Undo{});
    run.set("S5", 1);
    run.pause(50);
    run.replay();
}

void reverseLink() {
    Run run("pippin with its link the wrong way round", "pippin");
    run.joinLink(run.terminal("B2", "plus"));
    powerUp(run);
    run.does(attempt::Undo{});
    run.pause(30);
    run.replay();
}

void bridgeBattery() {
    Run run("a battery bridged by 10 mm2", "free");
    run.lay("B1", 0.3, 0.5);
    run.cut(run.terminal("B1", "plus"), run.terminal("B1", "minus"), 10e-6);
    run.pause(10);
    run.pause(190);
    run.pause(1000);
    run.replay();
}

void meltFuse() {
    Run run("a blown fuse, exchanged and blown again", "free");
    run.lay("B1", 0.3, 0.8);
    run.lay("F2", 0.3, 0.5);
    run.lay("S4", 0.6, 0.5);
    run.lay("R1", 0.9, 0.5);
    run.cut(run.terminal("B1", "plus"), run.terminal("F2", "in"), 1e-6);
    run.cut(run.terminal("F2", "out"), run.terminal("S4", "in"), 1e-6);
    run.cut(run.terminal("S4", "out"), run.terminal("R1", "in"), 1e-6);
    run.cut(run.terminal("R1", "out"), run.terminal("B1", "minus"), 1e-6);
    run.set("S4", 1);
    run.pause(100);
    run.cut(run.terminal("R1", "in"), run.terminal("B1", "minus"), 1e-6);
    run.pause(200);
    run.does(bench::FitFuse{run.part("F2"), 10.0});
    run.pause(200);
    run.does(attempt::Undo{});
    run.does(attempt::Undo{});
    run.pause(100);
    run.replay();
}

void putAway() {
    Run run("pippin put away while it runs", "pippin");
    powerUp(run);
    run.set("S2", 2);
    run.set("S3", 1);
    run.pause(60);
    run.reopen();
    run.pause(60);
    run.set("S3", 0);
    run.pause(60);
    run.replay();
}

// A strand onto the negative way burns off, a nut is loose, the axle blocked, the meter's fuse melts.
void handsOn() {
    Run run("bad ends, measured", "free");
    run.lay("B1", 0.3, 0.8);
    run.lay("X1", 0.8, 0.8);
    run.lay("M1", 0.9, 0.4);
    run.cut(run.terminal("B1", "plus"), run.terminal("X1", "3 upper"), 6e-6);
    run.cut(run.terminal("X1", "3 lower"), run.terminal("X1", "6 lower"), 6e-6);
    run.cut(run.terminal("B1", "minus"), run.terminal("X1", "2 lower"), 6e-6);
    run.cut(run.terminal("X1", "2 upper"), run.terminal("X1", "4 upper"), 6e-6);
    run.cut(run.terminal("B1", "plus"), run.terminal("M1", "lead 1"), 6e-6);
    run.cut(run.terminal("M1", "lead 2"), run.terminal("B1", "minus"), 6e-6);
    run.pause(50);
    const bench::TerminalRef hole = run.terminal("X1", "3 upper");
    run.does(bench::TurnScrew{hole, 0.0});
    run.does(bench::StripEnd{run.cable("W-1"), 1, 0.009});
    run.does(bench::PressEnd{run.cable("W-1"), 1, bench::EndKind::Ferrule});
    run.does(bench::PushEnd{run.cable("W-1"), 1, 1.0 / 110.0});
    run.does(bench::TurnScrew{hole, 0.5});
    run.pause(100);
    run.does(bench::TurnScrew{run.terminal("B1", "plus"), 1.0 / 3.0});
    run.does(bench::TieCable{run.cable("W-1"), 0.3, run.cable("W-2"), 0.3, {0.5, 0.5}});
    run.does(bench::TieCable{run.cable("W-1"), 0.6, run.cable("W-2"), 0.6, {0.6, 0.5}});
    run.does(bench::ObstructAxle{run.part("M1"), true, run.cable("W-1")});
    run.pause(100);
    run.does(bench::PlaceMeter{{0.5, 0.1}});
    run.does(bench::SetMeter{bench::MeterRange::Amperes});
    run.does(bench::Probe{0, {run.terminal("B1", "plus"), {}, 0}});
    run.does(bench::Probe{1, {{}, run.cable("W-3"), 1}});
    run.pause(100);
    run.does(bench::SetMeter{bench::MeterRange::Ohms});
    run.does(bench::ObstructAxle{run.part("M1"), false, {}});
    run.pause(100);
    run.does(attempt::MarkOff{"W-1", attempt::SheetMark::Wrong});
    run.does(bench::TugEnd{run.cable("W-1"), 1});
    run.does(attempt::Undo{});
    run.pause(50);
    run.replay();
}

} // namespace

int main() {
    driveBothWays();
    reverseLink();
    bridgeBattery();
    meltFuse();
    putAway();
    handsOn();
    printRandomNetworks();
    return 0;
}

// SPDX-License-Identifier: MIT
// How much time Pippin's whole loom lives through in a second of one processor, with its worst
// transients on: forward, brake, reverse, horn, brake, off, over and over, in slices of 10 ms as in
// real use. Built natively it prints pippin_native; pippin_wasm.mjs builds it for WebAssembly.
#include "assets/embedded.h"
#include "bench/catalogue.h"
#include "bench/file.h"
#include "bench/wiring.h"
#include "circuit/circuit.h"

#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

#ifdef __EMSCRIPTEN__
#include <emscripten.h>
#endif

namespace {

using namespace loom;

bench::Bench pippin() {
    const Embedded* file = findEmbedded("assets/benches/pippin.loom.json");
    if (file == nullptr) std::exit(1);
    auto outcome = bench::fromJson({reinterpret_cast<const char*>(file->bytes), file->size});
    if (!outcome) std::exit(1);
    return outcome.value();
}

class Drive {
public:
    Drive() : bench(pippin()), circuit(bench::wire(bench).netlist) { events.reserve(100000); }

    void once() {
        for (const char* on : {"Q1", "S1", "S4"})
            set(on, true);
        live(0.1);
        set("S2", true, 0); // forward
        set("S3", true);
        live(1.0);
        set("S3", false); // both relays at rest: it brakes
        live(0.5);
        set("S2", false, 0);
        set("S2", true, 1); // reverse
        set("S3", true);
        live(1.0);
        set("S5", true); // horn
        live(0.3);
        set("S5", false);
        set("S3", false);
        live(0.5);
        set("S2", false, 1);
        for (const char* off : {"Q1", "S1", "S4"})
            set(off, false);
        live(0.5);
        events.clear();
    }

    double lived_s() const { return circuit.time_s(); }

private:
    void set(const char* ref, bool closed, int element = 0) {
        const bench::Part* part = bench::findPart(bench, std::string(ref));
        if (part == nullptr) std::exit(1);
        circuit.setContact(bench::partKey(part->id, element), closed);
    }

    void live(double seconds) {
        for (int slices = static_cast<int>(seconds * 100.0 + 0.5); slices > 0; --slices)
            circuit.advance(0.01, events);
    }

    bench::Bench bench;
    circuit::Circuit circuit;
    std::vector<circuit::Event> events;
};

// Processor time, so that other programs on the machine disturb little. clock() in WebAssembly is the
// time of day.
double spent_s() {
#ifdef __EMSCRIPTEN__
    return EM_ASM_DOUBLE({ return process.cpuUsage().user * 1e-6; });
#else
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
#endif
}

} // namespace

int main() {
    Drive drive;
    drive.once();
    double best = 0.0;
    for (int trial = 0; trial < 5; ++trial) {
        const double lived_s = drive.lived_s(), start_s = spent_s();
        for (int k = 0; k < 20; ++k)
            drive.once();
        const double rate = (drive.lived_s() - lived_s) / (spent_s() - start_s);
        if (rate > best) best = rate;
    }
#ifdef __EMSCRIPTEN__
    std::printf(
        "[{\"name\": \"pippin_wasm\", \"value\": %.4g, \"unit\": \"s/s\", \"against\": 400}]\n",
        best);
#else
    std::printf(
        "[{\"name\": \"pippin_native\", \"value\": %.4g, \"unit\": \"s/s\", \"against\": 1000}]\n",
        best);
#endif
    return 0;
}

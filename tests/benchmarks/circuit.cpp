// SPDX-License-Identifier: MIT
// What one accepted step of the solver costs, against a bare KLU refactor-and-solve of the same
// matrix; how that grows; what a step allocates; what a part weighs. Processor time, so that other
// programs on the machine disturb little. KLU is opened when run: building needs only its header.
#include "circuit/circuit.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <dlfcn.h>
#include <malloc.h>
#include <map>
#include <new>
#include <suitesparse/klu.h>
#include <vector>

namespace {

std::size_t allocations = 0, live_bytes = 0;

} // namespace

void* operator new(std::size_t size) {
    ++allocations;
    void* p = std::malloc(size == 0 ? 1 : size);
    if (p == nullptr) std::abort();
    live_bytes += malloc_usable_size(p);
    return p;
}

void operator delete(void* p) noexcept {
    if (p != nullptr) live_bytes -= malloc_usable_size(p);
    std::free(p);
}

void operator delete(void* p, std::size_t) noexcept {
    operator delete(p);
}

namespace {

using namespace loom::circuit;

constexpr int kTrials = 12; // of 0.1 s; the best counts

double cpu_s() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

// A loom of the given number of nodes: two batteries and a main switch feed a pair of trunks; between
// the trunks hang circuits of cable, switch, cable, load, cable. The loads are coils, lamps, motors
// and resistors in turn. The main switch is worked, so that everything is in motion.
struct Loom {
    Netlist netlist;
    Key worked = 0;

    explicit Loom(Node nodes) {
        netlist.nodeCount = 5;
        add(Battery{1, 0});
        add(Battery{2, 1});
        worked = add(Contact{2, 3});
        add(cable(3, 4, 10e-6, 0.4));
        Node plus = 4, minus = 0;
        for (int k = 0; netlist.nodeCount + 6 <= nodes; ++k) {
            const Node nextPlus = fresh(), nextMinus = fresh();
            add(cable(plus, nextPlus, 6e-6, 0.3));
            add(cable(minus, nextMinus, 6e-6, 0.3));
            plus = nextPlus;
            minus = nextMinus;
            hang(plus, minus, k);
        }
        while (netlist.nodeCount < nodes) { // what is left: taps
            const Node tap = fresh();
            add(cable(plus, tap, 1e-6, 0.5));
            add(Resistor{tap, minus, 240.0});
        }
    }

private:
    Node fresh() { return netlist.nodeCount++; }

    Key add(Part part) {
        netlist.elements.push_back({netlist.elements.size() + 1, std::move(part)});
        return netlist.elements.back().key;
    }

    static Cable cable(Node a, Node b, double area_m2, double length_m) {
        Cable c;
        c.a = a;
        c.b = b;
        c.area_m2 = area_m2;
        c.length_m = length_m;
        return c;
    }

    void hang(Node plus, Node minus, int k) {
        const Node a = fresh(), b = fresh(), c = fresh(), d = fresh();
        add(cable(plus, a, 1e-6, 0.5));
        add(Contact{a, b, true});
        add(cable(b, c, 1e-6, 0.5));
        if (k % 4 == 0) add(Inductor{c, d, 0.6, 320.0});
        if (k % 4 == 1) add(Resistor{c, d, 120.0});
        if (k % 4 == 2) {
            Lamp lamp{c, d};
            lamp.rated_W = 5.0;
            add(lamp);
        }
        if (k % 4 == 3) {
            Motor motor{c, d};
            motor.resistance_ohm = 12.0;
            motor.inductance_H = 5e-3;
            motor.inertia_kg_m2 = 1e-4;
            motor.friction_Nm = 5e-3;
            add(motor);
        }
        add(cable(d, minus, 1e-6, 0.5));
    }
};

// Time of one accepted step, all included, while the switch is worked four times a second.
struct StepCost {
    double step_s = 0.0, allocationsPerStep = 0.0;
};

StepCost stepCost(Node nodes) {
    const Loom loom(nodes);
    Circuit circuit(loom.netlist);
    std::vector<Event> events;
    events.reserve(100000);
    StepCost best{1e9, 0.0};
    for (int trial = 0; trial < kTrials; ++trial) {
        const std::uint64_t steps = circuit.effort().steps;
        const std::size_t before = allocations;
        const double start_s = cpu_s();
        for (int k = 0; cpu_s() - start_s < 0.1; ++k) {
            circuit.setContact(loom.worked, k % 2 == 0);
            for (int slice = 0; slice < 25; ++slice)
                circuit.advance(0.01, events);
        }
        const double spent_s = cpu_s() - start_s;
        const double taken = static_cast<double>(circuit.effort().steps - steps);
        best.step_s = std::min(best.step_s, spent_s / taken);
        best.allocationsPerStep = static_cast<double>(allocations - before) / taken;
    }
    return best;
}

// The conductances between the nodes of the loom in a step of 1 ms, node 0 left out.
std::map<std::pair<int, int>, double> matrix(const Netlist& netlist) {
    std::map<std::pair<int, int>, double> m;
    const auto join = [&](Node a, Node b, double siemens) {
        const int i = int(a) - 1, j = int(b) - 1;
        if (i >= 0) m[{i, i}] += siemens;
        if (j >= 0) m[{j, j}] += siemens;
        if (i >= 0 && j >= 0) {
            m[{i, j}] -= siemens;
            m[{j, i}] -= siemens;
        }
    };
    for (const Element& e : netlist.elements) {
        if (const auto* p = std::get_if<Battery>(&e.part)) join(p->plus, p->minus, 80.0);
        if (const auto* p = std::get_if<Cable>(&e.part)) join(p->a, p->b, 50.0);
        if (const auto* p = std::get_if<Contact>(&e.part)) join(p->a, p->b, 2500.0);
        if (const auto* p = std::get_if<Resistor>(&e.part))
            join(p->a, p->b, 1.0 / p->resistance_ohm);
        if (const auto* p = std::get_if<Inductor>(&e.part)) join(p->a, p->b, 1e-3);
        if (const auto* p = std::get_if<Lamp>(&e.part)) join(p->a, p->b, 0.01);
        if (const auto* p = std::get_if<Motor>(&e.part)) join(p->a, p->b, 0.05);
    }
    return m;
}

// The library's entries, by name.
template <class F> F entry(void* library, const char* name) {
    return reinterpret_cast<F>(dlsym(library, name));
}

// Time of one KLU refactor and solve; negative when there is no KLU.
double kluCost_s(const Netlist& netlist) {
    void* const library = dlopen("libklu.so.1", RTLD_NOW);
    if (library == nullptr) return -1.0;
    const auto defaults = entry<decltype(&klu_defaults)>(library, "klu_defaults");
    const auto analyze = entry<decltype(&klu_analyze)>(library, "klu_analyze");
    const auto factor = entry<decltype(&klu_factor)>(library, "klu_factor");
    const auto refactor = entry<decltype(&klu_refactor)>(library, "klu_refactor");
    const auto solve = entry<decltype(&klu_solve)>(library, "klu_solve");

    const int n = int(netlist.nodeCount) - 1;
    std::vector<int> start(std::size_t(n) + 1, 0), row;
    std::vector<double> value;
    std::map<std::pair<int, int>, double> byColumn;
    for (const auto& [at, siemens] : matrix(netlist))
        byColumn[{at.second, at.first}] = siemens;
    for (const auto& [at, siemens] : byColumn) {
        ++start[std::size_t(at.first) + 1];
        row.push_back(at.second);
        value.push_back(siemens);
    }
    for (std::size_t k = 0; k < std::size_t(n); ++k)
        start[k + 1] += start[k];

    klu_common common;
    defaults(&common);
    klu_symbolic* symbolic = analyze(n, start.data(), row.data(), &common);
    klu_numeric* numeric = factor(start.data(), row.data(), value.data(), symbolic, &common);
    std::vector<double> x(std::size_t(n), 0.0);
    double best_s = 1e9;
    for (int trial = 0; trial < kTrials; ++trial) {
        const double start_s = cpu_s();
        long count = 0;
        for (; count % 64 != 0 || cpu_s() - start_s < 0.1; ++count) {
            x.assign(std::size_t(n), 1.0);
            refactor(start.data(), row.data(), value.data(), symbolic, numeric, &common);
            solve(symbolic, numeric, n, 1, x.data(), &common);
        }
        best_s = std::min(best_s, (cpu_s() - start_s) / double(count));
    }
    return best_s;
}

// What a circuit holds for each element of a loom, its copy of the netlist included.
double bytesPerPart() {
    const Loom loom(2000);
    const std::size_t before = live_bytes;
    Circuit circuit(loom.netlist);
    std::vector<Event> events;
    circuit.advance(0.01, events);
    circuit.reading(loom.worked);
    return double(live_bytes - before) / double(loom.netlist.elements.size());
}

void print(bool first, const char* name, double value, const char* unit, double against) {
    std::printf("%s\n {\"name\": \"%s\", \"value\": %.4g, \"unit\": \"%s\", \"against\": %.4g}",
                first ? "[" : ",",
                name,
                value,
                unit,
                against);
}

} // namespace

int main() {
    const Node sizes[] = {20, 60, 200, 600, 2000};
    std::vector<double> logSize, logCost;
    double allocationsPerStep = 0.0;
    bool first = true;
    for (const Node n : sizes) {
        const double klu_s = kluCost_s(Loom(n).netlist);
        const StepCost cost = stepCost(n);
        if (klu_s > 0.0) {
            char name[32];
            std::snprintf(name, sizeof name, "step_over_klu_%u", n);
            print(first, name, 1e6 * cost.step_s, "us", 1e6 * klu_s);
            first = false;
        }
        logSize.push_back(std::log(double(n)));
        logCost.push_back(std::log(cost.step_s));
        allocationsPerStep = std::max(allocationsPerStep, cost.allocationsPerStep);
    }
    print(first,
          "growth_exponent",
          (logCost.back() - logCost.front()) / (logSize.back() - logSize.front()),
          "1",
          1.0);
    print(false, "allocations_per_step", allocationsPerStep, "1", 1.0);
    print(false, "memory_per_part", bytesPerPart(), "byte", 1024.0);
    std::printf("\n]\n");
    return 0;
}

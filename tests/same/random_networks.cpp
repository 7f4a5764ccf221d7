// SPDX-License-Identifier: MIT
#include "random_networks.h"

#include "circuit/hash.h"
#include "problems/random_network.h"

#include <cstdio>

namespace {

using namespace loom::circuit;

std::uint64_t hashOf(const problems::RandomNetwork& net) {
    Circuit circuit(net.netlist);
    std::vector<Event> events;
    Hash hash;
    std::size_t next = 0;
    for (int k = 1; k <= 20; ++k) {
        const double until_s = net.end_s * k / 20;
        for (; next < net.acts.size() && net.acts[next].time_s <= until_s; ++next) {
            circuit.advance(net.acts[next].time_s - circuit.time_s(), events);
            problems::act(circuit, net.acts[next]);
        }
        circuit.advance(until_s - circuit.time_s(), events);
        hash.add(circuit.stateHash());
    }
    for (const Element& e : net.netlist.elements) {
        const Reading r = circuit.reading(e.key);
        for (double x : {r.voltage_V, r.current_A, r.temp_K, r.speed_rad_s})
            hash.add(x);
    }
    for (const Event& e : events) {
        hash.add(std::uint64_t(e.kind));
        hash.add(e.element);
        for (double x : {e.time_s, e.first, e.second})
            hash.add(x);
    }
    return hash.value();
}

} // namespace

void printRandomNetworks() {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const std::uint64_t hash = hashOf(problems::randomNetwork(seed));
        std::printf("random network %u %016llx\n", unsigned(seed), (unsigned long long)(hash));
    }
}

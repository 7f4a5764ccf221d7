// SPDX-License-Identifier: MIT
#include "attempt/supply.h"

#include "bench/catalogue.h"
#include "circuit/node_groups.h"

#include <algorithm>

namespace loom::attempt {

namespace {

// Extra-low voltages below this are not worth a warning; it also hides what a cable loses.
constexpr double kLive_V = 1.0;

// Nodes that share a potential reference, with the extremes met in it.
struct Island {
    circuit::Node reference;
    double lowest_V = 0.0, highest_V = 0.0;
};

void meet(std::vector<Island>& islands, circuit::Node node, const circuit::Circuit& circuit) {
    for (Island& island : islands) {
        const auto above_V = circuit.voltage_V(node, island.reference);
        if (!above_V) continue;
        island.lowest_V = std::min(island.lowest_V, *above_V);
        island.highest_V = std::max(island.highest_V, *above_V);
        return;
    }
    islands.push_back({node});
}

double greatestVoltage_V(const bench::Bench& bench, const LiveCircuit& live) {
    std::vector<Island> islands;
    const bench::Wiring& wires = live.wires();
    for (std::size_t i = 0; i < bench.parts.size(); ++i) {
        if (bench::isA(bench.parts[i], bench::PartClass::Battery)) continue;
        for (const circuit::Node node : wires.nodes[i])
            meet(islands, node, live.network());
    }
    double greatest_V = 0.0;
    for (const Island& island : islands)
        greatest_V = std::max(greatest_V, island.highest_V - island.lowest_V);
    return greatest_V;
}

// Nodes joined by cables, closed contacts and whole fuses: one conductor.
class Conductors {
public:
    explicit Conductors(const LiveCircuit& live) : groups(live.wires().netlist.nodeCount) {
        for (const circuit::Element& element : live.wires().netlist.elements)
            take(element, live);
    }

    circuit::Node root(circuit::Node node) { return groups.top(node); }

private:
    void take(const circuit::Element& element, const LiveCircuit& live) {
        if (const auto* cable = std::get_if<circuit::Cable>(&element.part)) {
            if (!live.reading(element.key).open) join(cable->a, cable->b);
        } else if (const auto* fuse = std::get_if<circuit::Fuse>(&element.part)) {
            if (!live.reading(element.key).open) join(fuse->a, fuse->b);
        } else if (const auto* contact = std::get_if<circuit::Contact>(&element.part)) {
            if (contact->closed) join(contact->a, contact->b);
        }
    }

    void join(circuit::Node a, circuit::Node b) { groups.join(a, b); }

    circuit::NodeGroups groups;
};

// Currents out of the batteries summed over each conductor: what one battery hands to the next
// through a link cancels, what goes out to the loads stays. A battery whose own terminals are one
// conductor (a short) cancels too, so the greatest single current is the least that is shown.
double delivered_A(const LiveCircuit& live) {
    Conductors conductors(live);
    std::vector<double> out_A(live.wires().netlist.nodeCount, 0.0);
    double greatest_A = 0.0;
    for (const circuit::Element& element : live.wires().netlist.elements) {
        const auto* battery = std::get_if<circuit::Battery>(&element.part);
        if (!battery) continue;
        const double current_A = live.reading(element.key).current_A;
        out_A[conductors.root(battery->plus)] += current_A;
        out_A[conductors.root(battery->minus)] -= current_A;
        greatest_A = std::max(greatest_A, current_A);
    }
    double sum_A = 0.0;
    for (const double current_A : out_A)
        sum_A += std::max(0.0, current_A);
    return std::max(sum_A, greatest_A);
}

} // namespace

Supply supplyOf(const bench::Bench& bench, const LiveCircuit& live) {
    Supply supply;
    for (const bench::Part& part : bench.parts)
        supply.batteryOut |= bench::isA(part, bench::PartClass::Battery);
    if (!supply.batteryOut) return supply;
    supply.voltage_V = greatestVoltage_V(bench, live);
    supply.live = supply.voltage_V > kLive_V;
    supply.current_A = delivered_A(live);
    return supply;
}

} // namespace loom::attempt

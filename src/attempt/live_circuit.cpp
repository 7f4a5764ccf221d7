// SPDX-License-Identifier: MIT
#include "attempt/live_circuit.h"

#include "attempt/command.h"

#include <algorithm>
#include <set>

namespace loom::attempt {

namespace {

// Exchanged or mended between the two benches: its heat and its damage are not those of before.
bool renewed(const bench::Part& before, const bench::Part& after) {
    return before.rating != after.rating || before.condition != after.condition;
}

bool renewed(const bench::Cable& before, const bench::Cable& after) {
    return before.condition != after.condition || before.area_m2 != after.area_m2 ||
           before.length_m != after.length_m;
}

struct Renewed {
    std::set<std::uint32_t> parts, cables; // id numbers

    bool empty() const { return parts.empty() && cables.empty(); }

    bool has(circuit::Key key) const {
        return parts.count(bench::partOf(key).number) || cables.count(bench::cableOf(key).number);
    }
};

Renewed renewedBetween(const bench::Bench& before, const bench::Bench& after, bench::PartId fresh) {
    Renewed found;
    if (fresh) found.parts.insert(fresh.number);
    for (const bench::Part& part : after.parts) {
        const bench::Part* old = bench::findPart(before, part.id);
        if (old && renewed(*old, part)) found.parts.insert(part.id.number);
    }
    for (const bench::Cable& cable : after.cables) {
        const bench::Cable* old = bench::findCable(before, cable.id);
        if (old && renewed(*old, cable)) found.cables.insert(cable.id.number);
    }
    return found;
}

circuit::Netlist without(circuit::Netlist netlist, const Renewed& renewed) {
    auto& elements = netlist.elements;
    elements.erase(std::remove_if(elements.begin(),
                                  elements.end(),
                                  [&](const auto& e) { return renewed.has(e.key); }),
                   elements.end());
    return netlist;
}

bool sameElements(const circuit::Netlist& left, const circuit::Netlist& right) {
    return left.nodeCount == right.nodeCount &&
           std::equal(left.elements.begin(),
                      left.elements.end(),
                      right.elements.begin(),
                      right.elements.end(),
                      [](const auto& l, const auto& r) {
                          return l.key == r.key && l.part.index() == r.part.index();
                      });
}

} // namespace

LiveCircuit::LiveCircuit(const bench::Bench& bench, std::int64_t slice)
    : wiring(bench::wire(bench)), circuit(wiring.netlist), unlived_slices(slice) {}

void LiveCircuit::operate(const bench::Bench& after) {
    bench::Wiring next = wired(after);
    if (!sameElements(wiring.netlist, next.netlist)) {
        keepCharges();
        wiring = wired(after);
        circuit.rewire(wiring.netlist);
        return;
    }
    for (std::size_t i = 0; i < next.netlist.elements.size(); ++i) {
        const circuit::Element& element = next.netlist.elements[i];
        if (const auto* motor = std::get_if<circuit::Motor>(&element.part))
            circuit.setJammed(element.key, motor->jammed);
        const auto* contact = std::get_if<circuit::Contact>(&element.part);
        if (!contact) continue;
        const auto& was = std::get<circuit::Contact>(wiring.netlist.elements[i].part);
        if (contact->closed != was.closed) circuit.setContact(element.key, contact->closed);
    }
    wiring = std::move(next);
}

void LiveCircuit::rewire(const bench::Bench& before,
                         const bench::Bench& after,
                         bench::PartId fresh) {
    keepCharges();
    wiring = wired(after);
    // The circuit keeps what it carries by key, so it has to miss an element once to forget it.
    const Renewed gone = renewedBetween(before, after, fresh);
    if (!gone.empty()) circuit.rewire(without(wiring.netlist, gone));
    circuit.rewire(wiring.netlist);
}

void LiveCircuit::step(std::vector<circuit::Event>& events) {
    const std::size_t first = events.size();
    circuit.advance(kSlice_s, events);
    for (std::size_t i = first; i < events.size(); ++i)
        events[i].time_s += static_cast<double>(unlived_slices) * kSlice_s;
}

void LiveCircuit::keepCharges() {
    for (const circuit::Element& element : wiring.netlist.elements)
        if (std::holds_alternative<circuit::Battery>(element.part))
            charges[element.key] = circuit.reading(element.key).charge;
}

bench::Wiring LiveCircuit::wired(const bench::Bench& bench) const {
    bench::Wiring made = bench::wire(bench);
    for (circuit::Element& element : made.netlist.elements) {
        auto* battery = std::get_if<circuit::Battery>(&element.part);
        const auto left = charges.find(element.key);
        if (battery && left != charges.end()) battery->charge = left->second;
    }
    return made;
}

} // namespace loom::attempt

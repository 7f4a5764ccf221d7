// SPDX-License-Identifier: MIT
#include "attempt/supply.h"

#include "attempt/conductors.h"
#include "bench/catalogue.h"

#include <algorithm>

namespace loom::attempt {

namespace {

using bench::PartClass;

// One thing that can be touched.
struct Point {
    circuit::Node node = 0;
    bench::PartId part;     // whose terminal it is; else
    bench::CableId looseOf; // whose loose end
    bool ofBattery = false, ofSource = false; // a battery's; a motor's
    std::size_t island = 0;
    double above_V = 0.0; // the island's reference
};

// Points that share a potential reference, with the extremes met in it. One without a battery or a
// motor has nothing but the meter's own voltage.
struct Island {
    circuit::Node reference = 0;
    double lowest_V = 0.0, highest_V = 0.0;
    std::size_t batteries = 0; // terminals
    bool source = false;
    bench::PartId battery; // the last met
    bool several = false;

    double spread_V() const { return highest_V - lowest_V; }
};

std::vector<Point> pointsOf(const bench::Bench& bench, const bench::Wiring& wires) {
    std::vector<Point> out;
    for (std::size_t i = 0; i < bench.parts.size(); ++i) {
        const bench::Part& part = bench.parts[i];
        const bool battery = bench::isA(part, PartClass::Battery);
        for (const circuit::Node node : wires.nodes[i])
            out.push_back({node, part.id, {}, battery, battery || bench::isA(part, PartClass::Motor)});
    }
    for (std::size_t i = 0; i < bench.cables.size(); ++i)
        for (std::size_t e = 0; e < 2; ++e)
            if (!bench.cables[i].ends[e].at)
                out.push_back({wires.ends[i][e], {}, bench.cables[i].id, false, false});
    return out;
}

// Everything that can be touched, and at what voltage it is.
class Touchable {
public:
    Touchable(const bench::Bench& of, const LiveCircuit& live)
        : bench(of), points(pointsOf(of, live.wires())) {
        for (Point& point : points)
            place(point, live.network());
    }

    // Against anything else that can be touched; 0 for a battery's own terminals.
    double voltage_V(const Point& point) const {
        const Island& in = islands[point.island];
        if (point.ofBattery || !in.source) return 0.0;
        return std::max(in.highest_V - point.above_V, point.above_V - in.lowest_V);
    }

    // Above the batteries' last minus, to which what is switched off is at no voltage.
    double fed_V(const Point& point) const {
        const Island& in = islands[point.island];
        return in.source ? point.above_V - in.lowest_V : 0.0;
    }

    void say(Supply& supply) const {
        const Point* greatest = nullptr;
        for (const Point& point : points)
            if (!greatest || voltage_V(point) > voltage_V(*greatest)) greatest = &point;
        if (!greatest || voltage_V(*greatest) <= kLive_V) return;
        supply.live = true;
        supply.voltage_V = voltage_V(*greatest);
        const Point* fed = mostFed(supply.dead);
        if (fed && fed_V(*fed) > supply.voltage_V - kLive_V) {
            supply.at = fed->part;
        } else if (const Point* loose = looseEnd(); loose) {
            supply.looseAt = loose->looseOf;
        } else if (const Island& in = islands[greatest->island]; in.batteries == 0) {
            supply.at = greatest->part;
        } else if (!in.several) {
            supply.battery = in.battery;
        }
    }

private:
    const bench::Bench& bench;
    std::vector<Point> points;
    std::vector<Island> islands;

    void place(Point& point, const circuit::Circuit& circuit) {
        for (point.island = 0; point.island < islands.size(); ++point.island) {
            const auto above_V = circuit.voltage_V(point.node, islands[point.island].reference);
            if (!above_V) continue;
            point.above_V = *above_V;
            break;
        }
        if (point.island == islands.size()) {
            islands.emplace_back();
            islands.back().reference = point.node;
        }
        Island& in = islands[point.island];
        in.lowest_V = std::min(in.lowest_V, point.above_V);
        in.highest_V = std::max(in.highest_V, point.above_V);
        in.source |= point.ofSource;
        if (!point.ofBattery) return;
        ++in.batteries;
        in.several |= in.battery && in.battery != point.part;
        in.battery = point.part;
    }

    // What stands for all that is fed: the blocks that have a cable; without any, the loads.
    bool standsFor(bench::PartId id, bool blocks) const {
        const bench::Part* part = bench::findPart(bench, id);
        if (!part || bench::isA(*part, PartClass::Block) != blocks) return false;
        switch (bench::spec(part->kind).partClass) {
        case PartClass::Block:
        case PartClass::Relay:
        case PartClass::Lamp:
        case PartClass::Horn:
        case PartClass::Resistor:
        case PartClass::Motor:
            return hasCable(id);
        default:
            return false;
        }
    }

    bool hasCable(bench::PartId id) const {
        for (const bench::Cable& cable : bench.cables)
            for (const bench::CableEnd& end : cable.ends)
                if (end.at && end.at->part == id) return true;
        return false;
    }

    // Where the voltage behind the switches is greatest; the part that is dead when it is nowhere.
    const Point* mostFed(bench::PartId& dead) const {
        for (const bool blocks : {true, false}) {
            const Point* most = nullptr;
            for (const Point& point : points)
                if (standsFor(point.part, blocks) && (!most || fed_V(point) > fed_V(*most)))
                    most = &point;
            if (!most) continue;
            if (fed_V(*most) > kLive_V) return most;
            dead = most->part;
            return nullptr;
        }
        return nullptr;
    }

    const Point* looseEnd() const {
        const Point* most = nullptr;
        for (const Point& point : points)
            if (point.looseOf && fed_V(point) > kLive_V && (!most || fed_V(point) > fed_V(*most)))
                most = &point;
        return most;
    }
};

// Currents out of the batteries summed over each conductor: what one battery hands to the next
// through a link cancels, what goes out to the loads stays. A battery whose own terminals are one
// conductor (a short) cancels too, so the greatest single current is the least that is shown.
double delivered_A(const LiveCircuit& live) {
    circuit::NodeGroups metal = conductorsOf(live);
    std::vector<double> out_A(live.wires().netlist.nodeCount, 0.0);
    double greatest_A = 0.0;
    for (const circuit::Element& element : live.wires().netlist.elements) {
        const auto* battery = std::get_if<circuit::Battery>(&element.part);
        if (!battery) continue;
        const double current_A = live.reading(element.key).current_A;
        out_A[metal.top(battery->plus)] += current_A;
        out_A[metal.top(battery->minus)] -= current_A;
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
        supply.batteryOut |= bench::isA(part, PartClass::Battery);
    Touchable(bench, live).say(supply);
    supply.current_A = supply.batteryOut ? delivered_A(live) : 0.0;
    supply.live |= supply.current_A >= kGives_A;
    supply.danger = dangerOf(live);
    return supply;
}

} // namespace loom::attempt

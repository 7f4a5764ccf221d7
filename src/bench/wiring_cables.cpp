// SPDX-License-Identifier: MIT
#include "bench/wiring_cables.h"

#include "bench/ends.h"

#include <algorithm>

namespace loom::bench {
namespace {

// One strand of a fine-stranded conductor (0.2 mm across), as long as it stands out: common
// practice, no source.
constexpr double kStrand_m2 = 0.03e-6, kStrand_m = 0.01;
// Bare copper lying on metal.
constexpr double kLyingOn_ohm = 20e-3;
// Cables tied together at so many places lie along one another.
constexpr std::size_t kTiesOfBundle = 2;

void writeNeighbour(
    const Bench& bench, const Cable& cable, int end, const EndState& state, Wiring& wiring) {
    const auto on = state.copperOn ? state.copperOn : state.strandOn;
    const auto there = on ? nodeOf(bench, wiring, *on) : std::nullopt;
    if (!there) return;
    const circuit::Node here = wiring.ends.back()[static_cast<std::size_t>(end)];
    const circuit::Key key = strandKey(cable.id, end);
    if (state.copperOn) {
        wiring.netlist.elements.push_back(
            {key, circuit::Contact{here, *there, true, kLyingOn_ohm}});
        return;
    }
    circuit::Cable strand;
    strand.a = here;
    strand.b = *there;
    strand.length_m = kStrand_m;
    strand.area_m2 = kStrand_m2;
    wiring.netlist.elements.push_back({key, strand});
}

// The other cables that lie along this one, by number.
std::vector<CableId> tiedAlong(const Bench& bench, CableId cable) {
    std::vector<CableId> others;
    for (const Tie& tie : bench.ties) {
        if (!tie.other) continue;
        if (tie.cable == cable) others.push_back(tie.other);
        if (tie.other == cable) others.push_back(tie.cable);
    }
    std::sort(others.begin(), others.end());
    std::vector<CableId> along;
    for (std::size_t i = 0; i < others.size();) {
        const auto next = std::upper_bound(others.begin(), others.end(), others[i]);
        const auto count = static_cast<std::size_t>(next - others.begin()) - i;
        if (count >= kTiesOfBundle) along.push_back(others[i]);
        i += count;
    }
    return along;
}

void writeCable(const Bench& bench, const Cable& cable, Wiring& wiring) {
    circuit::Cable element;
    std::array<EndState, 2> states;
    wiring.ends.push_back({});
    for (int e = 0; e < 2; ++e) {
        const auto which = static_cast<std::size_t>(e);
        const CableEnd& end = cable.ends[which];
        auto joined = end.at ? nodeOf(bench, wiring, *end.at) : std::nullopt;
        if (joined) states[which] = stateOf(bench, cable, e);
        if (!states[which].touches) joined.reset();
        wiring.ends.back()[which] = joined ? *joined : wiring.netlist.nodeCount++;
    }
    element.a = wiring.ends.back()[0];
    element.b = wiring.ends.back()[1];
    element.length_m = cable.length_m;
    element.area_m2 = cable.area_m2;
    element.endA = {states[0].resistance_ohm, states[0].loose};
    element.endB = {states[1].resistance_ohm, states[1].loose};
    const std::vector<CableId> along = tiedAlong(bench, cable.id);
    element.bundled = static_cast<unsigned>(along.size());
    if (!along.empty())
        element.neighbour = cableKey(along.front()); // whose copper a fire lays bare
    element.parted = cable.condition == CableCondition::Parted;
    wiring.netlist.elements.push_back({cableKey(cable.id), element});
    for (int e = 0; e < 2; ++e)
        writeNeighbour(bench, cable, e, states[static_cast<std::size_t>(e)], wiring);
}

// The meter between two nodes.
class MeterWriter {
public:
    MeterWriter(circuit::Netlist& target, circuit::Node redProbe, circuit::Node blackProbe)
        : netlist(target), red(redProbe), black(blackProbe) {}

    void write(const Meter& meter) {
        switch (meter.range) {
        case MeterRange::Off:
            return;
        case MeterRange::Volts:
            return add(MeterElement::Volts, circuit::Resistor{red, black, kMeterVolts_ohm});
        case MeterRange::Amperes:
            return amperes(meter.fuseOpen);
        case MeterRange::Ohms:
        case MeterRange::Tone:
            return test();
        }
    }

private:
    circuit::Netlist& netlist;
    circuit::Node red, black;

    void add(MeterElement element, const circuit::Part& part) {
        netlist.elements.push_back({meterKey(element), part});
    }

    void amperes(bool fuseOpen) {
        const circuit::Node inside = netlist.nodeCount++;
        circuit::Fuse fuse;
        fuse.a = red;
        fuse.b = inside;
        fuse.style = circuit::FuseStyle::Cartridge;
        fuse.rating_A = kMeterFuse_A;
        fuse.cold_ohm = kMeterShunt_ohm;
        fuse.blown = fuseOpen;
        add(MeterElement::Fuse, fuse);
        add(MeterElement::Shunt, circuit::Resistor{inside, black, kMeterShunt_ohm});
    }

    void test() {
        const circuit::Node inside = netlist.nodeCount++;
        add(MeterElement::Source, circuit::VoltageSource{inside, black, kMeterTest_V});
        add(MeterElement::Through, circuit::Resistor{inside, red, kMeterTest_ohm});
    }
};

} // namespace

void writeCables(const Bench& bench, Wiring& wiring) {
    for (const Cable& cable : bench.cables)
        writeCable(bench, cable, wiring);
}

void writeMeter(const Bench& bench, Wiring& wiring) {
    if (!bench.meter) return;
    const auto red = nodeOf(bench, wiring, bench.meter->probes[0]);
    const auto black = nodeOf(bench, wiring, bench.meter->probes[1]);
    if (red && black) MeterWriter(wiring.netlist, *red, *black).write(*bench.meter);
}

std::optional<circuit::Node> nodeOf(const Bench& bench, const Wiring& wiring, const ProbeTip& tip) {
    if (tip.terminal) return nodeOf(bench, wiring, *tip.terminal);
    const Cable* cable = findCable(bench, tip.cable);
    if (!cable || tip.end < 0 || tip.end > 1) return std::nullopt;
    const auto index = static_cast<std::size_t>(cable - bench.cables.data());
    if (index >= wiring.ends.size()) return std::nullopt;
    return wiring.ends[index][static_cast<std::size_t>(tip.end)];
}

} // namespace loom::bench

// The steady currents that faults are bounded with, against the circuit, and changes against solving
// the changed network anew.
#include "circuit/circuit.h"
#include "lesson/steady_network.h"
#include "lessons/hand.h"

#include "bench/file.h"
#include "bench/wiring.h"
#include "lesson/trial.h"

#include <doctest/doctest.h>
#include <vector>

namespace {

using namespace loom;
using lesson::SteadyNetwork;

bool near(double found, double wanted, double relative, double floor) {
    const double off = found > wanted ? found - wanted : wanted - found;
    const double size = wanted < 0.0 ? -wanted : wanted;
    return off <= relative * size + floor;
}

// A battery through a fuse to two branches, one of which a switch opens.
circuit::Netlist ladder() {
    circuit::Netlist netlist;
    netlist.nodeCount = 6;
    circuit::Battery battery;
    battery.plus = 0;
    battery.minus = 1;
    circuit::Fuse fuse;
    fuse.a = 0;
    fuse.b = 2;
    netlist.elements.push_back({1, battery});
    netlist.elements.push_back({2, fuse});
    netlist.elements.push_back({3, circuit::Contact{2, 3, true}});
    netlist.elements.push_back({4, circuit::Resistor{3, 1, 10.0}});
    netlist.elements.push_back({5, circuit::Resistor{2, 4, 2.0}});
    netlist.elements.push_back({6, circuit::Resistor{4, 1, 3.0}});
    return netlist; // node 5 is alone
}

TEST_CASE("steady currents are those of the circuit once it has started") {
    const circuit::Netlist netlist = ladder();
    const SteadyNetwork steady(netlist);
    circuit::Circuit live(netlist);
    std::vector<circuit::Event> events;
    live.advance(1e-3, events);
    for (const circuit::Key key : {2, 3, 4, 5, 6}) {
        CAPTURE(key);
        const SteadyNetwork::Branch* branch =
            steady.branchOf(static_cast<std::uint32_t>(key - 1));
        REQUIRE(branch);
        CHECK(near(steady.current_A(*branch), live.reading(key).current_A, 1e-4, 1e-9));
    }
    CHECK(steady.fed(4));
    CHECK_FALSE(steady.fed(5));
    CHECK_FALSE(steady.joined(0, 5));
}

TEST_CASE("changes give the voltages of the changed network") {
    const circuit::Netlist netlist = ladder();
    const SteadyNetwork steady(netlist);
    circuit::Netlist changed = netlist;
    changed.elements.push_back({7, circuit::Resistor{3, 4, 0.01}});
    changed.elements.push_back({8, circuit::Resistor{2, 1, 0.5}});
    const SteadyNetwork anew(changed);
    std::vector<double> volts;
    steady.changed({{3, 4, 100.0}, {2, 1, 2.0}}, volts);
    for (const circuit::Node node : {0u, 2u, 3u, 4u}) {
        CAPTURE(node);
        CHECK(near(volts[node] - volts[1], anew.voltage_V(node, 1), 1e-9, 1e-12));
    }
    // One at a time, and one taken away: the contact opens.
    steady.changed({{3, 4, 100.0}}, volts);
    circuit::Netlist one = netlist;
    one.elements.push_back({7, circuit::Resistor{3, 4, 0.01}});
    CHECK(near(volts[3] - volts[1], SteadyNetwork(one).voltage_V(3, 1), 1e-9, 1e-12));
    const SteadyNetwork::Branch* contact = steady.branchOf(2);
    steady.changed({{contact->a, contact->b, -contact->siemens * (1.0 - 1e-9)}}, volts);
    CHECK(near(volts[3] - volts[1], 0.0, 0.0, 1e-3));
}

TEST_CASE("a relay pulls in by its voltage, and its contact carries the steady current") {
    const auto read = bench::fromJson(lessontest::textOf("assets/benches/pippin.loom.json"));
    REQUIRE(read);
    const bench::Bench& pippin = read.value();
    const auto k1In = [&](const lesson::Positions& set) {
        const bench::Wiring wiring =
            bench::wire(lesson::freshCopy(pippin, pippin, set));
        const auto decided = SteadyNetwork(wiring.netlist).decided();
        std::size_t at = 0;
        for (const circuit::Element& element : wiring.netlist.elements) {
            const bool relay = std::holds_alternative<circuit::Relay>(element.part);
            if (relay && bench::partOf(element.key) == bench::findPart(pippin, "K1")->id)
                return static_cast<bool>(decided[at]);
            if (relay || std::holds_alternative<circuit::Diode>(element.part)) ++at;
        }
        return false;
    };
    lesson::Positions set{{"Q1", "on"}, {"S1", "on"}, {"S2", "forward"}};
    CHECK_FALSE(k1In(set));
    set["S3"] = "held";
    CHECK(k1In(set));
    set["Q1"] = "off";
    CHECK_FALSE(k1In(set));
}

} // namespace

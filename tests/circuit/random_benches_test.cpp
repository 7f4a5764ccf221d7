// SPDX-License-Identifier: MIT
// Random benches, sound and absurd, switched at random: every number finite, charge and energy
// conserved, equal hashes when played twice. LOOM_BENCHES in the environment
// sets how many (150 unless told).
#include "circuit/check.h"
#include "network_hand.h"

#include <cstdlib>
#include <doctest/doctest.h>
#include <limits>

namespace loom::circuit {
namespace {

// Pseudo-random numbers that are the same everywhere.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : state(seed * 0x9E3779B97F4A7C15ull + 1) {
        for (int k = 0; k < 4; ++k)
            (void)next();
    }

    std::uint32_t below(std::uint32_t n) { return next() % n; }

    bool oneIn(std::uint32_t n) { return below(n) == 0; }

    // Over decades, with a wild value now and then.
    double value(double usual) {
        if (oneIn(200)) return wild[below(sizeof wild / sizeof *wild)];
        const double decades[] = {1e-3, 0.1, 0.5, 1.0, 1.0, 1.0, 2.0, 10.0, 1e3};
        return usual * decades[below(9)] * (1.0 + 0.01 * below(100));
    }

private:
    std::uint32_t next() {
        state = state * 6364136223846793005ull + 1442695040888963407ull;
        return static_cast<std::uint32_t>(state >> 33);
    }

    const double wild[8] = {0.0,
                            -1.0,
                            1e-300,
                            1e300,
                            1e12,
                            -1e12,
                            std::numeric_limits<double>::quiet_NaN(),
                            std::numeric_limits<double>::infinity()};
    std::uint64_t state;
};

Part randomPart(Dice& dice, Node nodes) {
    const auto n = [&] { return dice.oneIn(300) ? nodes + 5 : dice.below(nodes); };
    switch (dice.below(16)) {
    case 0:
        return Resistor{n(), n(), dice.oneIn(6) ? 0.0 : dice.value(10.0)};
    case 1:
        return VoltageSource{n(), n(), dice.value(12.0)};
    case 2:
        return CurrentSource{n(), n(), dice.value(0.5)};
    case 3:
        return Capacitor{n(), n(), dice.value(1e-4), dice.oneIn(2) ? 0.0 : dice.value(5.0)};
    case 4:
        return Inductor{n(), n(), dice.value(1e-3), dice.value(0.1), dice.value(0.2)};
    case 5:
    case 6:
    case 7: {
        Cable c;
        c.a = n();
        c.b = n();
        c.length_m = dice.value(1.0);
        c.area_m2 = dice.value(2e-6);
        c.endB.loose = dice.oneIn(5);
        c.endB.resistance_ohm = dice.oneIn(5) ? dice.value(0.02) : 0.5e-3;
        return c;
    }
    case 8:
    case 9: {
        Battery b{n(), n()};
        b.charge = 0.01 * dice.below(101);
        return b;
    }
    case 10:
        return Contact{n(), n(), dice.oneIn(2), dice.oneIn(5) ? 0.0 : 0.4e-3};
    case 11:
        return Fuse{n(), n(), FuseStyle(dice.below(3)), dice.value(7.5), dice.value(10e-3)};
    case 12:
        return Relay{n(), n(), n(), n(), n()};
    case 13:
        return Diode{n(), n()};
    case 14: {
        Lamp l{n(), n()};
        l.rated_V = dice.oneIn(3) ? 12.0 : 24.0;
        return l;
    }
    default:
        break;
    }
    Motor m{n(), n()};
    m.friction_Nm = dice.value(0.1);
    m.load_Nm = dice.oneIn(4) ? dice.value(0.5) : 0.0;
    return m;
}

Netlist randomBench(std::uint64_t seed) {
    Dice dice(seed);
    Netlist netlist;
    netlist.nodeCount = 2 + dice.below(dice.oneIn(10) ? 30 : 8);
    const std::uint32_t count = 1 + dice.below(netlist.nodeCount * 2);
    for (Key key = 1; key <= count; ++key)
        netlist.elements.push_back({key, randomPart(dice, netlist.nodeCount)});
    return netlist;
}

// Adds what an element takes out of its nodes; relays have five of them.
void addCurrents(const Element& e, const Reading& r, std::vector<double>& leaving_A) {
    if (const auto* relay = std::get_if<Relay>(&e.part)) {
        leaving_A[relay->coilA] += r.current_A;
        leaving_A[relay->coilB] -= r.current_A;
        leaving_A[relay->common] += r.contactNO_A + r.contactNC_A;
        leaving_A[relay->normallyOpen] -= r.contactNO_A;
        leaving_A[relay->normallyClosed] -= r.contactNC_A;
        return;
    }
    const std::vector<Node> nodes = nodesOf(e.part);
    const double sign = std::holds_alternative<Battery>(e.part) ? -1.0 : 1.0;
    leaving_A[nodes[0]] += sign * r.current_A;
    leaving_A[nodes[1]] -= sign * r.current_A;
}

struct Balance {
    bool finite = true;
    double charge = 0.0, energy = 0.0; // greatest mismatch over greatest flow
};

Balance balanceOf(const Circuit& circuit, const Netlist& netlist, const std::vector<char>& fine) {
    Balance b;
    std::vector<double> leaving_A(netlist.nodeCount, 0.0);
    double greatest_A = 1e-9, given_W = 0.0, taken_W = 0.0, most_W = 1e-6;
    for (std::size_t k = 0; k < netlist.elements.size(); ++k) {
        if (!fine[k]) continue;
        const Element& e = netlist.elements[k];
        const Reading r = circuit.reading(e.key);
        for (double x : {r.voltage_V,
                         r.current_A,
                         r.power_W,
                         r.temp_K,
                         r.contactNO_A,
                         r.contactNC_A,
                         r.speed_rad_s,
                         r.angle_rad,
                         r.charge,
                         r.brightness})
            b.finite = b.finite && std::isfinite(x);
        addCurrents(e, r, leaving_A);
        greatest_A = std::fmax(greatest_A, std::fabs(r.current_A));
        double p = r.power_W;
        if (const auto* relay = std::get_if<Relay>(&e.part)) {
            const auto no = circuit.voltage_V(relay->common, relay->normallyOpen);
            const auto nc = circuit.voltage_V(relay->common, relay->normallyClosed);
            p += (no ? *no : 0.0) * r.contactNO_A + (nc ? *nc : 0.0) * r.contactNC_A;
            greatest_A = std::fmax(greatest_A, std::fabs(r.contactNO_A) + std::fabs(r.contactNC_A));
        }
        (std::holds_alternative<Battery>(e.part) ? given_W : taken_W) += p;
        most_W = std::fmax(most_W, std::fabs(p));
    }
    for (double x : leaving_A)
        b.charge = std::fmax(b.charge, std::fabs(x) / greatest_A);
    b.energy = std::fabs(given_W - taken_W) / most_W;
    return b;
}

std::uint64_t play(std::uint64_t seed, bool check) {
    const Netlist netlist = randomBench(seed);
    const std::vector<char> fine = usable(netlist);
    Circuit circuit(netlist);
    Dice dice(seed + 77777);
    std::vector<Event> events;
    for (int k = 0; k < 30; ++k) {
        if (check) {
            CAPTURE(k);
            const Balance b = balanceOf(circuit, netlist, fine);
            CHECK(b.finite);
            CHECK(b.charge < 1e-3);
            CHECK(b.energy < 1e-3);
        }
        if (dice.oneIn(3)) circuit.setContact(1 + dice.below(20), dice.oneIn(2));
        if (dice.oneIn(20)) circuit.setJammed(1 + dice.below(20), dice.oneIn(2));
        circuit.advance(dice.oneIn(10) ? 1.0 : 0.01, events);
    }
    return circuit.stateHash();
}

} // namespace

TEST_CASE("random benches keep their charge, their energy and their wits") {
    const char* told = std::getenv("LOOM_BENCHES");
    const std::uint64_t benches = told != nullptr ? std::strtoull(told, nullptr, 10) : 150;
    for (std::uint64_t seed = 1; seed <= benches; ++seed) {
        CAPTURE(seed);
        const std::uint64_t hash = play(seed, true);
        if (seed % 10 == 0) CHECK(hash == play(seed, false));
    }
}

} // namespace loom::circuit

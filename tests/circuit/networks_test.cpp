// SPDX-License-Identifier: MIT
// Networks with worked answers in open textbooks (rows N01-N29): the printed digits within
// 0.5 %, and a second solution written apart (dense_answer.h) within 1e-9.
#include "dense_answer.h"
#include "network_hand.h"

#include <doctest/doctest.h>
#include <string>

namespace loom::circuit {
namespace {

struct Printed {
    int branch; // index in the row's branches
    double current_A;
};

struct Row {
    const char* source;
    std::vector<dense::Branch> branches; // ohm 0: an ideal source, a is plus
    std::vector<Printed> printed;
};

dense::Branch ohm(double r, int a, int b) {
    return {a, b, r, 0.0};
}

dense::Branch volt(double v, int plus, int minus) {
    return {plus, minus, 0.0, v};
}

// clang-format off
const Row rows[] = {
    {"N01 University Physics m58454: 0.1 A",
     {volt(9, 1, 0), ohm(20, 1, 2), ohm(20, 2, 3), ohm(20, 3, 4), ohm(20, 4, 5), ohm(10, 5, 0)},
     {{1, 0.1}, {5, 0.1}, {0, -0.1}}},
    {"N02 College Physics m42356: 0.600 A",
     {volt(12, 1, 0), ohm(1, 1, 2), ohm(6, 2, 3), ohm(13, 3, 0)}, {{1, 0.600}}},
    {"N03 LEC s_and_p: 500 uA",
     {volt(9, 1, 0), ohm(3e3, 1, 2), ohm(10e3, 2, 3), ohm(5e3, 3, 0)}, {{1, 500e-6}}},
    {"N04 LEC divider: 2 mA",
     {volt(45, 1, 0), ohm(5e3, 1, 2), ohm(10e3, 2, 3), ohm(7.5e3, 3, 0)}, {{1, 2e-3}}},
    {"N05 University Physics m58454: 6.00 A; 3.00, 1.50, 1.50 A",
     {volt(3, 1, 0), ohm(1, 1, 0), ohm(2, 1, 0), ohm(2, 1, 0)},
     {{0, -6.0}, {1, 3.0}, {2, 1.5}, {3, 1.5}}},
    {"N06 College Physics m42356: 14.92 A; 12.0, 2.00, 0.92 A",
     {volt(12, 1, 0), ohm(1, 1, 0), ohm(6, 1, 0), ohm(13, 1, 0)},
     {{0, -14.92}, {1, 12.0}, {2, 2.0}, {3, 0.92}}},
    {"N07 LEC s_and_p: 0.9, 4.5, 9 mA",
     {volt(9, 1, 0), ohm(10e3, 1, 0), ohm(2e3, 1, 0), ohm(1e3, 1, 0)},
     {{1, 0.9e-3}, {2, 4.5e-3}, {3, 9e-3}}},
    {"N08 LEC divider: 6, 2, 3 mA",
     {volt(6, 1, 0), ohm(1e3, 1, 0), ohm(3e3, 1, 0), ohm(2e3, 1, 0)},
     {{1, 6e-3}, {2, 2e-3}, {3, 3e-3}}},
    {"N09 University Physics m58454, College Physics m42356: 2.35, 1.61, 0.742 A",
     {volt(12, 1, 0), ohm(1, 1, 2), ohm(6, 2, 0), ohm(13, 2, 0)},
     {{1, 2.35}, {2, 1.61}, {3, 0.742}}},
    {"N10 University Physics m58454: 2, 1 (10 ohm: 14 V less 4 V), 1 A",
     {volt(24, 1, 0), ohm(7, 1, 2), ohm(10, 2, 0), ohm(6, 2, 3), ohm(4, 3, 0)},
     {{1, 2.0}, {2, 1.0}, {3, 1.0}, {4, 1.0}}},
    {"N11 University Physics m58454: 2.00 A from 50.00 V",
     {volt(50, 1, 0), ohm(10, 1, 2), ohm(10, 2, 3), ohm(10, 3, 0), ohm(10, 3, 0)}, {{1, 2.0}}},
    {"N12 LEC s_p: 120.78 mA",
     {volt(24, 1, 0), ohm(100, 1, 2), ohm(250, 1, 2), ohm(350, 2, 0), ohm(200, 2, 0)},
     {{0, -120.78e-3}, {1, 86.27e-3}, {2, 34.51e-3}, {3, 43.92e-3}, {4, 76.86e-3}}},
    {"N15 LEC dcmeter: 0.8889 V on 10 Mohm",
     {volt(24, 1, 0), ohm(250e6, 1, 2), ohm(250e6, 2, 0), ohm(10e6, 2, 0)}, {{3, 0.8889 / 10e6}}},
    {"N16 University Physics m58455: 3.00, 5.00, -2.00 A",
     {volt(24, 1, 0), ohm(3, 1, 2), ohm(3, 2, 0), ohm(3, 2, 3), ohm(4, 3, 4), volt(29, 4, 0)},
     {{1, 3.0}, {2, 5.0}, {3, -2.0}}},
    {"N17 College Physics m42359: 4.75, -3.50, 8.25 A",
     {ohm(6, 0, 1), ohm(2.5, 1, 2), volt(18, 3, 2), ohm(0.5, 3, 0), ohm(1.5, 1, 4),
      volt(45, 5, 4), ohm(0.5, 5, 0)},
     {{0, 4.75}, {1, -3.50}, {4, 8.25}}},
    {"N18 University Physics m58455: 0.20, 0.30, 0.50 A (first resistor 1 ohm)",
     {volt(0.5, 2, 0), ohm(1, 2, 5), ohm(2, 5, 1), volt(2.3, 3, 0), ohm(5, 3, 6), ohm(3, 6, 1),
      ohm(1, 1, 4), volt(0.6, 0, 4)},
     {{1, 0.20}, {4, 0.30}, {6, 0.50}}},
    {"N19 University Physics m58455: 0.20 A",
     {volt(24, 1, 0), ohm(20, 1, 2), ohm(10, 2, 3), volt(12, 3, 4), ohm(30, 4, 0)}, {{1, 0.20}}},
    {"N20 University Physics m58455: 1.5, 2, 0.5, 2.5, 2 A",
     {volt(12, 1, 0), ohm(4, 1, 2), ohm(3, 2, 0), volt(5, 1, 3), ohm(2, 3, 2), ohm(2, 1, 3)},
     {{1, 1.5}, {2, 2.0}, {4, 0.5}, {5, 2.5}, {3, -2.0}}},
    {"N21 LEC dcnet: 5, 4, 1 A, the 7 V source takes 1 A",
     {volt(28, 1, 0), ohm(4, 1, 2), ohm(2, 2, 0), ohm(1, 2, 3), volt(7, 3, 0)},
     {{1, 5.0}, {2, 4.0}, {3, 1.0}, {4, 1.0}}},
    {"N22 LEC dcnet: short-circuit 14 A",
     {volt(28, 1, 0), ohm(4, 1, 2), ohm(0, 2, 0), ohm(1, 2, 3), volt(7, 3, 0)}, {{2, 14.0}}},
    {"N23 LEC dcnet: unbalanced bridge",
     {volt(24, 1, 0), ohm(150, 1, 2), ohm(50, 1, 3), ohm(100, 2, 3), ohm(300, 2, 0), ohm(250, 3, 0)},
     {{1, 42.30e-3}, {2, 93.79e-3}, {3, -16.55e-3}, {4, 58.85e-3}, {5, 77.24e-3}, {0, -136.1e-3}}},
    {"N24 College Physics m42362: balanced bridge, no current across",
     {volt(12, 1, 0), ohm(1000, 1, 2), ohm(625, 2, 0), ohm(2500, 1, 3), ohm(1562.5, 3, 0), ohm(47, 2, 3)},
     {{5, 0.0}}},
    {"N25 University Physics m58453: 1.188 A",
     {volt(12, 1, 0), ohm(0.1, 1, 2), ohm(10, 2, 0)}, {{1, 1.188}}},
    {"N26 University Physics m58453: 20.00 A", {volt(12, 1, 0), ohm(0.1, 1, 2), ohm(0.5, 2, 0)}, {{1, 20.0}}},
    {"N26 with 0.500 ohm inside: 12.00 A", {volt(12, 1, 0), ohm(0.5, 1, 2), ohm(0.5, 2, 0)}, {{1, 12.0}}},
    {"N27 College Physics m42357: 200 A", {volt(12, 1, 0), ohm(0.01, 1, 2), ohm(0.05, 2, 0)}, {{1, 200.0}}},
    {"N27 with 0.0900 ohm of corroded joints: 80.0 A",
     {volt(12, 1, 0), ohm(0.01, 1, 2), ohm(0.05, 2, 3), ohm(0.09, 3, 0)}, {{1, 80.0}}},
    {"N28 LEC batt: 8.333 A", {volt(10, 1, 0), ohm(0.2, 1, 2), ohm(1, 2, 0)}, {{1, 8.333}}},
    {"N28 shorted: 50 A", {volt(10, 1, 0), ohm(0.2, 1, 2), ohm(0, 2, 0)}, {{1, 50.0}}},
    {"N29 University Physics m58455: 0.617 A",
     {volt(1.58, 1, 0), ohm(0.02, 1, 2), volt(1.58, 3, 2), ohm(0.02, 3, 4), volt(1.58, 5, 4),
      ohm(0.02, 5, 6), volt(1.53, 7, 6), ohm(0.1, 7, 8), ohm(10, 8, 0)}, {{1, 0.617}}},
};

// clang-format on

Hand handOf(const std::vector<dense::Branch>& branches) {
    Hand hand;
    for (const dense::Branch& b : branches) {
        const Node node_a = Node(b.a), node_b = Node(b.b);
        if (b.emf_V != 0.0)
            hand.volt(b.emf_V, node_a, node_b);
        else
            hand.ohm(b.ohm, node_a, node_b);
    }
    return hand;
}

// Everything of the circuit against the second solution.
void checkAgainstDense(const std::vector<dense::Branch>& branches, double floor_A) {
    const Hand hand = handOf(branches);
    const Circuit circuit(hand.netlist);
    const dense::Answer answer = dense::solve(int(hand.netlist.nodeCount), branches);
    for (std::size_t k = 0; k < branches.size(); ++k) {
        CAPTURE(k);
        const Reading r = circuit.reading(k + 1);
        CHECK(closeRel(r.current_A, double(answer.current_A[k]), 1e-9, floor_A));
        const double v = double(answer.volts_V[std::size_t(branches[k].a)] -
                                answer.volts_V[std::size_t(branches[k].b)]);
        CHECK(closeRel(r.voltage_V, v, 1e-9, 1e-13));
    }
}

} // namespace

TEST_CASE("worked networks of open textbooks") {
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        const Circuit circuit(handOf(row.branches).netlist);
        for (const Printed& p : row.printed) {
            CAPTURE(p.branch);
            CHECK(closeRel(circuit.reading(Key(p.branch) + 1).current_A, p.current_A, 5e-3, 1e-15));
        }
        checkAgainstDense(row.branches, 1e-15);
        CHECK(circuit.diagnoses().empty());
    }
}

TEST_CASE("what sources give is what the rest takes") { // N17, N20, N21: 1e-9
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        const Circuit circuit(handOf(row.branches).netlist);
        double sum_W = 0.0, taken_W = 0.0;
        for (std::size_t k = 0; k < row.branches.size(); ++k) {
            const double p = circuit.reading(k + 1).power_W;
            sum_W += p;
            if (p > 0.0) taken_W += p;
        }
        CHECK(std::fabs(sum_W) <= 1e-9 * taken_W);
    }
}

TEST_CASE("N14: 60.8 W in the bulb and 1.56 kW in the motor beside it") {
    // University Physics m58454: 120 V, wire 0.800 ohm carrying 15.0 A, bulb 75.0 W at 120 V
    const double bulb_ohm = 120.0 * 120.0 / 75.0, volts = 120.0 - 0.8 * 15.0;
    const double motor_ohm = volts / (15.0 - volts / bulb_ohm);
    Hand hand;
    hand.volt(120, 1, 0);
    hand.ohm(0.8, 1, 2);
    const Key bulb = hand.ohm(bulb_ohm, 2, 0), motor = hand.ohm(motor_ohm, 2, 0);
    const Circuit circuit(hand.netlist);
    CHECK(closeRel(circuit.reading(bulb).power_W, 60.75, 1e-9, 0.0));
    CHECK(closeRel(circuit.reading(motor).power_W, 1559.25, 1e-9, 0.0));
}

TEST_CASE("half a milliohm beside ten megohms keeps all its digits") {
    // The low resistance carries what ten megohms let through; the usual nodal matrix loses it.
    checkAgainstDense({volt(24, 1, 0), ohm(0.4e-3, 1, 2), ohm(10e6, 2, 0)}, 0.0);
    checkAgainstDense({volt(24, 1, 0), ohm(10e6, 1, 2), ohm(0.4e-3, 2, 3), ohm(10e6, 3, 0)}, 0.0);
    checkAgainstDense({volt(24, 1, 0),
                       ohm(10e6, 1, 2),
                       ohm(0.4e-3, 2, 3),
                       ohm(0.4e-3, 3, 4),
                       ohm(0.4e-3, 4, 5),
                       ohm(10e6, 5, 0),
                       ohm(1e-3, 1, 6),
                       ohm(0.3, 6, 0)},
                      0.0);
    // Two low resistances side by side share microamperes: the share is good to a nanoampere
    // times the ratio of rounding to 24 V over 0.8 mohm.
    checkAgainstDense({volt(24, 1, 0), ohm(0.4e-3, 1, 2), ohm(0.7e-3, 1, 2), ohm(10e6, 2, 0)},
                      2e-11);
}

} // namespace loom::circuit

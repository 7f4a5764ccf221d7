// SPDX-License-Identifier: MIT
// Steady benches thrown from seeds: batteries, cables, closed contacts, fuses, resistors, ideal sources.
// Every current and voltage against an assembly of our own, dense by Eigen for small ones and sparse by
// KLU for large ones: 1e-9 of the greatest current that a node of the element carries.
#include "problems/dice.h"
#include "problems/nodal_sparse.h"
#include "rig.h"

namespace loom::physics {
namespace {

using problems::Branch;
using problems::Dice;

// Parts for the program and, beside them, what they are to a physicist: R and emf.
struct Thrown {
    Rig rig;
    std::vector<Branch> branches; // by key - 1

    void add(int a, int b, double ohms, double emf_V = 0.0) {
        branches.push_back({a, b, ohms, emf_V});
    }
};

// IEC 60228 ohm per metre (C02, C03, C05, C07, C08).
const double sizes[][2] = {
    {0.75, 26.0e-3}, {1, 19.5e-3}, {2.5, 7.98e-3}, {6, 3.30e-3}, {10, 1.91e-3}};

void throwPart(Dice& dice, Thrown& t, int a, int b) {
    switch (dice.below(8)) {
    case 0: {
        const double charge = dice.between(0.2, 1.0), temp_K = 298.15;
        Battery p;
        p.plus = Node(a);
        p.minus = Node(b);
        p.charge = charge;
        p.temp_K = temp_K;
        p.resistance_ohm = dice.between(30.0, 90.0); // so that nothing warms within a nanosecond
        t.rig.add(p);
        // battery.h: emf straight from 12.0 V (0.1) to 12.85 V (1); R (1 + (1 - h)^2)
        return t.add(a,
                     b,
                     p.resistance_ohm * (1 + (1 - charge) * (1 - charge)),
                     12.85 - 0.85 / 0.9 * (1 - charge));
    }
    case 1:
    case 2: {
        const auto& size = sizes[dice.below(5)];
        Cable p;
        p.a = Node(a);
        p.b = Node(b);
        p.area_m2 = size[0] * 1e-6;
        p.length_m = dice.between(0.1, 3.0);
        p.endA.resistance_ohm = dice.between(0.0, 1e-3);
        p.endB.resistance_ohm = dice.between(0.0, 20e-3);
        t.rig.add(p);
        return t.add(a, b, size[1] * p.length_m + p.endA.resistance_ohm + p.endB.resistance_ohm);
    }
    case 3: {
        const double ohms = dice.between(0.1e-3, 20e-3);
        t.rig.contact(Node(a), Node(b), true, ohms);
        return t.add(a, b, ohms);
    }
    case 4: {
        Fuse p;
        p.a = Node(a);
        p.b = Node(b);
        p.rating_A = dice.between(10, 30);
        p.cold_ohm = 0.08 / p.rating_A;
        t.rig.add(p);
        return t.add(a, b, p.cold_ohm);
    }
    default: {
        const double ohms = dice.decades(-2, 6);
        t.rig.ohm(ohms, Node(a), Node(b));
        return t.add(a, b, ohms);
    }
    }
}

// A tree, so that all hangs together, and more branches across it. One ideal source at most, so that
// there is no contradiction.
Thrown throwBench(std::uint64_t seed, int nodes, int extra) {
    Dice dice(seed);
    Thrown t;
    if (dice.oneIn(2)) { // behind 50 ohm, for the same reason
        t.rig.volt(24, 1, Node(nodes));
        t.add(1, nodes, 0.0, 24);
        t.rig.ohm(50.0, Node(nodes), 0);
        t.add(nodes, 0, 50.0);
    }
    for (int n = 1; n < nodes; ++n)
        throwPart(dice, t, n, int(dice.below(std::uint32_t(n))));
    for (int k = 0; k < extra; ++k) {
        const int a = int(dice.below(std::uint32_t(nodes)));
        const int b = (a + 1 + int(dice.below(std::uint32_t(nodes - 1)))) % nodes;
        throwPart(dice, t, a, b);
    }
    return t;
}

// Compared at the first instant, when nothing has warmed or been drained by more than a nanosecond.
// The floor: rounding of node voltages of tens of volts, as a current through this branch's own ends.
void compare(Thrown& t, const problems::Solution& s) {
    t.rig.start();
    const double greatest_A = s.current_A.cwiseAbs().maxCoeff();
    const double greatest_V = s.volts_V.cwiseAbs().maxCoeff();
    for (std::size_t k = 0; k < t.branches.size(); ++k) {
        const Branch& b = t.branches[k];
        const Reading r = t.rig.see(Key(k) + 1);
        const bool gives = std::holds_alternative<Battery>(t.rig.netlist.elements[k].part);
        const double current_A = gives ? -r.current_A : r.current_A;
        CAPTURE(k);
        CHECK_CLOSE(current_A, s.current_A(Eigen::Index(k)), 1e-9, 1e-12 * greatest_A);
        CHECK_CLOSE(r.voltage_V, s.volts_V(b.a) - s.volts_V(b.b), 1e-9, 1e-12 * greatest_V);
    }
    bool fed = false;
    for (const Branch& b : t.branches)
        fed = fed || b.emf_V != 0.0;
    CHECK(t.rig.circuit->diagnoses().empty() == fed); // without a source all floats
}

} // namespace

TEST_CASE("small steady benches against Eigen") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        Dice dice(seed + 1000000);
        const int nodes = 2 + int(dice.below(14));
        Thrown t = throwBench(seed, nodes, int(dice.below(std::uint32_t(2 * nodes))));
        compare(t, problems::solveDense(t.branches));
    }
}

TEST_CASE("large steady benches against KLU") {
    for (const int nodes : {50, 200, 600}) {
        CAPTURE(nodes);
        Thrown t = throwBench(std::uint64_t(nodes), nodes, nodes / 2);
        const problems::Solution s = problems::solveSparse(t.branches);
        REQUIRE(s.volts_V.size() >= nodes);
        compare(t, s);
    }
}

TEST_CASE("the two second solvers agree with each other") {
    Thrown t = throwBench(7, 30, 30);
    const problems::Solution dense = problems::solveDense(t.branches);
    const problems::Solution sparse = problems::solveSparse(t.branches);
    REQUIRE(sparse.volts_V.size() >= 30);
    CHECK((dense.volts_V - sparse.volts_V).norm() <= 1e-11 * dense.volts_V.norm());
}

} // namespace loom::physics

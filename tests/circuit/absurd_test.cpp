// SPDX-License-Identifier: MIT
// Anything may be joined to anything: a defined answer and an explanation, never a NaN or a crash.
#include "network_hand.h"

#include <algorithm>
#include <doctest/doctest.h>
#include <limits>

namespace loom::circuit {
namespace {

const Diagnosis* finding(const Circuit& c, DiagnosisKind kind) {
    for (const Diagnosis& f : c.diagnoses())
        if (f.kind == kind) return &f;
    return nullptr;
}

bool names(const Diagnosis* f, Key key) {
    return f != nullptr &&
           std::find(f->elements.begin(), f->elements.end(), key) != f->elements.end();
}

bool finite(const Reading& r) {
    for (double x : {r.voltage_V,
                     r.current_A,
                     r.power_W,
                     r.temp_K,
                     r.contactNO_A,
                     r.contactNC_A,
                     r.speed_rad_s,
                     r.angle_rad,
                     r.charge,
                     r.melting,
                     r.brightness})
        if (!std::isfinite(x)) return false;
    return true;
}

void checkFinite(const Circuit& circuit, const Netlist& netlist) {
    for (const Element& e : netlist.elements) {
        CAPTURE(e.key);
        CHECK(finite(circuit.reading(e.key)));
    }
}

// One of everything between two nodes.
std::vector<Part> everything(Node a, Node b) {
    return {Resistor{a, b, 10.0},
            VoltageSource{a, b, 5.0},
            CurrentSource{a, b, 0.1},
            Capacitor{a, b, 1e-6, 1.0},
            Inductor{a, b, 1e-3, 0.1, 0.5},
            [&] {
                Cable c;
                c.a = a;
                c.b = b;
                return c;
            }(),
            Battery{a, b},
            Contact{a, b, true},
            Contact{a, b, false},
            Fuse{a, b},
            Relay{a, b, a, b, a},
            Diode{a, b},
            Lamp{a, b},
            Motor{a, b}};
}

} // namespace

TEST_CASE("an empty netlist, and nodes that nothing joins") {
    Circuit empty{Netlist{}};
    run(empty, 1.0);
    CHECK(empty.time_s() == doctest::Approx(1.0));
    CHECK(empty.diagnoses().empty());
    CHECK(!empty.voltage_V(0, 0));
    CHECK(empty.quiet());

    Netlist lonely;
    lonely.nodeCount = 5;
    Circuit circuit(lonely);
    run(circuit, 1.0);
    CHECK(*circuit.voltage_V(2, 2) == 0.0);
    CHECK(!circuit.voltage_V(0, 1));
    CHECK(circuit.reading(7).current_A == 0.0); // no such element
    circuit.setContact(7, true);
    circuit.setJammed(7, true);
    std::vector<Event> events;
    circuit.advance(-1.0, events);
    circuit.advance(std::numeric_limits<double>::quiet_NaN(), events);
    circuit.advance(0.0, events);
    CHECK(circuit.time_s() == doctest::Approx(1.0));
}

TEST_CASE("values out of range leave an element out and are named") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (double bad : {nan, inf, -inf, -1.0, 1e300}) {
        CAPTURE(bad);
        Hand hand;
        hand.volt(24, 1, 0);
        const Key good = hand.ohm(12, 1, 0), badOhm = hand.ohm(bad, 1, 0);
        Cable cable;
        cable.a = 1;
        cable.length_m = bad;
        Battery battery{1, 0};
        battery.resistance_ohm = bad;
        Relay relay{1, 0, 1, 0, 0};
        relay.coil_H = bad;
        Motor motor{1, 0};
        motor.inertia_kg_m2 = bad;
        const Key others[] = {hand.add(cable),
                              hand.add(battery),
                              hand.add(relay),
                              hand.add(motor),
                              hand.add(Capacitor{1, 0, bad, 0.0}),
                              hand.add(Inductor{1, 0, bad}),
                              hand.add(Fuse{1, 0, FuseStyle::Blade, bad}),
                              hand.add(Diode{1, 0, bad}),
                              hand.add(Lamp{1, 0, bad}),
                              hand.contact(1, 0, true, bad)};
        Circuit circuit(hand.netlist);
        run(circuit, 0.1);
        CHECK(closeRel(circuit.reading(good).current_A, 2.0, 1e-9, 0.0));
        const Diagnosis* f = finding(circuit, DiagnosisKind::BadValue);
        CHECK(names(f, badOhm));
        for (Key key : others)
            CHECK(names(f, key));
        CHECK(!names(f, good));
        checkFinite(circuit, hand.netlist);
    }
}

TEST_CASE("nodes out of range, keys given twice and the key 0") {
    Hand hand;
    hand.volt(24, 1, 0);
    const Key good = hand.ohm(12, 1, 0);
    hand.netlist.elements.push_back({50, Resistor{1, 99, 1.0}});
    hand.netlist.elements.push_back({good, Resistor{1, 0, 1.0}});
    hand.netlist.elements.push_back({0, Resistor{1, 0, 1.0}});
    Circuit circuit(hand.netlist);
    run(circuit, 0.1);
    CHECK(closeRel(circuit.reading(good).current_A, 2.0, 1e-9, 0.0)); // the first of its name
    const Diagnosis* f = finding(circuit, DiagnosisKind::BadValue);
    CHECK(names(f, 50));
    CHECK(names(f, good));
    CHECK(names(f, 0));
}

TEST_CASE("a source shorted by an ideal join: bounded by a micro-ohm each, and named") {
    Hand hand;
    const Key source = hand.volt(12, 1, 0), join = hand.ohm(0, 1, 0), load = hand.ohm(6, 1, 0);
    Circuit circuit(hand.netlist);
    CHECK(closeRel(circuit.reading(source).current_A, -6e6, 1e-5, 0.0));
    CHECK(closeRel(circuit.reading(join).current_A, 6e6, 1e-5, 0.0));
    CHECK(closeRel(circuit.reading(load).voltage_V, 6.0, 1e-5, 0.0));
    const Diagnosis* f = finding(circuit, DiagnosisKind::Contradictory);
    CHECK(names(f, source));
    CHECK(names(f, join));
    CHECK(!names(f, load));

    Hand own; // a source shorted by its own node
    const Key loop = own.volt(12, 1, 1);
    own.ohm(5, 1, 0);
    const Circuit looped(own.netlist);
    CHECK(names(finding(looped, DiagnosisKind::Contradictory), loop));
    checkFinite(looped, own.netlist);
}

TEST_CASE("two sources in conflict, two in agreement") {
    Hand hand;
    const Key low = hand.volt(12, 1, 0), high = hand.volt(24, 1, 0), load = hand.ohm(9, 1, 0);
    const Circuit conflict(hand.netlist);
    CHECK(closeRel(conflict.reading(load).voltage_V, 18.0, 1e-5, 0.0));
    CHECK(names(finding(conflict, DiagnosisKind::Contradictory), low));
    CHECK(names(finding(conflict, DiagnosisKind::Contradictory), high));

    Hand agreeing;
    const Key a = agreeing.volt(12, 1, 0), b = agreeing.volt(12, 1, 0);
    agreeing.ohm(6, 1, 0);
    const Circuit agreement(agreeing.netlist);
    CHECK(agreement.diagnoses().empty());
    CHECK(closeRel(agreement.reading(a).current_A, -1.0, 1e-6, 0.0)); // they share evenly
    CHECK(closeRel(agreement.reading(b).current_A, -1.0, 1e-6, 0.0));
}

TEST_CASE("rings of ideal joins share the current and need no explanation") {
    Hand hand;
    hand.volt(12, 1, 0);
    const Key ring[] = {hand.ohm(0, 1, 2), hand.ohm(0, 2, 3), hand.ohm(0, 3, 4), hand.ohm(0, 4, 1)};
    const Key load = hand.ohm(6, 3, 0); // opposite to the feed
    const Circuit circuit(hand.netlist);
    CHECK(circuit.diagnoses().empty());
    CHECK(closeRel(circuit.reading(load).current_A, 2.0, 1e-6, 0.0));
    CHECK(closeRel(circuit.reading(ring[0]).current_A, 1.0, 1e-6, 0.0));
    CHECK(closeRel(circuit.reading(ring[3]).current_A, -1.0, 1e-6, 0.0));
}

TEST_CASE("a current source with no way back gives nothing and is named") {
    Hand hand;
    const Key source = hand.add(CurrentSource{0, 1, 2.0});
    const Key inside = hand.ohm(5, 1, 2);
    hand.ohm(3, 3, 0);
    const Key on = hand.contact(2, 3, false);
    Circuit circuit(hand.netlist);
    run(circuit, 0.1);
    CHECK(std::fabs(circuit.reading(source).current_A) < 1e-9);
    CHECK(std::fabs(circuit.reading(inside).current_A) < 1e-9);
    CHECK(names(finding(circuit, DiagnosisKind::Contradictory), source));
    circuit.setContact(on, true);
    run(circuit, 0.1);
    CHECK(closeRel(circuit.reading(inside).current_A, 2.0, 1e-9, 0.0));
    CHECK(circuit.diagnoses().empty());
}

TEST_CASE("floating islands have a potential of their own, and say so") {
    Hand hand;
    hand.volt(24, 1, 0);
    const Key lit = hand.ohm(12, 1, 0);
    const Key adrift[] = {hand.ohm(5, 2, 3), hand.ohm(7, 3, 4), hand.add(Lamp{4, 2})};
    const Key alone = hand.ohm(1, 5, 6);
    Circuit circuit(hand.netlist);
    run(circuit, 0.1);
    CHECK(closeRel(circuit.reading(lit).current_A, 2.0, 1e-9, 0.0));
    CHECK(!circuit.voltage_V(1, 2));
    CHECK(!circuit.voltage_V(2, 5));
    CHECK(*circuit.voltage_V(2, 4) == 0.0);
    int islands = 0;
    for (const Diagnosis& f : circuit.diagnoses()) {
        REQUIRE(f.kind == DiagnosisKind::Floating);
        ++islands;
        CHECK(!names(&f, lit));
        if (!names(&f, alone))
            for (Key key : adrift)
                CHECK(names(&f, key));
    }
    CHECK(islands == 2);
}

TEST_CASE("opening the only switch leaves the load floating, closing it brings it back") {
    Hand hand;
    hand.volt(24, 1, 0);
    const Key on = hand.contact(1, 2, true), load = hand.ohm(12, 2, 3),
              off = hand.contact(3, 0, true);
    Circuit circuit(hand.netlist);
    CHECK(circuit.diagnoses().empty());
    circuit.setContact(on, false);
    run(circuit, 0.01); // its arc has gone out
    CHECK(closeRel(*circuit.voltage_V(1, 2), 24.0, 1e-9, 0.0));
    CHECK(circuit.diagnoses().empty()); // still tied to 0 V
    circuit.setContact(off, false);
    CHECK(names(finding(circuit, DiagnosisKind::Floating), load));
    run(circuit, 0.1);
    CHECK(circuit.reading(load).current_A == 0.0);
    circuit.setContact(on, true);
    circuit.setContact(off, true);
    run(circuit, 0.1);
    CHECK(closeRel(circuit.reading(load).current_A, 2.0, 1e-3, 0.0));
    CHECK(circuit.diagnoses().empty());
}

TEST_CASE("each part alone, shorted by itself, and across every other") {
    const std::size_t kinds = everything(0, 1).size();
    for (std::size_t k = 0; k < kinds; ++k) {
        CAPTURE(k);
        for (Node b : {Node(0), Node(1)}) {
            Netlist netlist;
            netlist.nodeCount = 2;
            netlist.elements.push_back({1, everything(0, b)[k]});
            Circuit circuit(netlist);
            run(circuit, 0.5);
            checkFinite(circuit, netlist);
            for (std::size_t other = 0; other < kinds; ++other) {
                CAPTURE(other);
                Netlist pair = netlist;
                pair.elements.push_back({2, everything(1, 0)[other]});
                Circuit both(pair);
                run(both, 0.5);
                checkFinite(both, pair);
                CHECK(finding(both, DiagnosisKind::DidNotSettle) == nullptr);
            }
        }
    }
}

TEST_CASE("a thousand batteries in a ring, half of them reversed, and two thousand cables") {
    Hand hand;
    const Node n = 1000;
    for (Node k = 0; k < n; ++k)
        hand.add(k % 2 == 0 ? Battery{k, (k + 1) % n} : Battery{(k + 1) % n, k});
    for (Node k = 0; k < n; ++k) {
        Cable spoke, across;
        spoke.a = k;
        spoke.b = n; // a hub
        spoke.length_m = 5.0 + k % 7;
        across.a = k;
        across.b = (k * 7 + 3) % n;
        across.length_m = 3.0;
        hand.add(spoke);
        hand.add(across);
    }
    Circuit circuit(hand.netlist);
    run(circuit, 0.2, 0.2);
    checkFinite(circuit, hand.netlist);
}

TEST_CASE("a circuit that rings too fast to be followed says so, also when looked at before") {
    Hand hand;
    const Key cap = hand.farad(1e-9, 1, 0, 10.0);
    hand.henry(10e-6, 1, 0, 1e-3);
    Circuit circuit(hand.netlist);
    CHECK(circuit.diagnoses().empty());
    run(circuit, 0.05);
    const double v = circuit.reading(cap).voltage_V;
    CHECK(std::fabs(v) <= 10.0);
    REQUIRE(circuit.diagnoses().size() == 1);
    CHECK(circuit.diagnoses().front().kind == DiagnosisKind::DidNotSettle);
}

} // namespace loom::circuit

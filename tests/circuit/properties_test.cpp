// SPDX-License-Identifier: MIT
// What must not matter: which way round everything is, whether a cable is one or two, in which order
// a bench was built.
#include "network_hand.h"

#include <algorithm>
#include <doctest/doctest.h>

namespace loom::circuit {
namespace {

Cable cable(Node a, Node b, double mm2, double metres) {
    Cable c;
    c.a = a;
    c.b = b;
    c.area_m2 = mm2 * 1e-6;
    c.length_m = metres;
    return c;
}

// Two batteries, cables, a fuse, a switch, a motor with a lamp and a horn beside it.
Hand heavyLoop() {
    Hand hand;
    hand.add(Battery{1, 0});
    hand.add(Battery{2, 1});
    hand.add(Fuse{2, 3, FuseStyle::Strip, 50.0, 1.1e-3});
    hand.contact(3, 4, false);
    hand.add(cable(4, 5, 6.0, 1.2));
    Motor motor;
    motor.a = 5;
    motor.b = 6;
    hand.add(motor);
    hand.add(cable(6, 0, 6.0, 1.2));
    hand.add(Lamp{4, 0});
    hand.ohm(9.6, 4, 0);
    return hand;
}

constexpr Key kSwitch = 4, kMotor = 6;

// The same bench with every part the other way round, so that all currents run backwards.
Netlist reversed(Netlist netlist) {
    for (Element& e : netlist.elements) {
        if (auto* b = std::get_if<Battery>(&e.part)) std::swap(b->plus, b->minus);
        if (auto* d = std::get_if<Diode>(&e.part)) std::swap(d->anode, d->cathode);
    }
    return netlist;
}

std::vector<Reading> readings(const Circuit& c, std::size_t count) {
    std::vector<Reading> all;
    for (Key key = 1; key <= count; ++key)
        all.push_back(c.reading(key));
    return all;
}

} // namespace

TEST_CASE("turning the whole bench round changes signs only") {
    const Netlist plain = heavyLoop().netlist;
    Circuit one(plain), other(reversed(plain));
    for (double seconds : {0.003, 0.05, 0.5, 2.0}) {
        if (seconds < 0.01)
            for (Circuit* c : {&one, &other})
                c->setContact(kSwitch, true);
        const std::vector<Event> a = run(one, seconds, seconds), b = run(other, seconds, seconds);
        REQUIRE(a.size() == b.size());
        for (std::size_t k = 0; k < a.size(); ++k)
            CHECK(std::fabs(a[k].time_s - b[k].time_s) < 1e-6);
        const auto x = readings(one, plain.elements.size()),
                   y = readings(other, plain.elements.size());
        for (std::size_t k = 0; k < x.size(); ++k) {
            CAPTURE(k);
            const bool battery = k < 2; // its own sign goes round with it
            const double sign = battery ? 1.0 : -1.0;
            CHECK(closeRel(y[k].current_A, sign * x[k].current_A, 1e-9, 1e-12));
            CHECK(closeRel(y[k].voltage_V, sign * x[k].voltage_V, 1e-9, 1e-12));
            CHECK(closeRel(y[k].speed_rad_s, -x[k].speed_rad_s, 1e-9, 1e-12));
            CHECK(closeRel(y[k].temp_K, x[k].temp_K, 1e-12, 0.0));
        }
    }
}

TEST_CASE("a cable split into two equal parts changes nothing") {
    Hand whole = heavyLoop(), split = heavyLoop();
    auto& first = std::get<Cable>(split.netlist.elements[4].part);
    Cable second = first;
    first.length_m = second.length_m = 0.6;
    first.b = second.a = split.netlist.nodeCount;
    // One end at each side, and none between.
    first.endB.resistance_ohm = second.endA.resistance_ohm = 0.0;
    split.add(second);
    Circuit a(whole.netlist), b(split.netlist);
    for (Circuit* c : {&a, &b})
        c->setContact(kSwitch, true);
    for (int k = 0; k < 20; ++k) {
        run(a, 0.05);
        run(b, 0.05);
        const Reading x = a.reading(kMotor), y = b.reading(kMotor);
        CHECK(closeRel(y.current_A, x.current_A, 1e-4, 1e-4));
        CHECK(closeRel(y.speed_rad_s, x.speed_rad_s, 1e-4, 1e-4));
        CHECK(closeRel(b.reading(5).temp_K, a.reading(5).temp_K, 1e-6, 0.0));
        CHECK(closeRel(2.0 * b.reading(5).voltage_V, a.reading(5).voltage_V, 1e-4, 1e-9));
    }
}

TEST_CASE("the order of building and the numbers of nodes do not matter") {
    const Netlist plain = heavyLoop().netlist;
    Netlist shuffled = plain;
    std::reverse(shuffled.elements.begin(), shuffled.elements.end());
    std::rotate(shuffled.elements.begin(), shuffled.elements.begin() + 3, shuffled.elements.end());
    const Node last = plain.nodeCount - 1;
    const auto turn = [&](Node& n) { n = last - n; };
    for (Element& e : shuffled.elements)
        std::visit(
            [&](auto& p) {
                using P = std::decay_t<decltype(p)>;
                if constexpr (std::is_same_v<P, Battery>) {
                    turn(p.plus);
                    turn(p.minus);
                } else if constexpr (std::is_same_v<P, Cable> || std::is_same_v<P, Motor> ||
                                     std::is_same_v<P, Lamp> || std::is_same_v<P, Fuse> ||
                                     std::is_same_v<P, Contact> || std::is_same_v<P, Resistor>) {
                    turn(p.a);
                    turn(p.b);
                }
            },
            e.part);
    Circuit a(plain), b(shuffled);
    for (Circuit* c : {&a, &b}) {
        c->setContact(kSwitch, true);
        run(*c, 0.7);
    }
    const auto x = readings(a, plain.elements.size()), y = readings(b, plain.elements.size());
    for (std::size_t k = 0; k < x.size(); ++k) {
        CAPTURE(k);
        CHECK(closeRel(y[k].current_A, x[k].current_A, 1e-6, 1e-9));
        CHECK(closeRel(y[k].voltage_V, x[k].voltage_V, 1e-6, 1e-9));
        CHECK(closeRel(y[k].temp_K, x[k].temp_K, 1e-8, 0.0));
    }
}

TEST_CASE("energy: what the batteries gave is what the rest took, step by step") {
    Circuit circuit(heavyLoop().netlist);
    circuit.setContact(kSwitch, true);
    for (int k = 0; k < 50; ++k) {
        run(circuit, 0.02);
        double given_W = 0.0, taken_W = 0.0;
        for (Key key = 1; key <= 9; ++key)
            (key <= 2 ? given_W : taken_W) += circuit.reading(key).power_W;
        CHECK(closeRel(taken_W, given_W, 1e-9, 1e-9));
    }
}

} // namespace loom::circuit

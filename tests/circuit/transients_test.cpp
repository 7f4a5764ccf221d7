// SPDX-License-Identifier: MIT
// Transients with closed forms (rows N30-N47). At the usual tolerance every listed value lies
// within 1e-4 of full scale (the reference asks for 1e-3); what remains is the integrator's error,
// whose order is tested in stepper_test.cpp.
#include "network_hand.h"

#include <doctest/doctest.h>

namespace loom::circuit {
namespace {

constexpr double kOfFullScale = 1e-4;
constexpr double kNoResistance_ohm = 0.0;

// Moves on to each time and gives its reading.
class Playing {
public:
    explicit Playing(const Hand& hand) : circuit(hand.netlist) {}

    Reading at(double time_s, Key key) {
        circuit.advance(time_s - circuit.time_s(), events);
        return circuit.reading(key);
    }

    Circuit circuit;
    std::vector<Event> events;
};

bool near(double found, double expected, double fullScale) {
    return std::fabs(found - expected) <= kOfFullScale * fullScale;
}

} // namespace

TEST_CASE("N30 LEC time: 15 V, 10 kohm, 100 uF") {
    Hand hand;
    hand.volt(15, 1, 0);
    const Key r = hand.ohm(10e3, 1, 2), c = hand.farad(100e-6, 2, 0);
    Playing play(hand);
    for (double t : {0.5, 1.0, 2.0, 3.0, 5.0, 7.25}) {
        CAPTURE(t);
        CHECK(near(play.at(t, c).voltage_V, 15.0 * (1.0 - std::exp(-t)), 15.0));
        CHECK(near(play.at(t, r).current_A, 1.5e-3 * std::exp(-t), 1.5e-3));
    }
}

TEST_CASE("N31 LEC time: 15 V, 1 ohm, 1 H") {
    Hand hand;
    hand.volt(15, 1, 0);
    hand.ohm(1, 1, 2);
    const Key l = hand.henry(1, 2, 0);
    Playing play(hand);
    for (double t : {1.0, 2.0, 3.5, 5.0, 10.0}) {
        CAPTURE(t);
        const Reading now = play.at(t, l);
        CHECK(near(now.current_A, 15.0 * (1.0 - std::exp(-t)), 15.0));
        CHECK(near(now.voltage_V, 15.0 * std::exp(-t), 15.0));
    }
}

TEST_CASE("N32 LEC time: 1 ohm of 3 shorted at 0: 5 A rise to 7.5 A") {
    Hand hand;
    hand.volt(15, 1, 0);
    hand.ohm(2, 1, 2);
    hand.ohm(1, 2, 3);
    const Key shorting = hand.contact(2, 3, false, 1e-6);
    const Key l = hand.henry(1, 3, 0, kNoResistance_ohm, 5.0);
    Playing play(hand);
    play.circuit.setContact(shorting, true);
    CHECK(near(play.circuit.reading(l).current_A, 5.0, 7.5));
    CHECK(near(play.circuit.reading(l).voltage_V, 5.0, 5.0)); // printed
    for (double t : {0.1, 0.25, 0.5, 1.0, 2.0, 3.0}) {
        CAPTURE(t);
        CHECK(near(play.at(t, l).current_A, 7.5 - 2.5 * std::exp(-2.0 * t), 7.5));
        CHECK(near(play.at(t, l).voltage_V, 5.0 * std::exp(-2.0 * t), 5.0));
    }
}

TEST_CASE("N33 LEC time: 1.3325 V after 60 ms") {
    Hand hand;
    hand.volt(20, 1, 0);
    const Key closing = hand.contact(1, 4, false, 1e-6);
    hand.ohm(2e3, 4, 2);
    hand.ohm(500, 2, 3);
    hand.ohm(3e3, 3, 0);
    const Key c = hand.farad(100e-6, 2, 3);
    Playing play(hand);
    play.circuit.setContact(closing, true);
    const double final_V = 20.0 * 500.0 / 5500.0, tau = 100e-6 / (1.0 / 500 + 1.0 / 5000);
    CHECK(closeRel(tau, 45.45e-3, 1e-3, 0.0));
    CHECK(near(play.at(0.06, c).voltage_V, final_V * (1.0 - std::exp(-0.06 / tau)), final_V));
    CHECK(closeRel(play.circuit.reading(c).voltage_V, 1.3325, 5e-3, 0.0));
}

TEST_CASE("N34 University Physics m58457: 80 V after 8.13 s; N36: 498 V after 24.0 ms") {
    Hand charging;
    charging.volt(100, 1, 0);
    charging.ohm(101, 1, 2);
    const Key c = charging.farad(50e-3, 2, 0);
    CHECK(near(Playing(charging).at(5.05 * std::log(5.0), c).voltage_V, 80.0, 100.0));

    Hand emptying;
    const Key d = emptying.farad(8e-6, 1, 0, 10e3);
    emptying.ohm(1e3, 1, 0);
    CHECK(near(Playing(emptying).at(24e-3, d).voltage_V, 10e3 * std::exp(-3.0), 10e3));
}

TEST_CASE("N35 University Physics m58457: 10.00 V of 12.00 V at 10.00 s") {
    const double ohm = 10.0 / (10e-3 * std::log(6.0));
    CHECK(closeRel(ohm, 558.11, 1e-4, 0.0));
    for (const auto& [r, t] : {std::pair{ohm, 10.0}, std::pair{10e3, 179.18}}) {
        Hand hand;
        hand.volt(12, 1, 0);
        hand.ohm(r, 1, 2);
        const Key c = hand.farad(10e-3, 2, 0);
        CHECK(
            near(Playing(hand).at(t, c).voltage_V, 12.0 * (1.0 - std::exp(-t / (r * 10e-3))), 12));
    }
}

TEST_CASE("N37 University Physics m58752: 2.0 V, 4.0 ohm, 4.0 H") {
    Hand hand;
    hand.volt(2, 1, 0);
    hand.ohm(4, 1, 2);
    const Key l = hand.henry(4, 2, 0);
    Playing play(hand);
    CHECK(near(play.at(2.0, l).current_A, 0.5 * (1.0 - std::exp(-2.0)), 0.5));
    CHECK(near(play.circuit.reading(l).voltage_V, 2.0 * std::exp(-2.0), 2.0));

    Hand falling; // to half after 0.69 s, energy to 1 % after 2.3 s
    const Key m = falling.henry(4, 1, 0, kNoResistance_ohm, 0.5);
    falling.ohm(4, 1, 0);
    Playing fall(falling);
    CHECK(near(fall.at(std::log(2.0), m).current_A, 0.25, 0.5));
    CHECK(near(fall.at(std::log(10.0), m).current_A, 0.05, 0.5));
}

TEST_CASE("N38 College Physics m42425: 7.50 mH, 3.00 ohm from 10.0 A; N41: half after 1.75 ms") {
    Hand hand;
    const Key l = hand.henry(7.5e-3, 1, 0, 3.0, 10.0); // its own resistance
    hand.ohm(kNoResistance_ohm, 1, 0);
    Playing play(hand);
    CHECK(near(play.at(5e-3, l).current_A, 10.0 * std::exp(-2.0), 10.0));
    CHECK(near(play.at(10e-3, l).current_A, 10.0 * std::exp(-4.0), 10.0));

    Hand half;
    const Key m = half.henry(0.25, 1, 0, kNoResistance_ohm, 1.0);
    half.ohm(0.25 * std::log(2.0) / 1.75e-3, 1, 0);
    CHECK(near(Playing(half).at(1.75e-3, m).current_A, 0.5, 1.0));
}

TEST_CASE("N39 University Physics m58752: a freewheel loop takes over 4.0 A") {
    Hand hand;
    hand.volt(20, 1, 0);
    const Key feeding = hand.contact(1, 2, true, 1e-6);
    hand.ohm(5, 2, 3);
    const Key l = hand.henry(4e-3, 3, 0, kNoResistance_ohm, 4.0);
    const Key loop = hand.contact(2, 0, false, 1e-6);
    Playing play(hand);
    // The change-over is to a 5 ohm loop: the 5 ohm there are the ones already in series.
    play.circuit.setContact(loop,
                            true); // shorts the source for an instant, as a make-before-break does
    play.circuit.setContact(feeding, false);
    const double i = play.at(0.4e-3, l).current_A;
    CHECK(near(i, 4.0 * std::exp(-0.5), 4.0)); // printed 2.4 A
    CHECK(near(5.0 * i, 12.13, 20.0));         // printed 12 V
}

TEST_CASE("N40 University Physics m58752: closing and opening beside an inductor") {
    Hand hand;
    hand.volt(50, 1, 0);
    const Key on = hand.contact(1, 4, false, 1e-6);
    hand.ohm(10, 4, 2);
    const Key r2 = hand.ohm(19.4, 2, 0);
    hand.ohm(19.4, 2, 3);
    const Key l = hand.henry(2e-3, 3, 0);
    Playing play(hand);
    play.circuit.setContact(on, true);
    CHECK(near(play.circuit.reading(r2).current_A, 50.0 / 29.4, 2.54)); // printed 1.7 A
    CHECK(near(play.circuit.reading(l).current_A, 0.0, 2.54));
    const double steady_A = 50.0 / (10.0 + 9.7);
    CHECK(near(play.at(0.01, on).current_A, steady_A, 2.54)); // printed 2.54 A
    CHECK(near(play.circuit.reading(l).current_A, 0.5 * steady_A, 2.54));
    play.circuit.setContact(on, false);
    // The source's current ends within the arc's few volts; the coil's goes on through both resistors.
    CHECK(near(play.circuit.reading(l).current_A, 0.5 * steady_A, 2.54)); // printed 1.27 A
}

TEST_CASE("N42 University Physics m58752: 12 V, 5.0 ohm, 20 mH at two time constants") {
    Hand hand;
    hand.volt(12, 1, 0);
    const Key r = hand.ohm(5, 1, 2), l = hand.henry(20e-3, 2, 0);
    Playing play(hand);
    CHECK(near(play.at(8e-3, l).current_A, 2.4 * (1.0 - std::exp(-2.0)), 2.4));
    CHECK(near(play.circuit.reading(l).voltage_V, 12.0 * std::exp(-2.0), 12.0));
    CHECK(near(play.circuit.reading(r).voltage_V, 12.0 * (1.0 - std::exp(-2.0)), 12.0));
}

TEST_CASE("N43 University Physics m58756: overdamped, 3.0 mC on 6.0 uF give up 0.75 J") {
    const double l = 5e-3, c = 6e-6, r = 200.0;
    Hand hand;
    const Key cap = hand.farad(c, 1, 0, 500.0);
    hand.ohm(r, 1, 2);
    const Key coil = hand.henry(l, 2, 0);
    CHECK(closeRel(0.5 * c * 500.0 * 500.0, 0.75, 1e-12, 0.0));
    Playing play(hand);
    const double half = r / (2 * l), root = std::sqrt(half * half - 1.0 / (l * c));
    const double slow = -half + root, fast = -half - root;
    for (double t : {0.1e-3, 0.5e-3, 1e-3, 3e-3, 6e-3}) {
        CAPTURE(t);
        const double v =
            500.0 * (slow * std::exp(fast * t) - fast * std::exp(slow * t)) / (slow - fast);
        CHECK(near(play.at(t, cap).voltage_V, v, 500.0));
    }
    CHECK(near(play.at(0.1, coil).current_A, 0.0, 1.0));
}

TEST_CASE("N44, N45 University Physics m58756: ringing") {
    struct Row {
        double l, c, r, v0, t;
    };

    // N44 at 6.931 ms, where the amplitude has halved; N45 after five cycles; its second circuit.
    const Row rows[] = {{10e-3, 1.5e-6, 2.0, 10.0, 6.931e-3},
                        {10e-3, 3e-6, 7.0, 8.0 / 3.0, 5 * 1.0903e-3},
                        {5e-3, 500e-6, 5.0, 1.0, 5e-3}};
    for (const Row& row : rows) {
        CAPTURE(row.l);
        CAPTURE(row.c);
        Hand hand;
        const Key c = hand.farad(row.c, 1, 0, row.v0);
        hand.henry(row.l, 1, 0, row.r);
        const double a = row.r / (2 * row.l), w = std::sqrt(1.0 / (row.l * row.c) - a * a);
        const double v =
            row.v0 * std::exp(-a * row.t) * (std::cos(w * row.t) + a / w * std::sin(w * row.t));
        // Dozens of turns of phase: 0.1 % of full scale, as the reference asks.
        CHECK(std::fabs(Playing(hand).at(row.t, c).voltage_V - v) <= 1e-3 * row.v0);
    }
}

TEST_CASE("N46 University Physics m58756: 0 A, then 2.4 A") {
    Hand hand;
    hand.volt(12, 1, 0);
    const Key on = hand.contact(1, 2, false, 1e-6);
    hand.ohm(5, 2, 3);
    const Key l1 = hand.henry(1, 3, 4);
    hand.ohm(3, 4, 0);
    hand.henry(2, 4, 0);
    Playing play(hand);
    play.circuit.setContact(on, true);
    CHECK(near(play.circuit.reading(l1).current_A, 0.0, 2.4));
    CHECK(near(play.at(60.0, l1).current_A, 2.4, 2.4));
}

TEST_CASE("N47 University Physics m58756: a coil cut off does not give megavolts, it sparks") {
    // 25.0 H carrying 100 A: the book notes 2.50e6 V as unreasonable. Here the contact arcs.
    Hand hand;
    hand.volt(100, 1, 0);
    const Key on = hand.contact(1, 2, true, 1e-6);
    const Key l = hand.henry(25, 2, 0, 1.0, 100.0);
    Playing play(hand);
    play.circuit.setContact(on, false);
    CHECK(near(play.circuit.reading(l).current_A, 100.0, 100.0));
    double highest_V = 0.0;
    for (int k = 0; k < 4000; ++k) {
        play.circuit.advance(1e-3, play.events);
        highest_V = std::fmax(highest_V, std::fabs(play.circuit.reading(l).voltage_V));
    }
    CHECK(highest_V > 500.0); // R14: 500-2000 V
    CHECK(highest_V < 2000.0);
    CHECK(std::fabs(play.at(30.0, l).current_A) < 1e-6);
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
// The integrator: its order, its events in time, its economy.
#include "network_hand.h"

#include <cstdlib>
#include <doctest/doctest.h>
#include <new>

namespace {

bool counting = false;
std::size_t allocations = 0;

} // namespace

// The whole test program counts its allocations, when asked to.
void* operator new(std::size_t size) {
    if (counting) ++allocations;
    void* p = std::malloc(size == 0 ? 1 : size);
    if (p == nullptr) std::abort();
    return p;
}

void operator delete(void* p) noexcept {
    std::free(p);
}

void operator delete(void* p, std::size_t) noexcept {
    std::free(p);
}

namespace loom::circuit {
namespace {

// Error of a ringing circuit's voltage after 10 ms at a tolerance, and what it took.
std::pair<double, std::uint64_t> ringingError(double tolerance) {
    const double l = 10e-3, c = 10e-6, r = 4.0, t = 10e-3;
    Hand hand;
    const Key cap = hand.farad(c, 1, 0, 10.0);
    hand.henry(l, 1, 0, r);
    Circuit circuit(hand.netlist, tolerance);
    run(circuit, t, t);
    const double a = r / (2 * l), w = std::sqrt(1.0 / (l * c) - a * a);
    const double v = 10.0 * std::exp(-a * t) * (std::cos(w * t) + a / w * std::sin(w * t));
    return {std::fabs(circuit.reading(cap).voltage_V - v), circuit.effort().steps};
}

Hand relayOn(double volts) {
    Hand hand;
    hand.volt(volts, 1, 0);
    hand.contact(1, 2, false, 1e-6);
    Relay relay{2, 0, 3, 4, 5};
    hand.add(relay);
    return hand;
}

} // namespace

TEST_CASE("tighter tolerances converge at the method's order") {
    // Second order: the error goes as the square of the step, the step as the cube root of the
    // tolerance. From 64 to 1/64, steps x 16 and error / 256 in the limit.
    const auto [coarse, few] = ringingError(64.0);
    const auto [usual, more] = ringingError(1.0);
    const auto [fine, many] = ringingError(1.0 / 64.0);
    CHECK(double(more) / double(few) > 3.0);
    CHECK(double(more) / double(few) < 5.0);
    CHECK(double(many) / double(more) > 3.2);
    CHECK(double(many) / double(more) < 4.8);
    CHECK(coarse / usual > 8.0);
    CHECK(coarse / usual < 32.0);
    CHECK(usual / fine > 10.0);
    CHECK(usual / fine < 24.0);
    const double order = std::log(usual / fine) / std::log(double(many) / double(more));
    CHECK(order > 1.85);
    CHECK(order < 2.15);
}

TEST_CASE("events lie within a microsecond of their instant") {
    // Pull-in: the current reaches 16.8 V / 320 ohm at -L/R ln(1 - 16.8/V); the coil is cold.
    for (double volts : {18.0, 24.0, 30.0}) {
        CAPTURE(volts);
        Circuit circuit(relayOn(volts).netlist);
        std::vector<Event> events;
        circuit.advance(0.0123, events);
        circuit.setContact(2, true);
        circuit.advance(0.1, events);
        const Event* in = firstOf(events, EventKind::PulledIn);
        REQUIRE(in != nullptr);
        const double expected_s = 0.0123 - 0.6 / 320.0 * std::log(1.0 - 16.8 / volts) + 2.6e-3;
        // At 18 V the current creeps up to its limit at 2 A/s: a microampere is half a microsecond.
        CHECK(std::fabs(in->time_s - expected_s) < (volts < 20.0 ? 2e-6 : 1e-6));
    }
    // A motor coasting to rest: J dw/dt = -T, w(0) from its back-emf; 1 kohm meter, so no current.
    Hand hand;
    hand.volt(24, 1, 0);
    hand.contact(1, 2, true, 1e-6);
    Motor motor;
    motor.a = 2;
    hand.add(motor);
    Circuit circuit(hand.netlist);
    std::vector<Event> events;
    circuit.advance(3.0, events);
    circuit.setContact(2, false);
    circuit.advance(5e-3, events); // the arc is out and no current flows
    const double speed = circuit.reading(3).speed_rad_s, from_s = circuit.time_s();
    CHECK(circuit.reading(3).current_A == 0.0);
    circuit.advance(20.0, events);
    const Event* stopped = firstOf(events, EventKind::MotorStopped);
    REQUIRE(stopped != nullptr);
    CHECK(std::fabs(stopped->time_s - (from_s + 0.004 * speed / 0.10)) < 1e-6);
}

TEST_CASE("a sleeve's and a fuse's instants do not move when the tolerance is tightened") {
    const auto play = [](double tolerance) {
        Hand hand;
        hand.volt(24, 1, 0);
        Cable cable;
        cable.a = 1;
        cable.b = 2;
        cable.area_m2 = 0.75e-6;
        cable.length_m = 0.2;
        hand.add(cable);
        hand.ohm(0.4, 2, 3);
        Fuse fuse{3, 0, FuseStyle::Strip, 25.0, 2.2e-3};
        hand.add(fuse);
        Circuit circuit(hand.netlist, tolerance);
        std::vector<Event> events;
        circuit.advance(100.0, events);
        return events;
    };
    const std::vector<Event> usual = play(1.0), fine = play(1e-3);
    REQUIRE(usual.size() == fine.size());
    REQUIRE(firstOf(usual, EventKind::FuseMelted) != nullptr);
    REQUIRE(firstOf(usual, EventKind::SleeveSoftened) != nullptr);
    for (std::size_t k = 0; k < usual.size(); ++k) {
        CHECK(usual[k].kind == fine[k].kind);
        CHECK(std::fabs(usual[k].time_s - fine[k].time_s) < 2e-5);
    }
}

TEST_CASE("events come in the order of time") {
    Circuit circuit(relayOn(24.0).netlist);
    std::vector<Event> events;
    for (int k = 0; k < 20; ++k) {
        circuit.setContact(2, k % 2 == 0);
        circuit.advance(0.013, events);
    }
    CHECK(events.size() >= 20);
    for (std::size_t k = 1; k < events.size(); ++k)
        CHECK(events[k].time_s >= events[k - 1].time_s);
}

TEST_CASE("the step loop allocates nothing") {
    Hand hand = relayOn(24.0);
    hand.add(Battery{6, 0});
    hand.contact(6, 3, true);
    Motor motor;
    motor.a = 4;
    hand.add(motor);
    hand.add(Lamp{6, 0});
    hand.add(Diode{0, 2});
    Cable cable;
    cable.a = 6;
    cable.b = 7;
    hand.add(cable);
    Fuse fuse;
    fuse.a = 7;
    hand.add(fuse);
    Circuit circuit(hand.netlist);
    std::vector<Event> events;
    events.reserve(1000);
    circuit.advance(0.01, events);
    const std::uint64_t before = circuit.effort().steps;
    allocations = 0;
    counting = true;
    for (int k = 0; k < 100;
         ++k) { // pulls in, starts the motor, blows the fuse, falls, starts again
        circuit.setContact(2, k / 20 % 2 == 0);
        circuit.advance(0.01, events);
    }
    counting = false;
    CHECK(circuit.effort().steps - before > 500);
    CHECK(firstOf(events, EventKind::FuseMelted) != nullptr);
    CHECK(allocations == 0);
}

TEST_CASE("where nothing happens, time costs nothing") {
    Hand hand = relayOn(24.0);
    Circuit circuit(hand.netlist);
    run(circuit, 60.0, 1.0);
    const std::uint64_t before = circuit.effort().steps;
    run(circuit, 3600.0); // 360,000 slices of 10 ms
    CHECK(circuit.effort().steps - before < 1000);
    CHECK(circuit.quiet());
}

TEST_CASE("a capacitor across a cable that heats follows it in few steps") {
    // Its own time constant is 40 ns, the cable heats over seconds: nothing asks for short steps.
    Hand hand;
    hand.add(Battery{1, 0});
    Cable cable;
    cable.a = 1;
    cable.b = 0;
    cable.area_m2 = 2.5e-6;
    cable.length_m = 0.6;
    const Key hot = hand.add(cable);
    hand.contact(1, 2, true);
    const Key cap = hand.farad(2e-6, 2, 0);
    Circuit circuit(hand.netlist);
    run(circuit, 0.2, 0.2);
    CHECK(circuit.reading(hot).temp_K > 353.15);
    CHECK(circuit.reading(cap).voltage_V ==
          doctest::Approx(circuit.reading(hot).voltage_V).epsilon(1e-6));
    CHECK(circuit.effort().steps < 500);
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
// What is carried over when the wiring changes under power, and that equal calls give equal bits.
#include "network_hand.h"

#include <doctest/doctest.h>

namespace loom::circuit {
namespace {

// A supply, a switch, a relay that drives a motor, a lamp, through cables: something of everything.
Hand vehicle() {
    Hand hand;
    hand.add(Battery{1, 0});
    hand.add(Battery{2, 1});
    hand.contact(2, 3, true);
    hand.contact(3, 4, false);
    Relay relay{4, 0, 5, 3, 0};
    hand.add(relay);
    hand.add(Motor{5, 0});
    hand.contact(3, 6, true);
    hand.add(Lamp{6, 0});
    hand.add(Diode{0, 4});
    Cable cable;
    cable.a = 3;
    cable.b = 7;
    hand.add(cable);
    hand.add(Fuse{7, 8});
    hand.ohm(4.8, 8, 0);
    return hand;
}

constexpr Key kBattery = 1, kButton = 4, kMotor = 6, kLamp = 8, kCable = 10, kFuse = 11, kHorn = 12;

} // namespace

TEST_CASE("rewiring to the same network changes nothing") {
    Circuit plain(vehicle().netlist), rewired(vehicle().netlist);
    for (Circuit* c : {&plain, &rewired}) {
        c->setContact(kButton, true);
        run(*c, 0.3);
    }
    rewired.rewire(vehicle().netlist); // does not know the button held down: it is let go
    rewired.setContact(kButton, true);
    for (Key key : {kBattery, kMotor, kLamp, kCable, kFuse, kHorn}) {
        CAPTURE(key);
        const Reading a = plain.reading(key), b = rewired.reading(key);
        CHECK(closeRel(b.current_A, a.current_A, 1e-5, 1e-6));
        CHECK(closeRel(b.temp_K, a.temp_K, 1e-6, 0.0));
        CHECK(closeRel(b.speed_rad_s, a.speed_rad_s, 1e-6, 0.0));
        CHECK(closeRel(b.charge, a.charge, 1e-9, 0.0));
        CHECK(closeRel(b.melting, a.melting, 1e-5, 0.0));
    }
    run(plain, 0.3);
    run(rewired, 0.3);
    CHECK(
        closeRel(rewired.reading(kMotor).speed_rad_s, plain.reading(kMotor).speed_rad_s, 1e-4, 0));
}

TEST_CASE(
    "heat, charge, current, speed and armature stay with the key; a new part is cold and still") {
    Hand hand = vehicle();
    std::get<Contact>(hand.netlist.elements[3].part).closed = true;
    Circuit circuit(hand.netlist);
    run(circuit, 2.0);
    const Reading before = circuit.reading(kMotor);
    CHECK(before.speed_rad_s > 300.0);
    CHECK(circuit.reading(kLamp).temp_K > 2700.0);

    Hand longer = hand; // another lamp and cable are added, the horn taken away
    Cable cable;
    cable.a = 3;
    cable.b = longer.netlist.nodeCount++;
    longer.netlist.elements.push_back({100, cable});
    longer.netlist.elements.push_back({101, Lamp{cable.b, 0}});
    longer.netlist.elements.erase(longer.netlist.elements.begin() + (kHorn - 1));
    circuit.rewire(longer.netlist);
    CHECK(closeRel(circuit.reading(kMotor).speed_rad_s, before.speed_rad_s, 1e-6, 0.0));
    CHECK(closeRel(circuit.reading(kMotor).temp_K, before.temp_K, 1e-6, 0.0));
    CHECK(circuit.reading(kLamp).temp_K > 2700.0);
    CHECK(closeRel(circuit.reading(101).temp_K, 293.15, 1e-3, 0.0));
    CHECK(circuit.reading(101).current_A > 8.0); // a cold filament
    CHECK(circuit.reading(5).pulledIn);
    CHECK(circuit.reading(kHorn).current_A == 0.0);
    run(circuit, 1.0);
    CHECK(circuit.reading(101).brightness > 0.9);

    longer.netlist.elements[kMotor - 1].part = Lamp{5, 0}; // another kind under the same key
    circuit.rewire(longer.netlist);
    CHECK(circuit.reading(kMotor).speed_rad_s == 0.0);
}

TEST_CASE("a cable pulled off a live coil lets its current go by a spark") {
    Hand hand;
    hand.volt(24, 1, 0);
    Cable cable;
    cable.a = 1;
    cable.b = 2;
    hand.add(cable);
    Relay relay{2, 0, 3, 4, 5};
    const Key key = hand.add(relay);
    Circuit circuit(hand.netlist);
    run(circuit, 0.1);
    hand.netlist.elements.erase(hand.netlist.elements.begin() + 1);
    circuit.rewire(hand.netlist);
    CHECK(circuit.reading(key).current_A == 0.0);    // nothing can leave it
    CHECK(circuit.reading(key).voltage_V < -1000.0); // so it sparks over at its own terminals
    const std::vector<Event> events = run(circuit, 0.1);
    const Event* kick = firstOf(events, EventKind::CoilKicked);
    REQUIRE(kick != nullptr);
    CHECK(kick->first > 500.0); // R14
    CHECK(kick->first < 2000.0);
    CHECK(std::fabs(circuit.reading(key).current_A) < 1e-9);
    CHECK(!circuit.reading(key).pulledIn);
}

TEST_CASE("equal calls give equal hashes; looking does not change them") {
    const auto play = [](bool looking) {
        Circuit circuit(vehicle().netlist);
        std::vector<Event> events;
        std::vector<std::uint64_t> hashes;
        const auto look = [&] {
            if (!looking) return;
            for (Key key = 1; key <= kHorn; ++key)
                (void)circuit.reading(key);
            (void)circuit.voltage_V(1, 5);
            (void)circuit.diagnoses();
            (void)circuit.quiet();
        };
        for (int k = 0; k < 300; ++k) {
            look();
            if (k % 40 == 10) {
                circuit.setContact(kButton, k % 80 == 10);
                look();
                circuit.setContact(7, k % 3 == 0);
            }
            if (k == 150) circuit.setJammed(kMotor, true);
            if (k == 180) circuit.rewire(vehicle().netlist);
            look();
            circuit.advance(0.01, events);
            hashes.push_back(circuit.stateHash());
        }
        return hashes;
    };
    const auto first = play(false), again = play(false), looked = play(true);
    CHECK(first == again);
    CHECK(first == looked);
    CHECK(first.front() != first.back());
}

TEST_CASE("what is done to a circuit shows in its hash") {
    Circuit a(vehicle().netlist), b(vehicle().netlist);
    CHECK(a.stateHash() == b.stateHash());
    a.setContact(kButton, true);
    CHECK(a.stateHash() != b.stateHash());
}

TEST_CASE("slices do not matter: events and readings are those of one long advance") {
    const auto play = [](double kSlice_s) {
        Circuit circuit(vehicle().netlist);
        circuit.setContact(kButton, true);
        std::vector<Event> events = run(circuit, 1.0, kSlice_s);
        return std::pair{events, circuit.reading(kMotor)};
    };
    const auto [whole, motor] = play(1.0);
    CHECK(whole.size() >= 2);
    for (double slice : {0.1, 0.01, 0.001}) {
        CAPTURE(slice);
        const auto [events, sliced] = play(slice);
        REQUIRE(events.size() == whole.size());
        for (std::size_t k = 0; k < events.size(); ++k) {
            CHECK(events[k].kind == whole[k].kind);
            CHECK(events[k].time_s == whole[k].time_s);
        }
        CHECK(closeRel(sliced.speed_rad_s, motor.speed_rad_s, 1e-9, 0.0));
        CHECK(closeRel(sliced.current_A, motor.current_A, 1e-9, 0.0));
    }
}

TEST_CASE("quiet means that nothing is to be seen") {
    Hand hand = vehicle();
    for (std::size_t k : {2u, 6u})
        std::get<Contact>(hand.netlist.elements[k].part).closed = false;
    Circuit circuit(hand.netlist);
    run(circuit, 0.1);
    CHECK(circuit.quiet());
    circuit.setContact(3, true); // the horn's branch carries 5 A
    run(circuit, 0.1);
    CHECK(!circuit.quiet());
    circuit.setContact(3, false);
    run(circuit, 1.0);
    CHECK(!circuit.quiet()); // still warm
    run(circuit, 3600.0, 60.0);
    CHECK(circuit.quiet());
}

TEST_CASE(
    "a contact that has just closed on a coil is not quiet, though hardly anything flows yet") {
    Hand hand;
    hand.add(Battery{1, 0});
    const Key key = hand.contact(1, 2, false);
    hand.add(Relay{2, 0, 3, 4, 5, 80.0, 0.3, 8.4, 1.2});
    for (const bool byRewiring : {false, true}) {
        CAPTURE(byRewiring);
        Circuit circuit(hand.netlist);
        run(circuit, 1.0);
        REQUIRE(circuit.quiet());
        if (byRewiring) {
            Hand joined = hand;
            std::get<Contact>(joined.netlist.elements[1].part).closed = true;
            circuit.rewire(joined.netlist);
        } else {
            circuit.setContact(key, true);
        }
        CHECK_FALSE(circuit.quiet());
        CHECK(firstOf(run(circuit, 0.1), EventKind::PulledIn) != nullptr);
    }
}

} // namespace loom::circuit

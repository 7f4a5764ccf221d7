// SPDX-License-Identifier: MIT
// Properties that hold whatever the values: turned round, split in two, built in another order, stepped
// finer.
#include "problems/dice.h"
#include "rig.h"

#include <algorithm>

namespace loom::physics {
namespace {

using problems::Dice;

// A bench with something of everything that may be turned round: battery, fuse, switch, cables, relay
// with its diode, lamp, motor.
struct Everything : Rig {
    Key key = 0, battery = 0, fuse = 0, cable = 0, relay = 0, diode = 0, lamp = 0, motor = 0,
        coil = 0;

    explicit Everything(bool turned) {
        Battery b;
        b.plus = turned ? 0 : 1;
        b.minus = turned ? 1 : 0;
        b.full_V = 25.7;
        b.low_V = 24.0;
        battery = add(b);
        Fuse f;
        f.a = 1;
        f.b = 2;
        f.rating_A = 50; // rides out the motor's start
        f.cold_ohm = 2e-3;
        fuse = add(f);
        Cable c;
        c.a = 2;
        c.b = 3;
        cable = add(c);
        key = contact(3, 4, false);
        Relay r;
        r.coilA = 4;
        r.coilB = 0;
        r.common = 3;
        r.normallyOpen = 5;
        r.normallyClosed = 6; // leads nowhere: on 0 it would short the battery at rest
        relay = add(r);
        Diode d;
        d.anode = turned ? 4 : 0;
        d.cathode = turned ? 0 : 4;
        diode = add(d);
        Lamp l;
        l.a = 4;
        lamp = add(l);
        Motor m;
        m.a = 5;
        m.b = 0;
        m.viscous_Nms = 1e-4;
        motor = add(m);
        coil = henry(5e-3, 4, 0, 40.0);
    }

    void course() {
        start();
        until(0.01);
        circuit->setContact(key, true);
        until(0.5);
        circuit->setContact(key, false);
        until(0.7);
        circuit->setContact(key, true);
        until(30.0);
    }
};

} // namespace

TEST_CASE("the whole network turned round: signs change, nothing else") {
    Everything one(false), other(true);
    one.course();
    other.course();
    REQUIRE(one.events.size() == other.events.size());
    CHECK(one.events.size() >= 4); // started, pulled in, dropped out, pulled in
    CHECK_FALSE(one.see(one.fuse).open);
    CHECK(one.see(one.motor).speed_rad_s > 100.0);
    for (std::size_t k = 0; k < one.events.size(); ++k) {
        CAPTURE(k);
        CHECK(one.events[k].kind == other.events[k].kind);
        CHECK(one.events[k].time_s == other.events[k].time_s);
        CHECK_CLOSE(std::fabs(one.events[k].first), std::fabs(other.events[k].first), 1e-12, 0.0);
    }
    for (const Element& e : one.netlist.elements) {
        CAPTURE(e.key);
        const Reading a = one.see(e.key), b = other.see(e.key);
        const bool itself = e.key == one.battery || e.key == one.diode; // turned with it
        const double sign = itself ? 1.0 : -1.0;
        CHECK(a.voltage_V == sign * b.voltage_V);
        CHECK(a.current_A == sign * b.current_A);
        CHECK(a.temp_K == b.temp_K);
        CHECK(a.speed_rad_s == -b.speed_rad_s);
        CHECK(a.melting == b.melting);
        CHECK(a.charge == b.charge);
    }
}

TEST_CASE("a cable split in two equal halves changes nothing beyond tolerance") {
    // 1 mm2 with 60 A cooks; a motor's start with 40 A passes; a fuse opens a short.
    struct Row {
        const char* what;
        double area_m2, load_ohm, end_s;
    };

    const Row rows[] = {
        {"cooking", 1e-6, 0.4, 20}, {"warm", 2.5e-6, 2.0, 60}, {"short", 6e-6, 0.0, 2}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.what));
        Rig whole, halves;
        Key wholeKey = 0, halfKey = 0, otherHalf = 0;
        for (Rig* rig : {&whole, &halves}) {
            Battery b;
            b.plus = 1;
            b.full_V = 25.7;
            b.low_V = 24;
            rig->add(b);
            Cable c;
            c.a = 1;
            c.b = 2;
            c.length_m = 1.6;
            c.area_m2 = row.area_m2;
            c.endA.resistance_ohm = c.endB.resistance_ohm = 0.0;
            if (rig == &whole) {
                wholeKey = rig->add(c);
            } else {
                c.length_m = 0.8;
                c.b = 3;
                halfKey = rig->add(c);
                c.a = 3;
                c.b = 2;
                otherHalf = rig->add(c);
            }
            rig->ohm(row.load_ohm, 2, 0);
            rig->start();
            rig->until(row.end_s);
        }
        CHECK_CLOSE(halves.amps(halfKey), whole.amps(wholeKey), 1e-5, 1e-6);
        CHECK_CLOSE(
            halves.volts(halfKey) + halves.volts(otherHalf), whole.volts(wholeKey), 1e-5, 1e-6);
        CHECK_CLOSE(halves.see(halfKey).temp_K, whole.see(wholeKey).temp_K, 1e-5, 0.0);
        CHECK_CLOSE(halves.see(halfKey).temp_K, halves.see(otherHalf).temp_K, 1e-12, 0.0);
        for (const Event& e : whole.events) {
            if (e.element != wholeKey) continue;
            CAPTURE(int(e.kind));
            CHECK_CLOSE(halves.when(e.kind, halfKey), e.time_s, 2e-5, 10e-6);
        }
        CHECK((row.load_ohm > 1) == (whole.first(EventKind::SleeveSoftened) == nullptr));
    }
}

TEST_CASE("the order of building does not matter") {
    Everything ordered(false);
    ordered.course();
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        CAPTURE(seed);
        Everything shuffled(false);
        Dice dice(seed);
        std::vector<Element>& elements = shuffled.netlist.elements;
        for (std::size_t k = elements.size(); k > 1; --k)
            std::swap(elements[k - 1], elements[dice.below(std::uint32_t(k))]);
        shuffled.course();
        REQUIRE(shuffled.events.size() == ordered.events.size());
        for (const Event& e : ordered.events) {
            CAPTURE(int(e.kind));
            CAPTURE(e.time_s);
            const bool found =
                std::any_of(shuffled.events.begin(), shuffled.events.end(), [&](const Event& s) {
                    return s.kind == e.kind && s.element == e.element &&
                           std::fabs(s.time_s - e.time_s) < 2e-6;
                });
            CHECK(found);
        }
        for (const Element& e : ordered.netlist.elements) {
            CAPTURE(e.key);
            CHECK_CLOSE(shuffled.amps(e.key), ordered.amps(e.key), 1e-6, 1e-9);
            CHECK_CLOSE(shuffled.volts(e.key), ordered.volts(e.key), 1e-6, 1e-9);
            CHECK_CLOSE(shuffled.see(e.key).temp_K, ordered.see(e.key).temp_K, 1e-7, 0.0);
        }
    }
}

TEST_CASE("nodes named otherwise change nothing beyond rounding") {
    Everything plain(false), renamed(false);
    const Node name[] = {3, 6, 0, 5, 1, 2, 4};
    for (Element& e : renamed.netlist.elements)
        std::visit(
            [&](auto& p) {
                using P = std::decay_t<decltype(p)>;
                if constexpr (std::is_same_v<P, Battery>) {
                    p.plus = name[p.plus];
                    p.minus = name[p.minus];
                } else if constexpr (std::is_same_v<P, Diode>) {
                    p.anode = name[p.anode];
                    p.cathode = name[p.cathode];
                } else if constexpr (std::is_same_v<P, Relay>) {
                    for (Node* n :
                         {&p.coilA, &p.coilB, &p.common, &p.normallyOpen, &p.normallyClosed})
                        *n = name[*n];
                } else if constexpr (!std::is_same_v<P, VoltageSource> &&
                                     !std::is_same_v<P, CurrentSource>) {
                    p.a = name[p.a];
                    p.b = name[p.b];
                }
            },
            e.part);
    plain.course();
    renamed.course();
    REQUIRE(plain.events.size() == renamed.events.size());
    for (const Element& e : plain.netlist.elements) {
        CAPTURE(e.key);
        CHECK_CLOSE(renamed.amps(e.key), plain.amps(e.key), 1e-6, 1e-9);
        CHECK_CLOSE(renamed.volts(e.key), plain.volts(e.key), 1e-6, 1e-9);
    }
}

TEST_CASE("a finer tolerance converges at the method's order") {
    // TR-BDF2 is of second order and its estimate goes with h^3, so the error at a time goes with
    // tolerance^(2/3): an eighth of the tolerance, half the step, a quarter of the error.
    const double l = 10e-3, c = 3e-6, r = 7.0, v0 = 100.0, t = 3e-3;
    const double a = r / (2 * l), w = std::sqrt(1 / (l * c) - a * a);
    const double exact_V = v0 * std::exp(-a * t) * (std::cos(w * t) + a / w * std::sin(w * t));
    std::vector<double> errors;
    std::vector<double> steps;
    for (const double tolerance : {512.0, 64.0, 8.0, 1.0, 1.0 / 8}) {
        Rig rig;
        rig.henry(l, 1, 0, r);
        const Key capacitor = rig.farad(c, 1, 0, v0);
        rig.start(tolerance);
        rig.until(t);
        errors.push_back(std::fabs(rig.volts(capacitor) - exact_V));
        steps.push_back(double(rig.circuit->effort().steps));
    }
    for (std::size_t k = 1; k < errors.size(); ++k) {
        CAPTURE(k);
        CHECK_WITHIN(steps[k] / steps[k - 1], 1.6, 2.5);
        CHECK_WITHIN(errors[k - 1] / errors[k], 2.8, 5.6);
    }
}

} // namespace loom::physics

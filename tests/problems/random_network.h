// SPDX-License-Identifier: MIT
// Networks thrown from a seed: any part between any nodes, so shorts, floats, reversals and loops come by
// themselves; now and then a value that makes no sense. With it a few acts of a careless hand.
// The same seed gives the same network on every machine.
#pragma once

#include "circuit/circuit.h"
#include "problems/dice.h"

#include <limits>
#include <vector>

namespace problems {

struct Act {
    double time_s = 0.0;
    loom::circuit::Key key = 0; // a contact, or a motor
    bool on = false;            // closed, or jammed
};

struct RandomNetwork {
    loom::circuit::Netlist netlist;
    std::vector<loom::circuit::Key> senseless; // ascending: elements whose values were made absurd
    std::vector<Act> acts;                     // in order of time
    double end_s = 0.2;
};

class NetworkThrower {
public:
    explicit NetworkThrower(std::uint64_t seed) : dice(seed) {}

    RandomNetwork take() {
        net.netlist.nodeCount = 2 + dice.below(12);
        const std::uint32_t parts = 1 + dice.below(2 * net.netlist.nodeCount + 4);
        absurdOneIn = dice.oneIn(3) ? 6 : 0;
        for (std::uint32_t k = 0; k < parts; ++k)
            throwPart();
        throwActs();
        return std::move(net);
    }

private:
    loom::circuit::Node node() { return dice.below(net.netlist.nodeCount); }

    // Once in a while nonsense, else the value.
    double maybe(double value) {
        if (absurdOneIn == 0 || spoilt || !dice.oneIn(absurdOneIn)) return value;
        spoilt = true;
        constexpr double kNonsense[] = {std::numeric_limits<double>::quiet_NaN(),
                                        std::numeric_limits<double>::infinity(),
                                        -std::numeric_limits<double>::infinity(),
                                        -1.0,
                                        1e300};
        return kNonsense[dice.below(5)];
    }

    template <class P> void add(const P& part) {
        const loom::circuit::Key key = net.netlist.elements.size() + 1;
        net.netlist.elements.push_back({key, part});
        if (spoilt) net.senseless.push_back(key);
        spoilt = false;
    }

    template <class P> P between() {
        P p;
        p.a = node();
        p.b = node();
        return p;
    }

    void throwPart() {
        namespace c = loom::circuit;
        switch (dice.below(16)) {
        case 0: {
            auto p = between<c::Resistor>();
            p.resistance_ohm = dice.oneIn(8) ? 0.0 : maybe(dice.decades(-3, 7));
            return add(p);
        }
        case 1: { // -1 V is a sound source: keep sense here
            c::VoltageSource p;
            p.plus = node();
            p.minus = node();
            p.emf_V = dice.between(-30.0, 30.0);
            return add(p);
        }
        case 2: {
            c::CurrentSource p;
            p.from = node();
            p.to = node();
            p.current_A = dice.between(-10.0, 10.0);
            return add(p);
        }
        case 3: {
            auto p = between<c::Capacitor>();
            p.capacitance_F = maybe(dice.decades(-9, -2));
            p.initial_V = dice.oneIn(3) ? dice.between(-30.0, 30.0) : 0.0;
            return add(p);
        }
        case 4: {
            auto p = between<c::Inductor>();
            p.inductance_H = maybe(dice.decades(-5, 1));
            p.resistance_ohm = maybe(dice.decades(-2, 3));
            return add(p);
        }
        case 5:
        case 6:
        case 7: {
            auto p = between<c::Cable>();
            constexpr double kSizes_m2[] = {0.75e-6, 1e-6, 2.5e-6, 6e-6, 10e-6};
            p.area_m2 = kSizes_m2[dice.below(5)];
            p.length_m = maybe(dice.between(0.1, 2.0));
            p.endA.loose = dice.oneIn(8);
            if (dice.oneIn(8)) p.endB.resistance_ohm = dice.decades(-3, 0);
            p.parted = dice.oneIn(20);
            return add(p);
        }
        case 8:
        case 9: {
            c::Battery p;
            p.plus = node();
            p.minus = node();
            p.charge = maybe(dice.unit());
            p.resistance_ohm = maybe(dice.between(5e-3, 50e-3));
            return add(p);
        }
        case 10:
        case 11: {
            auto p = between<c::Contact>();
            p.closed = dice.oneIn(2);
            p.resistance_ohm = dice.oneIn(6) ? 0.0 : maybe(dice.decades(-4, -1));
            return add(p);
        }
        case 12: {
            auto p = between<c::Fuse>();
            p.style = static_cast<c::FuseStyle>(dice.below(3));
            p.rating_A = maybe(dice.between(0.5, 60.0));
            p.cold_ohm = 0.08 / (p.rating_A > 0.5 && p.rating_A < 60.0 ? p.rating_A : 1.0);
            p.blown = dice.oneIn(12);
            return add(p);
        }
        case 13: {
            c::Relay p;
            p.coilA = node();
            p.coilB = node();
            p.common = node();
            p.normallyOpen = node();
            p.normallyClosed = node();
            p.coil_ohm = maybe(dice.between(40.0, 400.0));
            p.welded = dice.oneIn(12);
            return add(p);
        }
        case 14: {
            if (dice.oneIn(2)) {
                c::Diode p;
                p.anode = node();
                p.cathode = node();
                p.reverse_V = maybe(dice.between(20.0, 400.0));
                return add(p);
            }
            auto p = between<c::Lamp>();
            p.rated_V = maybe(dice.oneIn(2) ? 12.0 : 24.0);
            p.rated_W = dice.between(1.0, 60.0);
            return add(p);
        }
        default: {
            auto p = between<c::Motor>();
            p.resistance_ohm = maybe(dice.between(0.1, 2.0));
            p.jammed = dice.oneIn(5);
            p.load_Nm = dice.oneIn(3) ? dice.between(0.0, 5.0) : 0.0;
            return add(p);
        }
        }
    }

    void throwActs() {
        const std::uint32_t count = dice.below(6);
        const std::uint32_t parts = std::uint32_t(net.netlist.elements.size());
        double time_s = 0.0;
        for (std::uint32_t k = 0; k < count; ++k) {
            time_s += dice.between(0.0, 0.04);
            net.acts.push_back({time_s, 1 + dice.below(parts), dice.oneIn(2)});
        }
    }

    Dice dice;
    RandomNetwork net;
    std::uint32_t absurdOneIn = 0;
    bool spoilt = false;
};

inline RandomNetwork randomNetwork(std::uint64_t seed) {
    return NetworkThrower(seed).take();
}

inline void act(loom::circuit::Circuit& circuit, const Act& a) {
    circuit.setContact(a.key, a.on);
    circuit.setJammed(a.key, a.on);
}

} // namespace problems

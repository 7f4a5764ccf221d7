// SPDX-License-Identifier: MIT
// Builds netlists in tests in a few words, and compares with a relative tolerance and a named floor.
#pragma once

#include "circuit/circuit.h"

#include <cmath>
#include <utility>
#include <vector>

namespace loom::circuit {

// |found - expected| <= relative |expected| + floor. False for NaN.
inline bool closeRel(double found, double expected, double relative, double floor) {
    return std::fabs(found - expected) <= relative * std::fabs(expected) + floor;
}

// A netlist under construction. Each part gets the next key, which is returned.
struct Hand {
    Netlist netlist;

    template <class P> Key add(P part) {
        const auto grow = [&](Node n) {
            if (n >= netlist.nodeCount) netlist.nodeCount = n + 1;
        };
        growFor(part, grow);
        netlist.elements.push_back({Key(netlist.elements.size() + 1), part});
        return netlist.elements.back().key;
    }

    Key ohm(double r, Node a, Node b) { return add(Resistor{a, b, r}); }

    Key volt(double v, Node plus, Node minus) { return add(VoltageSource{plus, minus, v}); }

    Key farad(double c, Node a, Node b, double v0 = 0.0) { return add(Capacitor{a, b, c, v0}); }

    Key henry(double l, Node a, Node b, double r = 0.0, double i0 = 0.0) {
        return add(Inductor{a, b, l, r, i0});
    }

    Key contact(Node a, Node b, bool closed, double r = 0.4e-3) {
        return add(Contact{a, b, closed, r});
    }

private:
    template <class P, class G> static void growFor(const P& p, G grow) {
        if constexpr (std::is_same_v<P, VoltageSource> || std::is_same_v<P, Battery>) {
            grow(p.plus);
            grow(p.minus);
        } else if constexpr (std::is_same_v<P, CurrentSource>) {
            grow(p.from);
            grow(p.to);
        } else if constexpr (std::is_same_v<P, Diode>) {
            grow(p.anode);
            grow(p.cathode);
        } else if constexpr (std::is_same_v<P, Relay>) {
            for (Node n : {p.coilA, p.coilB, p.common, p.normallyOpen, p.normallyClosed})
                grow(n);
        } else {
            grow(p.a);
            grow(p.b);
        }
    }
};

inline std::vector<Event> run(Circuit& c, double seconds, double slice = 0.01) {
    std::vector<Event> events;
    const long slices = std::lround(seconds / slice);
    if (slices < 1 || std::fabs(slices * slice - seconds) > 1e-9) {
        c.advance(seconds, events);
        return events;
    }
    for (long k = 0; k < slices; ++k)
        c.advance(slice, events);
    return events;
}

inline const Event* firstOf(const std::vector<Event>& events, EventKind kind) {
    for (const Event& e : events)
        if (e.kind == kind) return &e;
    return nullptr;
}

} // namespace loom::circuit

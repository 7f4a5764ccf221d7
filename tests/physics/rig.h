// SPDX-License-Identifier: MIT
// A rig: a network under test, with what has happened in it so far. Add parts, start(), until(), look.
// Comparisons are relative with a named floor, and a failure shows what was found and expected.
#pragma once

#include "circuit/circuit.h"
#include "circuit/network_hand.h"

#include <cstdio>
#include <doctest/doctest.h>
#include <limits>
#include <optional>
#include <string>

namespace loom::physics {

inline std::string digits(double x) {
    char text[32];
    std::snprintf(text, sizeof text, "%.12g", x);
    return text;
}

inline std::string missed(const char* what, double found, double expected, double allowed) {
    return std::string(what) + ": found " + digits(found) + ", expected " + digits(expected) +
           " within " + digits(allowed);
}

inline std::string outside(const char* what, double found, double least, double greatest) {
    return std::string(what) + ": found " + digits(found) + ", expected " + digits(least) + " to " +
           digits(greatest);
}

} // namespace loom::physics

// |found - expected| <= relative |expected| + floor; false for NaN.
#define CHECK_CLOSE(found_, expected_, relative_, floor_)                                          \
    do {                                                                                           \
        const double f_ = (found_), e_ = (expected_), r_ = (relative_), n_ = (floor_);             \
        CHECK_MESSAGE(loom::circuit::closeRel(f_, e_, r_, n_),                                     \
                      loom::physics::missed(#found_, f_, e_, r_* std::fabs(e_) + n_));             \
    } while (false)

// least <= found <= greatest; false for NaN.
#define CHECK_WITHIN(found_, least_, greatest_)                                                    \
    do {                                                                                           \
        const double f_ = (found_), l_ = (least_), g_ = (greatest_);                               \
        CHECK_MESSAGE((f_ >= l_ && f_ <= g_), loom::physics::outside(#found_, f_, l_, g_));        \
    } while (false)

namespace loom::physics {

using namespace loom::circuit;

constexpr double kZero_K = 273.15; // 0 C

struct Rig : Hand {
    std::optional<Circuit> circuit;
    std::vector<Event> events;

    void start(double tolerance = 1.0) {
        events.clear();
        circuit.emplace(netlist, tolerance);
    }

    void until(double time_s) { circuit->advance(time_s - circuit->time_s(), events); }

    Reading see(Key key) const { return circuit->reading(key); }

    double amps(Key key) const { return see(key).current_A; }

    double volts(Key key) const { return see(key).voltage_V; }

    double volts(Node a, Node b) const {
        return circuit->voltage_V(a, b).value_or(std::numeric_limits<double>::quiet_NaN());
    }

    const Event* first(EventKind kind, Key key = 0) const {
        for (const Event& e : events)
            if (e.kind == kind && (key == 0 || e.element == key)) return &e;
        return nullptr;
    }

    // When it first happened; NaN when it did not.
    double when(EventKind kind, Key key = 0) const {
        const Event* e = first(kind, key);
        return e == nullptr ? std::numeric_limits<double>::quiet_NaN() : e->time_s;
    }

    // Goes on until it has happened, at most to limit_s, looking every kSlice_s.
    double wait(EventKind kind, double limit_s, double kSlice_s) {
        while (first(kind) == nullptr && circuit->time_s() < limit_s)
            circuit->advance(kSlice_s, events);
        return when(kind);
    }
};

} // namespace loom::physics

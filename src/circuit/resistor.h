// SPDX-License-Identifier: MIT
// A resistor: v = R i. Its branch never changes. Below kLeast_ohm it is an ideal join (joins.h).
#pragma once

#include "circuit/limits.h"
#include "circuit/model.h"

namespace loom::circuit {

struct Resistors : Model<Resistor, Entry> {
    static constexpr Placing kPlacing = Placing::Constant;

    static bool valid(const Resistor& r) { return validOhms(r.resistance_ohm); }

    static std::optional<double> ideal_V(const Resistor& r) {
        return r.resistance_ohm < kLeast_ohm ? std::optional<double>(0.0) : std::nullopt;
    }

    Entry add(const Resistor& r, Key, Builder& b) {
        return {0, b.branch(r.a, r.b, 1.0 / r.resistance_ohm)};
    }
};

} // namespace loom::circuit

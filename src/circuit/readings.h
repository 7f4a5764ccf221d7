// SPDX-License-Identifier: MIT
// What can be seen at one time: branch values and states between two steps, turned into Readings.
#pragma once

#include "circuit/circuit.h"
#include "circuit/stepper.h"

namespace loom::circuit {

// Nothing flows, turns, is warm or is about to flow at theta of the step. Ends at the first that
// does, and allocates nothing: it is asked in every slice.
bool nothingToSee(const Network& net, const Step& step, double theta);

class Shown {
public:
    // Everything at theta (0..1) of the step; the beginning of it when the step has no length.
    void fill(Network& net, const Step& step, double theta);

    Reading reading(const Network& net, const Where& where, std::uint32_t element) const;
    std::optional<double> voltage_V(const Network& net, Node a, Node b) const;

private:
    std::vector<double> v, i, volts, y, idealCurrent_A;
    std::vector<std::uint32_t> island;
};

} // namespace loom::circuit

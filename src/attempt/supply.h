// SPDX-License-Identifier: MIT
// What the batteries are doing, in three figures for the status line. Made by supplyOf().
#pragma once

#include "attempt/live_circuit.h"

namespace loom::attempt {

struct Supply {
    bool live = false;       // some terminal other than a battery's is over 1 V from another
    double voltage_V = 0.0;  // the greatest such voltage
    double current_A = 0.0;  // delivered by the batteries together (a series pair counts once)
    bool batteryOut = false; // a battery lies on the bench
};

Supply supplyOf(const bench::Bench& bench, const LiveCircuit& live);

} // namespace loom::attempt

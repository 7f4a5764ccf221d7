// SPDX-License-Identifier: MIT
// How long a cold fuse carries a steady current: the closed solution of the two heat balances of
// fuse.h, for bounds where no transient is run.
#pragma once

#include "circuit/netlist.h"

namespace loom::circuit {

inline constexpr double kCarriedForEver_s = 1e9;

// Seconds until it opens at this current, any sign; kCarriedForEver_s when it never does, 0 when it
// is open already. The cold fuse has been without current.
double openingTime_s(const Fuse& fuse, double current_A);

} // namespace loom::circuit

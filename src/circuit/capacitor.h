// SPDX-License-Identifier: MIT
// An ideal capacitor.
//   C dv/dt = i.  One stage:  i = C (v - vb) / a,  vb the base voltage.  Stamp: g = C/a, j = -g vb.
// Source: definition. Valid: C > 0. Tested: REFERENCE N30-N36, N43-N45.
#pragma once

#include "circuit/stage.h"

namespace loom::circuit {

struct CapacitorPart {
    std::uint32_t branch = 0;
    std::uint32_t voltage = 0; // state
    double capacitance_F = 0.0;
};

void stamp(const std::vector<CapacitorPart>& capacitors, Stage& s);
void settle(const std::vector<CapacitorPart>& capacitors, Stage& s);

} // namespace loom::circuit

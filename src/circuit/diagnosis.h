// SPDX-License-Identifier: MIT
// Explains a network whose numbers may not mean what they seem (Diagnosis in circuit.h).
#pragma once

#include "circuit/circuit.h"
#include "circuit/network.h"

namespace loom::circuit {

std::vector<Diagnosis> explain(const Network& net, bool unsettled);

} // namespace loom::circuit

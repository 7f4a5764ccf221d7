// SPDX-License-Identifier: MIT
// Which nodes are one piece of metal now: joined by whole cables, closed contacts and whole fuses.
#pragma once

#include "attempt/live_circuit.h"
#include "circuit/node_groups.h"

namespace loom::attempt {

circuit::NodeGroups conductorsOf(const LiveCircuit& live);

} // namespace loom::attempt

// SPDX-License-Identifier: MIT
// Which elements make sense. An element that does not is left out (an open circuit) and reported.
#pragma once

#include "circuit/netlist.h"

#include <vector>

namespace loom::circuit {

// One flag an element, true when its values and nodes can be used and its key is the first of its name.
std::vector<char> usable(const Netlist& netlist);

// The nodes of a part, in the order of its fields.
std::vector<Node> nodesOf(const Part& part);

} // namespace loom::circuit

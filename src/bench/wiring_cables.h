// SPDX-License-Identifier: MIT
// The part of wire() that comes after the parts: cables with their ends as they are made, and the
// meter. Both need the nodes of the parts in the wiring.
#pragma once

#include "bench/wiring.h"

namespace loom::bench {

void writeCables(const Bench& bench, Wiring& wiring);
void writeMeter(const Bench& bench, Wiring& wiring); // after the cables

} // namespace loom::bench

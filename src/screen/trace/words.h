// SPDX-License-Identifier: MIT
// Names and units of traced quantities, and the sheet for their files.
#pragma once

#include "attempt/trace_export.h"
#include "bench/bench.h"

#include <string>

namespace loom::screen {

// "Current in P-06" with its unit as people read it: °C, rev/min, %.
attempt::TraceLabel traceLabel(const bench::Bench& bench, const attempt::Quantity& quantity);
// "41.2 A"
std::string traceAmount(const attempt::TraceLabel& label, double si);
// Everything the files need in words, for a window in slices.
attempt::TraceSheet traceSheet(const attempt::Attempt& attempt,
                               const attempt::Trace& trace,
                               std::int64_t from,
                               std::int64_t to);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The trace as a table and as a picture. traceCsv() gives every sample in SI at full precision;
// traceSvg() a drawing for paper that needs no colour. The words come from the caller.
#pragma once

#include "attempt/trace.h"

#include <string>
#include <vector>

namespace loom::attempt {

// One for each watched quantity, in order.
struct TraceLabel {
    std::string name;                  // "Current in P-06"
    std::string unit;                  // as shown: "A", "°C"
    double offset = 0.0, factor = 1.0; // shown = (SI + offset) * factor
    double leastSpan = 1e-3;           // of its scale, in the unit shown

    double shown(double si) const { return (si + offset) * factor; }
};

struct TraceMark {
    std::int64_t slice = 0; // the row of the table it stands in
    double time_s = 0.0;
    std::string words;
};

struct TraceSheet {
    std::string title, time, event, least, greatest; // words: "time", "event", …
    std::vector<TraceLabel> labels;
    std::vector<TraceMark> marks;  // those outside the window are left out
    std::int64_t from = 0, to = 0; // the window, in slices
};

// RFC 4180: comma, CRLF, quotes where needed, a header with units; U+002E before decimals. A row a
// slice; where the window reaches back into thinned time, a row for each group of slices with the
// least and the greatest. Empty where there was nothing to read.
std::string traceCsv(const Trace& trace, const TraceSheet& sheet);

// SVG 1.1: one field a quantity, each with its own scale, unit and dash pattern; marks numbered on
// the lines and told below.
std::string traceSvg(const Trace& trace, const TraceSheet& sheet);

} // namespace loom::attempt

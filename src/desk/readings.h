// SPDX-License-Identifier: MIT
// A table of readings over time, and the two ways it is printed.
#pragma once

#include "attempt/attempt.h"
#include "desk/quantity.h"

#include <optional>
#include <string>
#include <vector>

namespace loom::desk {

struct ReadingRow {
    std::int64_t slice = 0;
    std::vector<std::optional<double>> values; // as many as there are quantities
    std::vector<attempt::BenchEvent> events;   // since the row before
};

struct Readings {
    std::vector<Quantity> quantities;
    std::vector<ReadingRow> rows;
};

// Columns time_s, each quantity with its unit ("M1.speed_rad/s"), and with `events` one of
// sentences; an empty cell for what could not be read. RFC 4180 quoting, newline ends.
std::string asCsv(const Readings& readings, bool events);

// {"columns": [{"name", "unit"}…], "rows": [[time, …]…]} with null for what could not be read, and
// with `events` a list of {"time_s", "name", "event", "value", "second", "sentence"}.
std::string asJson(const Readings& readings, bool events);

} // namespace loom::desk

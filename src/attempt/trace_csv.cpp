// SPDX-License-Identifier: MIT
#include "attempt/slice_time.h"
#include "attempt/trace_export.h"

#include <cmath>
#include <cstdio>
#include <map>
#include <nlohmann/json.hpp>

namespace loom::attempt {

namespace {

constexpr std::size_t kEveryPoint = static_cast<std::size_t>(-1) / 4;

// RFC 4180, 2.6 and 2.7.
std::string field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + '"';
}

// The shortest text that reads back as the same number.
std::string number(double value) {
    return std::isfinite(value) ? nlohmann::json(value).dump() : std::string();
}

struct Row {
    std::vector<TracePoint> cells; // one a quantity; of no slices: nothing there
    std::string events;
};

using Rows = std::map<std::int64_t, Row>;

Rows rowsOf(const Trace& trace, const TraceSheet& sheet, bool& thinned) {
    Rows rows;
    for (std::size_t i = 0; i < trace.size(); ++i)
        for (const TracePoint& point : trace.points(i, sheet.from, sheet.to, kEveryPoint)) {
            Row& row = rows[point.slice];
            row.cells.resize(trace.size(), {0, 0, NAN, NAN});
            row.cells[i] = point;
            thinned = thinned || point.slices > 1;
        }
    return rows;
}

// Each mark goes into the row of its time: the last one that begins no later.
void putMarks(const TraceSheet& sheet, Rows& rows) {
    for (const TraceMark& mark : sheet.marks) {
        if (mark.slice < sheet.from || mark.slice > sheet.to) continue;
        auto row = rows.upper_bound(mark.slice);
        if (row == rows.begin()) continue;
        --row;
        row->second.events += (row->second.events.empty() ? "" : "; ") + mark.words;
    }
}

std::string header(const Trace& trace, const TraceSheet& sheet, bool thinned) {
    std::string out = field(sheet.time + " (s)");
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const std::string name = i < sheet.labels.size() ? sheet.labels[i].name : std::string();
        const std::string unit = std::string(" (") + unitOf(trace.quantity(i).kind) + ")";
        if (thinned) {
            out += "," + field(name + ", " + sheet.least + unit);
            out += "," + field(name + ", " + sheet.greatest + unit);
        } else {
            out += "," + field(name + unit);
        }
    }
    return out + "," + field(sheet.event) + "\r\n";
}

} // namespace

std::string traceCsv(const Trace& trace, const TraceSheet& sheet) {
    bool thinned = false;
    Rows rows = rowsOf(trace, sheet, thinned);
    putMarks(sheet, rows);
    std::string out = header(trace, sheet, thinned);
    for (const auto& [slice, row] : rows) {
        out += timeText(slice);
        for (const TracePoint& cell : row.cells) {
            out += "," + number(cell.least);
            if (thinned) out += "," + number(cell.greatest);
        }
        out += "," + field(row.events) + "\r\n";
    }
    return out;
}

} // namespace loom::attempt

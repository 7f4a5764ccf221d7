// SPDX-License-Identifier: MIT
#include "desk/readings.h"

#include "attempt/slice_time.h"
#include "desk/numbers.h"
#include "words/sentences.h"

#include <cstdio>
#include <nlohmann/json.hpp>

namespace loom::desk {

namespace {

std::string cell(const std::string& text) {
    if (text.find_first_of(",\"\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + "\"";
}

std::string heading(const Quantity& quantity) {
    return quantity.unit.empty() ? quantity.asked : quantity.asked + "_" + quantity.unit;
}

std::string sentences(const ReadingRow& row) {
    std::string text;
    for (const attempt::BenchEvent& event : row.events)
        text += (text.empty() ? "" : "; ") + words::sentence(event);
    return text;
}

std::string inJson(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string columnJson(const std::string& name, const std::string& unit) {
    return "{\"name\": " + inJson(name) + ", \"unit\": " + inJson(unit) + "}";
}

std::string rowJson(const ReadingRow& row) {
    std::string text = "[" + attempt::timeText(row.slice);
    for (const auto& value : row.values)
        text += value ? ", " + inDigits(*value) : std::string(", null");
    return text + "]";
}

std::string eventJson(const attempt::BenchEvent& event) {
    return "{\"time_s\": " + inDigits(event.time_s) + ", \"name\": " + inJson(event.name) +
           ", \"event\": " + inJson(circuit::rowOf(event.kind).word) +
           ", \"value\": " + inDigits(event.first) + ", \"second\": " + inDigits(event.second) +
           ", \"sentence\": " + inJson(words::sentence(event)) + "}";
}

std::string list(const std::vector<std::string>& items) {
    std::string text = "[";
    for (std::size_t i = 0; i < items.size(); ++i)
        text += (i ? ",\n  " : "\n  ") + items[i];
    return text + "\n]";
}

} // namespace

std::string asCsv(const Readings& readings, bool events) {
    std::string text = "time_s";
    for (const Quantity& quantity : readings.quantities)
        text += "," + cell(heading(quantity));
    text += events ? ",events\n" : "\n";
    for (const ReadingRow& row : readings.rows) {
        text += attempt::timeText(row.slice);
        for (const auto& value : row.values)
            text += "," + (value ? inDigits(*value) : std::string());
        if (events) text += "," + cell(sentences(row));
        text += "\n";
    }
    return text;
}

std::string asJson(const Readings& readings, bool events) {
    std::vector<std::string> columns{columnJson("time", "s")}, rows, happened;
    for (const Quantity& quantity : readings.quantities)
        columns.push_back(columnJson(quantity.asked, quantity.unit));
    for (const ReadingRow& row : readings.rows) {
        rows.push_back(rowJson(row));
        for (const attempt::BenchEvent& event : row.events)
            happened.push_back(eventJson(event));
    }
    std::string text = "{\n\"columns\": " + list(columns) + ",\n\"rows\": " + list(rows);
    if (events) text += ",\n\"events\": " + list(happened);
    return text + "\n}\n";
}

} // namespace loom::desk

// SPDX-License-Identifier: MIT
#include "screen/trace/words.h"

#include "bench/catalogue.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

namespace loom::screen {

namespace {

using Kind = attempt::Quantity::Kind;

constexpr double kRpmPerRad_s = 9.549296585513721; // 60 / (2 pi)
constexpr double kZeroCelsius_K = 273.15;

// The part's ref or the cable's label; words for what is gone.
std::string thing(const bench::Bench& bench, const attempt::Quantity& quantity) {
    if (const bench::Cable* cable = bench::findCable(bench, quantity.cable)) return cable->label;
    if (const bench::Part* part = bench::findPart(bench, quantity.part)) return part->ref;
    return words("trace/gone");
}

std::string terminal(const bench::Bench& bench, bench::TerminalRef at) {
    return bench::findPart(bench, at.part) ? terminalWords(bench, at) : words("trace/gone");
}

} // namespace

attempt::TraceLabel traceLabel(const bench::Bench& bench, const attempt::Quantity& quantity) {
    const std::string name = thing(bench, quantity);
    switch (quantity.kind) {
    case Kind::Voltage:
        return {words("trace/voltage",
                      {{"place", terminal(bench, quantity.terminal)},
                       {"against", terminal(bench, quantity.against)}}),
                "V",
                0.0,
                1.0,
                0.2};
    case Kind::Across:
        return {words("trace/across", {{"name", name}}), "V", 0.0, 1.0, 0.2};
    case Kind::Current:
        return {words("trace/current", {{"name", name}}), "A", 0.0, 1.0, 0.1};
    case Kind::Temperature:
        return {words("trace/temperature", {{"name", name}}), "°C", -kZeroCelsius_K, 1.0, 10.0};
    case Kind::Speed:
        return {words("trace/speed", {{"name", name}}), words("unit/rpm"), 0.0, kRpmPerRad_s, 20.0};
    case Kind::Charge:
        break;
    }
    return {words("trace/charge", {{"name", name}}), "%", 0.0, 100.0, 1.0};
}

std::string traceAmount(const attempt::TraceLabel& label, double si) {
    return amount(label.shown(si), label.unit.c_str());
}

attempt::TraceSheet traceSheet(const attempt::Attempt& attempt,
                               const attempt::Trace& trace,
                               std::int64_t from,
                               std::int64_t to) {
    attempt::TraceSheet sheet;
    sheet.title = words("trace/sheet-title");
    sheet.time = words("trace/time");
    sheet.event = words("trace/event-column");
    sheet.least = words("trace/least");
    sheet.greatest = words("trace/greatest");
    sheet.from = from;
    sheet.to = to;
    for (std::size_t i = 0; i < trace.size(); ++i)
        sheet.labels.push_back(traceLabel(attempt.bench(), trace.quantity(i)));
    for (const attempt::BenchEvent& event : attempt.events())
        sheet.marks.push_back({event.slice, event.time_s, sentence(event)});
    return sheet;
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The trace: what is kept, that thinning loses no peak, and that its files can be read.
#include "attempt/trace.h"
#include "attempt/trace_axis.h"
#include "attempt/trace_export.h"
#include "hand.h"

#include <cmath>
#include <doctest/doctest.h>
#include <sstream>

using namespace loom;
using namespace loom::attempt;
using loom::attempt::test::Hand;

namespace {

// As a session does it.
void run(Attempt& attempt, Trace& trace, double seconds) {
    std::int64_t slices = static_cast<std::int64_t>(seconds / kSlice_s + 0.5);
    while (slices > 0) {
        const std::int64_t step = trace.idle() || attempt.quiet() ? slices : 1;
        attempt.advance(step);
        trace.sample(attempt);
        slices -= step;
    }
}

Quantity currentIn(bench::CableId cable) {
    Quantity q;
    q.kind = Quantity::Kind::Current;
    q.cable = cable;
    return q;
}

struct Lamp {
    Attempt attempt{attempt::test::builtInBench("free")};
    Hand hand{attempt};
    Trace trace;

    Lamp() { attempt::test::wireLamp(hand); }

    Quantity current() const { return currentIn(hand.cable("W-2").id); }
};

// The lamp bridged by ten metres of thin cable: the fuse opens some slices after the switch is closed.
struct Short {
    Attempt attempt{attempt::test::builtInBench("free")};
    Hand hand{attempt};
    Trace trace;

    Short() {
        attempt::test::wireLamp(hand);
        bench::MakeCable bridge;
        bridge.from = hand.terminal("E1", "in");
        bridge.to = hand.terminal("E1", "out");
        bridge.area_m2 = 1e-6;
        bridge.length_m = 20.0;
        hand.does(bridge);
        hand.fit("F2", 7.5);
        Quantity current;
        current.kind = Quantity::Kind::Current;
        current.part = hand.part("F2");
        trace.watch(current);
        Quantity voltage;
        voltage.kind = Quantity::Kind::Across;
        voltage.part = hand.part("B1");
        trace.watch(voltage);
        run(attempt, trace, 0.5);
        hand.set("S4", 1);
        run(attempt, trace, 3.0);
    }

    const BenchEvent* melted() const {
        for (const BenchEvent& h : attempt.events())
            if (h.kind == circuit::EventKind::FuseMelted) return &h;
        return nullptr;
    }

    TraceSheet sheet() const {
        TraceSheet sheet;
        sheet.title = "Trace, \"F2\" & <W-2>";
        sheet.time = "time";
        sheet.event = "event";
        sheet.least = "least";
        sheet.greatest = "greatest";
        sheet.labels = {{"Current in F2", "A"}, {"Voltage, B1", "V"}};
        sheet.from = *trace.firstSlice();
        sheet.to = *trace.lastSlice();
        for (const BenchEvent& h : attempt.events())
            sheet.marks.push_back({h.slice, h.time_s, h.name + " opened, \"melted\""});
        return sheet;
    }
};

// Reads what RFC 4180 allows; fails the test on what it does not.
std::vector<std::vector<std::string>> readCsv(const std::string& text) {
    std::vector<std::vector<std::string>> rows(1);
    std::string cell;
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) {
            if (c != '"') {
                cell += c;
            } else if (i + 1 < text.size() && text[i + 1] == '"') {
                cell += '"';
                ++i;
            } else {
                quoted = false;
            }
        } else if (c == '"') {
            REQUIRE(cell.empty());
            quoted = true;
        } else if (c == ',' || c == '\r') {
            rows.back().push_back(cell);
            cell.clear();
            if (c == '\r') {
                REQUIRE(text[++i] == '\n');
                rows.emplace_back();
            }
        } else {
            REQUIRE(c != '\n');
            cell += c;
        }
    }
    REQUIRE_FALSE(quoted);
    REQUIRE(rows.back().empty());
    rows.pop_back();
    return rows;
}

// Every tag that is opened is closed, in order; no stray angle bracket or ampersand.
bool isWellFormed(const std::string& xml) {
    std::vector<std::string> open;
    std::size_t i = xml.find("?>");
    if (i == std::string::npos) return false;
    for (i += 2; i < xml.size(); ++i) {
        if (xml[i] == '&' && xml.compare(i, 5, "&amp;") != 0 && xml.compare(i, 4, "&lt;") != 0 &&
            xml.compare(i, 4, "&gt;") != 0)
            return false;
        if (xml[i] == '>') return false;
        if (xml[i] != '<') continue;
        const std::size_t end = xml.find('>', i);
        if (end == std::string::npos) return false;
        const std::string tag = xml.substr(i + 1, end - i - 1);
        if (tag[0] == '/') {
            if (open.empty() || open.back() != tag.substr(1)) return false;
            open.pop_back();
        } else if (tag.back() != '/') {
            open.push_back(tag.substr(0, tag.find_first_of(" \n")));
        }
        i = end;
    }
    return open.empty();
}

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t n = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
        ++n;
    return n;
}

} // namespace

TEST_CASE("a trace holds what a reading says, slice by slice") {
    Lamp lamp;
    REQUIRE(lamp.trace.watch(lamp.current()));
    CHECK(lamp.trace.watch(lamp.current())); // again: it is still one
    CHECK(lamp.trace.size() == 1);
    run(lamp.attempt, lamp.trace, 0.2);
    lamp.hand.set("S4", 1);
    for (int i = 0; i < 50; ++i) {
        run(lamp.attempt, lamp.trace, kSlice_s);
        const auto kept = lamp.trace.at(0, lamp.attempt.now_slices());
        REQUIRE(kept);
        CHECK(*kept == lamp.attempt.reading(lamp.hand.cable("W-2").id).current_A);
    }
    const auto before = lamp.trace.at(0, 20);
    REQUIRE(before);
    CHECK(std::fabs(*before) < 1e-3);
    CHECK(*lamp.trace.at(0, lamp.attempt.now_slices()) > 0.4);
    CHECK_FALSE(lamp.trace.at(0, lamp.attempt.now_slices() + 1));
}

TEST_CASE("while the attempt rests the last value is held, and the jump costs nothing") {
    Lamp lamp;
    REQUIRE(lamp.trace.watch(lamp.current()));
    run(lamp.attempt, lamp.trace, 5.0);
    REQUIRE(lamp.attempt.quiet());
    const std::int64_t hours = 100 * 3600 * 100;
    lamp.attempt.advance(hours);
    lamp.trace.sample(lamp.attempt);
    const std::int64_t now = lamp.attempt.now_slices();
    CHECK(lamp.trace.at(0, now).has_value());
    CHECK(lamp.trace.at(0, now - 10000).has_value());
    CHECK(lamp.trace.at(0, now - 1000000).has_value());
    const auto points = lamp.trace.points(0, now - 60 * 100, now, 500);
    CHECK(points.size() <= 500);
    CHECK(points.back().slice + points.back().slices > now);
}

TEST_CASE("thinning keeps the peak and the moment of it") {
    Short bench;
    REQUIRE(bench.melted());
    const std::int64_t melted = bench.melted()->slice;
    double peak = 0.0;
    for (std::int64_t s = 0; s <= bench.attempt.now_slices(); ++s)
        peak = std::max(peak, std::fabs(bench.trace.at(0, s).value_or(0.0)));
    CHECK(peak > 20.0);
    // Half an hour later, far beyond what is kept at full rate.
    run(bench.attempt, bench.trace, 1800.0);
    const std::int64_t now = bench.attempt.now_slices();
    double kept = 0.0;
    std::int64_t last = 0;
    for (const TracePoint& p : bench.trace.points(0, 0, now, 100)) {
        CHECK((std::isnan(p.least) || p.least <= p.greatest));
        const double size = std::max(std::fabs(p.least), std::fabs(p.greatest));
        if (size > 1.0) last = p.slice;
        if (size > kept) kept = size;
    }
    CHECK(kept == peak);
    CHECK(last <= melted);
    // Seen close it is still in its place, within the width of a thinned group.
    for (const TracePoint& p : bench.trace.points(0, melted + 200, melted + 2000, 1000))
        CHECK(std::fabs(p.greatest) < 1.0);
}

TEST_CASE("a fuse that opens within one slice leaves its current in the trace") {
    Attempt attempt{attempt::test::builtInBench("free")};
    Hand hand{attempt};
    attempt::test::wireShort(hand);
    hand.fit("F2", 7.5);
    Trace trace;
    Quantity current;
    current.part = hand.part("F2");
    REQUIRE(trace.watch(current));
    run(attempt, trace, 0.5);
    hand.set("S4", 1);
    run(attempt, trace, 0.5);
    double peak = 0.0;
    for (const TracePoint& p : trace.points(0, 0, attempt.now_slices(), 1000))
        peak = std::max(peak, p.greatest);
    CHECK(peak > 100.0);
    CHECK(std::fabs(trace.at(0, attempt.now_slices()).value()) < 1e-3);
}

TEST_CASE("what is kept is bounded") {
    Lamp lamp;
    lamp.hand.set("S4", 1);
    REQUIRE(lamp.trace.watch(lamp.current()));
    run(lamp.attempt, lamp.trace, 200.0);
    const std::int64_t now = lamp.attempt.now_slices();
    // 60 s at full rate at the least.
    const auto fine = lamp.trace.points(0, now - 6000, now, 1u << 20);
    CHECK(fine.size() == 6001);
    CHECK(fine.front().slices == 1);
    const auto all = lamp.trace.points(0, 0, now, 1u << 20);
    CHECK(all.front().slices == 10);
    CHECK(all.size() <= static_cast<std::size_t>(Trace::kKeptBuckets));
}

TEST_CASE("no more than four quantities; one taken away makes room") {
    Lamp lamp;
    const char* labels[] = {"W-1", "W-2", "W-3", "W-4"};
    for (const char* label : labels)
        CHECK(lamp.trace.watch(currentIn(lamp.hand.cable(label).id)));
    Quantity fifth = currentIn(lamp.hand.cable("W-1").id);
    fifth.kind = Quantity::Kind::Temperature;
    CHECK_FALSE(lamp.trace.watch(fifth));
    lamp.trace.unwatch(currentIn(lamp.hand.cable("W-3").id));
    CHECK(lamp.trace.watch(fifth));
    CHECK(lamp.trace.size() == 4);
}

TEST_CASE("a thing that is taken away leaves a gap, not a zero") {
    Lamp lamp;
    lamp.hand.set("S4", 1);
    REQUIRE(lamp.trace.watch(lamp.current()));
    run(lamp.attempt, lamp.trace, 0.3);
    lamp.hand.does(bench::RemoveCable{lamp.hand.cable("W-2").id});
    run(lamp.attempt, lamp.trace, 0.3);
    CHECK(lamp.trace.at(0, 20).has_value());
    CHECK_FALSE(lamp.trace.at(0, lamp.attempt.now_slices()).has_value());
}

TEST_CASE("an earlier time means another attempt") {
    Lamp lamp, fresh;
    REQUIRE(lamp.trace.watch(lamp.current()));
    run(lamp.attempt, lamp.trace, 2.0);
    fresh.attempt.advance(50);
    lamp.trace.sample(fresh.attempt);
    CHECK(*lamp.trace.firstSlice() == 50);
    CHECK(*lamp.trace.lastSlice() == 50);
}

TEST_CASE("the table can be read, is in SI, and has the event in its row") {
    Short bench;
    const auto rows = readCsv(traceCsv(bench.trace, bench.sheet()));
    REQUIRE(rows.size() > 300);
    CHECK(rows[0] ==
          std::vector<std::string>{"time (s)", "Current in F2 (A)", "Voltage, B1 (V)", "event"});
    const BenchEvent* melted = bench.melted();
    REQUIRE(melted);
    int found = 0;
    for (std::size_t i = 1; i < rows.size(); ++i) {
        REQUIRE(rows[i].size() == 4);
        const std::int64_t slice = std::llround(std::stod(rows[i][0]) / kSlice_s);
        CHECK(std::stod(rows[i][1]) == bench.trace.at(0, slice).value()); // full precision
        if (rows[i][3].empty()) continue;
        ++found;
        CHECK(slice == melted->slice);
        CHECK(rows[i][3] == "F2 opened, \"melted\"");
        // At that instant it still carried the current of the short, a slice later none.
        CHECK(std::stod(rows[i - 1][1]) > 20.0);
        CHECK(std::stod(rows[i][1]) == melted->first);
        CHECK(std::fabs(std::stod(rows[i + 1][1])) < 1.0);
    }
    CHECK(found == 1);
}

TEST_CASE("a window that reaches into thinned time says so in its columns") {
    Short bench;
    run(bench.attempt, bench.trace, 300.0);
    TraceSheet sheet = bench.sheet();
    const auto rows = readCsv(traceCsv(bench.trace, sheet));
    CHECK(rows[0].size() == 6);
    CHECK(rows[0][1] == "Current in F2, least (A)");
    double peak = 0.0;
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (!rows[i][2].empty()) peak = std::max(peak, std::stod(rows[i][2]));
    CHECK(peak > 20.0);
}

TEST_CASE("the drawing is well formed and tells lines apart without colour") {
    Short bench;
    const std::string svg = traceSvg(bench.trace, bench.sheet());
    CHECK(isWellFormed(svg));
    CHECK(count(svg, "<path") == 2);
    CHECK(svg.find("stroke-dasharray=\"none\"") != std::string::npos);
    CHECK(svg.find("stroke-dasharray=\"9 5\"") != std::string::npos);
    CHECK(svg.find("Current in F2 (A)") != std::string::npos);
    CHECK(svg.find("Voltage, B1 (V)") != std::string::npos);
    CHECK(svg.find("F2 opened") != std::string::npos);
    CHECK(svg.find("nan") == std::string::npos);
    CHECK(svg.find("inf") == std::string::npos);
    // Black, white and grey only.
    for (std::size_t at = svg.find('#'); at != std::string::npos; at = svg.find('#', at + 1)) {
        const std::string colour = svg.substr(at, 4);
        CHECK((colour == "#000" || colour == "#bbb" || colour == "#fff"));
    }
}

TEST_CASE("an empty trace gives an empty table and drawing") {
    Trace trace;
    TraceSheet sheet;
    sheet.time = "time";
    sheet.event = "event";
    CHECK(traceCsv(trace, sheet) == "time (s),event\r\n");
    CHECK(isWellFormed(traceSvg(trace, sheet)));
}

TEST_CASE("scales have round ticks and hold what is shown") {
    struct Row {
        double low, high;
        int most;
        double expectLow, expectHigh, expectStep;
    };

    const Row rows[] = {
        {0.0, 41.2, 5, 0.0, 50.0, 10.0},
        {24.7, 25.2, 5, 24.7, 25.2, 0.1},
        {24.7, 25.2, 4, 24.6, 25.2, 0.2},
        {-3.0, 3.0, 4, -4.0, 4.0, 2.0},
        {0.0, 1e-4, 5, -5e-4, 1e-3, 5e-4}, // next to nothing is not blown up
        {0.0, 0.0, 5, -5e-4, 5e-4, 5e-4},
    };
    for (const Row& row : rows) {
        CAPTURE(row.low);
        CAPTURE(row.high);
        const Axis axis = roundAxis(row.low, row.high, row.most);
        CHECK(axis.low <= row.low + 1e-12);
        CHECK(axis.high >= row.high - 1e-12);
        CHECK(axis.ticks() - 1 <= row.most);
        CHECK(axis.step == doctest::Approx(row.expectStep));
        if (row.high > 1e-3) {
            CHECK(axis.low == doctest::Approx(row.expectLow));
            CHECK(axis.high == doctest::Approx(row.expectHigh));
        }
    }
    const Axis wild = roundAxis(NAN, 1.0, 5);
    CHECK(wild.low < wild.high);
    CHECK(tickText(roundAxis(0.0, 1.0, 5), 1, true) == "0.2");
    CHECK(tickText(roundAxis(-20.0, 20.0, 5), 0, true) == "−20");
}

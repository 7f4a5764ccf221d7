// Every fault of a bench: what is sound passes, each planted danger is found with its place.
#include "bench/file.h"
#include "bench/catalogue.h"
#include "lesson/fault_sweep.h"
#include "lessons/hand.h"

#include <algorithm>
#include <doctest/doctest.h>
#include <set>
#include <string>

namespace {

using namespace loom;
using lesson::FaultSweep;
using lesson::Protection;
using lesson::Threat;

bench::Bench pippin() {
    auto read = bench::fromJson(lessontest::textOf("assets/benches/pippin.loom.json"));
    REQUIRE(read);
    return std::move(read.value());
}

// The link and the cable to F1; and what only F1 guards, which is too slow for a thin cable: the
// short ways from X1 to F2 and F3, and the returns of small loads.
Protection pippinAllows() {
    Protection asked;
    asked.common = {"B1", "minus"};
    asked.unprotected = {{{"B1", "plus"}, {"B2", "minus"}, 10e-6},
                         {{"B2", "plus"}, {"F1", "in"}, 10e-6},
                         {{"X1", "1 upper"}, {"F2", "in"}, 1e-6},
                         {{"X1", "1 upper"}, {"F3", "in"}, 1e-6}};
    asked.thinReturns = true;
    return asked;
}

std::set<std::string> cablesOf(const FaultSweep& sweep) {
    std::set<std::string> labels;
    for (const Threat& threat : sweep.threats)
        labels.insert(threat.cable);
    return labels;
}

const Threat* threatTo(const FaultSweep& sweep, const std::string& cable) {
    for (const Threat& threat : sweep.threats)
        if (threat.cable == cable) return &threat;
    return nullptr;
}

bench::Bench with(const bench::Bench& bench, const bench::Edit& edit) {
    auto after = bench::apply(bench, edit);
    REQUIRE(after);
    return std::move(after.value());
}

// A cable of 1 mm2 between two terminals, with whatever ends fit.
bench::Bench wired(bench::Bench bench, const char* a, const char* at, const char* b, const char* to) {
    bench.kit.reels.push_back({1e-6, bench::Sleeve::Red});
    bench::MakeCable make;
    make.from = *bench::findTerminal(bench, a, at);
    make.to = *bench::findTerminal(bench, b, to);
    make.area_m2 = 1e-6;
    make.sleeve = bench::Sleeve::Red;
    make.label = "W-1";
    return with(bench, make);
}

FaultSweep swept(const bench::Bench& bench) {
    return lesson::sweepFaults(bench, bench, pippinAllows());
}

TEST_CASE("Pippin as on its plan: no fault harms a cable that is not named") {
    const FaultSweep sweep = swept(pippin());
    CHECK(cablesOf(sweep) == std::set<std::string>{});
    CHECK(sweep.positions >= 10); // S1 on and off, each way of S2 with S3 held, S4, S5
    CHECK(sweep.positions <= 40); // not the 96 there are: a switch without current counts once
    CHECK(sweep.tried > 5000);
    CHECK(sweep.run == 0); // all by bounds
}

TEST_CASE("Pippin with nothing named: what only F1 guards is found, and what nothing guards") {
    const FaultSweep sweep = lesson::sweepFaults(pippin(), pippin(), {});
    for (const char* label : {"P-01", "P-03"}) {
        CAPTURE(label);
        const Threat* threat = threatTo(sweep, label);
        REQUIRE(threat);
        CHECK(threat->kind == Threat::Kind::Unprotected);
    }
    for (const char* label : {"P-14", "P-17", "P-28"}) {
        CAPTURE(label);
        const Threat* threat = threatTo(sweep, label);
        REQUIRE(threat);
        CHECK(threat->kind == Threat::Kind::Short);
        CHECK(threat->current_A > 100.0);
        CHECK(threat->after_s < 0.2);
        CHECK(threat->temp_K > 350.0);
    }
    CHECK_FALSE(threatTo(sweep, "P-06"));
}

TEST_CASE("a thin cable from battery plus to a free place of the block is found") {
    const FaultSweep sweep = swept(wired(pippin(), "B2", "plus", "X1", "3 lower"));
    const Threat* threat = threatTo(sweep, "W-1");
    REQUIRE(threat);
    CHECK(threat->kind == Threat::Kind::Unprotected);
}

TEST_CASE("a cable is not excused by the label of one that is named") {
    bench::Bench bench = wired(pippin(), "B2", "plus", "X1", "3 lower");
    bench.cables.back().label = "P-03";
    const FaultSweep sweep = swept(bench);
    const Threat* threat = threatTo(sweep, "P-03");
    REQUIRE(threat);
    CHECK(threat->suffers == bench.cables.back().id);
}

TEST_CASE("a cable whose other end lies loose is looked at too") {
    bench::Bench bench = wired(pippin(), "B2", "plus", "X1", "3 lower");
    const bench::CableId cable = bench.cables.back().id;
    const int end = bench.cables.back().ends[0].at->part == bench::findPart(bench, "B2")->id ? 1 : 0;
    bench = with(bench, bench::FreeEnd{cable, end, {0.5, 0.5}});
    CHECK(threatTo(swept(bench), "W-1"));
}

TEST_CASE("a fault behind a fuse that is far too strong for its cable is found") {
    bench::Bench bench = pippin();
    for (bench::Part& part : bench.parts)
        if (part.ref == "F2") part.rating = 200.0;
    const FaultSweep sweep = swept(bench);
    CHECK(threatTo(sweep, "P-15"));
    CHECK(sweep.run > 0); // not by bounds alone
}

TEST_CASE("a short that is there already is found as the bench stands") {
    const FaultSweep sweep =
        swept(wired(pippin(), "K1", "normally open", "K1", "normally closed"));
    const Threat* threat = threatTo(sweep, "W-1");
    REQUIRE(threat);
    CHECK(threat->current_A > 100.0);
}

TEST_CASE("a battery bridged by a thin cable is found") {
    CHECK(threatTo(swept(wired(pippin(), "B1", "plus", "B1", "minus")), "W-1"));
}

} // namespace

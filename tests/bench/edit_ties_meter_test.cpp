// SPDX-License-Identifier: MIT
// Ties, the meter, the strap and the axle as edits, and what they are refused for.
#include "bench/limits.h"
#include "handmade.h"
#include "said.h"

#include <cmath>

namespace loom::bench {
namespace {

Bench twoCables() {
    Bench bench = handsOn();
    bench = cut(bench, terminal(bench, "X1", "3 upper"), terminal(bench, "B1", "plus"));
    return cut(bench, terminal(bench, "X1", "4 upper"), terminal(bench, "Q1", "in"), "W-2");
}

} // namespace

TEST_CASE("a tie holds a cable to the frame or to another, with an id of its own") {
    Bench bench = twoCables();
    const std::uint32_t before = bench.lastId;
    bench = done(bench, TieCable{cable(bench).id, 0.25, {}, 0.9, {9.0, 0.5}});
    REQUIRE(bench.ties.size() == 1);
    CHECK(bench.ties[0].id == before + 1);
    CHECK(bench.ties[0].at_m.x_m == bench.board_m.x_m); // kept on the board
    CHECK(bench.ties[0].otherAlong == 0.5);             // of no other cable
    CHECK(findTie(bench, before + 1));
    bench = done(bench, CutTie{before + 1});
    CHECK(bench.ties.empty());
    CHECK(bench.lastId == before + 1);
}

TEST_CASE("ties and probes that cannot be are refused with their reason") {
    const Bench bench = twoCables();
    const Bench out = done(bench, PlaceMeter{{0.5, 0.5}});
    const CableId first = cable(bench).id, second = cable(bench, "W-2").id;
    const TerminalRef post = terminal(bench, "B1", "plus");

    struct Row {
        const char* what;
        const Bench& bench;
        Edit edit;
        Why why;
    };

    const double nan = std::nan("");
    const Row rows[] = {
        {"no such cable", bench, TieCable{{99}, 0.5, {}, 0.5, {}}, Why::UnknownCable},
        {"to no such cable", bench, TieCable{first, 0.5, {99}, 0.5, {}}, Why::UnknownCable},
        {"to itself", bench, TieCable{first, 0.5, first, 0.6, {}}, Why::OutOfRange},
        {"beyond its end", bench, TieCable{first, 1.5, {}, 0.5, {}}, Why::OutOfRange},
        {"beyond the other's", bench, TieCable{first, 0.5, second, -0.1, {}}, Why::OutOfRange},
        {"nowhere", bench, TieCable{first, 0.5, {}, 0.5, {nan, 0}}, Why::NotANumber},
        {"no such tie", bench, CutTie{first.number}, Why::UnknownTie},
        {"setting a meter that hangs", bench, SetMeter{MeterRange::Volts}, Why::MeterAway},
        {"probing with it", bench, Probe{0, {post, {}, 0}}, Why::MeterAway},
        {"its fuse", bench, FitMeterFuse{}, Why::MeterAway},
        {"melting it", bench, WearMeter{}, Why::MeterAway},
        {"a third probe", out, Probe{2, {post, {}, 0}}, Why::OutOfRange},
        {"two things at once", out, Probe{0, {post, first, 0}}, Why::OutOfRange},
        {"no such part", out, Probe{0, {TerminalRef{{99}, 0}, {}, 0}}, Why::UnknownPart},
        {"no such terminal",
         out,
         Probe{0, {TerminalRef{post.part, 9}, {}, 0}},
         Why::UnknownTerminal},
        {"an end of no cable", out, Probe{0, {{}, {99}, 0}}, Why::UnknownCable},
        {"no such end", out, Probe{0, {{}, first, 2}}, Why::OutOfRange},
        {"a meter nowhere", bench, PlaceMeter{{0, nan}}, Why::NotANumber},
        {"an axle of a battery", bench, ObstructAxle{post.part, true, {}}, Why::OutOfRange},
        {"an axle of nothing", bench, ObstructAxle{{99}, true, {}}, Why::UnknownPart},
    };
    for (const Row& row : rows) {
        CAPTURE(row.what);
        const Refusal why = refused(row.bench, row.edit);
        CHECK(static_cast<int>(why.why) == static_cast<int>(row.why));
        CHECK_FALSE(why.place.empty());
        CHECK_FALSE(why.expected.empty());
        CHECK_FALSE(why.found.empty());
    }
}

TEST_CASE("there are no more ties than a bench takes") {
    Bench bench = twoCables();
    const TieCable tie{cable(bench).id, 0.5, {}, 0.5, {0.5, 0.5}};
    while (bench.ties.size() < kTiesMost)
        bench = done(bench, tie);
    CHECK(refused(bench, tie).why == Why::TooMany);
}

TEST_CASE("a meter hung up lets go of everything, and comes down as new") {
    Bench bench = done(twoCables(), PlaceMeter{{0.5, 0.5}});
    bench = done(bench, SetMeter{MeterRange::Amperes});
    bench = done(bench, Probe{0, {terminal(bench, "B1", "plus"), {}, 0}});
    bench = done(bench, WearMeter{});
    bench = done(bench, PlaceMeter{{0.6, 0.5}}); // moved only
    CHECK(bench.meter->range == MeterRange::Amperes);
    CHECK(bench.meter->probes[0].terminal);
    CHECK(bench.meter->fuseOpen);
    bench = done(bench, HangMeter{});
    CHECK_FALSE(bench.meter);
    bench = done(bench, PlaceMeter{{0.5, 0.5}});
    CHECK(bench.meter->range == MeterRange::Off);
    CHECK_FALSE(bench.meter->probes[0].terminal);
    CHECK_FALSE(bench.meter->fuseOpen);
}

TEST_CASE("a battery stands free until its strap is fastened, and again when it is laid anew") {
    Bench bench = laid(trayOnly(), "B1");
    CHECK(part(bench, "B1").position == 0);
    bench = done(bench, Operate{idOf(bench, "B1"), 1});
    CHECK(part(bench, "B1").position == 1);
    CHECK(refused(bench, Operate{idOf(bench, "B1"), 2}).why == Why::NoSuchPosition);
    bench = laid(done(bench, RemovePart{idOf(bench, "B1")}), "B1");
    CHECK(part(bench, "B1").position == 0);
}

} // namespace loom::bench

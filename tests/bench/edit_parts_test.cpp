// SPDX-License-Identifier: MIT
#include "bench/limits.h"
#include "said.h"
#include "sample_benches.h"

#include <cmath>
#include <limits>

namespace loom::bench {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();

bool near(double left, double right) {
    return std::fabs(left - right) < 1e-12;
}

} // namespace

TEST_CASE("a part from the tray lies where it was put, and its slot is empty") {
    const Bench tray = trayOnly();
    const Bench after = done(tray, LayPart{"S2", {0.6, 0.4}, 1});
    const Part& selector = part(after, "S2");
    CHECK(selector.id.number == 1);
    CHECK(selector.kind == PartKind::Selector);
    CHECK(selector.at_m.x_m == 0.6);
    CHECK(selector.quarterTurns == 1);
    CHECK(selector.position == 1); // rests at off
    CHECK(isOut(after, after.kit.parts[8]));
    CHECK_FALSE(isOut(after, after.kit.parts[0]));
    CHECK(part(laid(after, "B2"), "B2").charge == 0.4);
    CHECK(part(laid(after, "F2"), "F2").rating == 7.5);
}

TEST_CASE("an edit leaves the bench it was given untouched") {
    const Bench tray = trayOnly(), copy = tray;
    const Bench after = laid(tray, "B1");
    CHECK(identical(tray, copy));
    CHECK_FALSE(identical(tray, after));
    refused(after, LayPart{"B1", {0.5, 0.5}});
    CHECK(identical(laid(tray, "B1"), after));
}

TEST_CASE("a part is laid once, and only from the kit") {
    const Bench bench = laid(trayOnly(), "B1");
    CHECK(refused(bench, LayPart{"B1", {0.5, 0.5}}).why == Why::NotInTray);
    CHECK(refused(bench, LayPart{"B1", {0.5, 0.5}}).found == "already on the bench");
    CHECK(refused(bench, LayPart{"B7", {0.5, 0.5}}).why == Why::NotInTray);
    CHECK(refused(bench, LayPart{"B2", {kNan, 0.5}}).why == Why::NotANumber);
    CHECK(refused(bench, LayPart{"B2", {0.5, kInfinity}}).why == Why::NotANumber);
    CHECK(refused(bench, LayPart{"B2", {0.5, 0.5}, 4}).why == Why::OutOfRange);
    CHECK(refused(bench, LayPart{"B2", {0.5, 0.5}, -1}).why == Why::OutOfRange);
}

TEST_CASE("a bench takes 400 parts and no more") {
    Bench bench;
    for (int i = 0; i <= 400; ++i)
        bench.kit.parts.push_back({PartKind::Diode, "D" + std::to_string(i)});
    for (int i = 0; i < 400; ++i)
        bench = laid(bench, "D" + std::to_string(i));
    const Refusal why = refused(bench, LayPart{"D400", {0.5, 0.5}});
    CHECK(why.why == Why::TooMany);
    CHECK(why.expected == "400 parts at most");
    CHECK(why.found == "401");
}

// The battery is 188 by 130 mm, the board 1.5 by 1 m.
TEST_CASE("a part stays on the board with its whole size, whichever way it is turned") {
    Bench bench = laid(trayOnly(), "B1", -5.0, 99.0);
    const PartId battery = idOf(bench, "B1");
    CHECK(near(part(bench, "B1").at_m.x_m, 0.094));
    CHECK(near(part(bench, "B1").at_m.y_m, 1.0 - 0.065));
    bench = done(bench, MovePart{battery, {1e300, -1e300}});
    CHECK(near(part(bench, "B1").at_m.x_m, 1.5 - 0.094));
    CHECK(near(part(bench, "B1").at_m.y_m, 0.065));
    bench = done(bench, TurnPart{battery, 3});
    CHECK(part(bench, "B1").quarterTurns == 3);
    CHECK(near(part(bench, "B1").at_m.x_m, 1.5 - 0.094)); // still where it was put
    CHECK(near(part(bench, "B1").at_m.y_m, 0.094));       // pushed in by its longer side
}

TEST_CASE("a part larger than the board lies in its middle") {
    Bench bench = trayOnly();
    bench.board_m = {0.2, 0.2};
    bench = laid(bench, "M1", 0.0, 0.0); // 320 by 112 mm
    CHECK(part(bench, "M1").at_m.x_m == 0.1);
    CHECK(near(part(bench, "M1").at_m.y_m, 0.056));
}

TEST_CASE("moving and turning name a part that is not there") {
    const Bench bench = laid(trayOnly(), "B1");
    CHECK(refused(bench, MovePart{{9}, {0.5, 0.5}}).why == Why::UnknownPart);
    CHECK(refused(bench, MovePart{{}, {0.5, 0.5}}).why == Why::UnknownPart);
    CHECK(refused(bench, MovePart{{1}, {0.5, kNan}}).why == Why::NotANumber);
    CHECK(refused(bench, TurnPart{{9}, 1}).place == "part 9");
    CHECK(refused(bench, TurnPart{{1}, 4}).why == Why::OutOfRange);
}

TEST_CASE("removing a part frees its cables where they were and fills its slot afresh") {
    Bench bench = laid(laid(trayOnly(), "B2", 0.3, 0.5), "R1", 0.8, 0.5);
    bench = laid(bench, "X1", 0.8, 0.8);
    bench = done(bench, MakeCable{terminal(bench, "R1", "out"), terminal(bench, "X1", "1 upper")});
    bench = done(bench, MakeCable{terminal(bench, "B2", "plus"), terminal(bench, "X1", "2 upper")});
    bench = done(bench, WearPart{idOf(bench, "B2"), Condition::Open});
    const Point plus = terminalAt(bench, terminal(bench, "B2", "plus"));
    const PartId old = idOf(bench, "B2");

    const Bench after = done(bench, RemovePart{old});
    CHECK(findPart(after, old) == nullptr);
    CHECK_FALSE(isOut(after, after.kit.parts[1]));
    CHECK_FALSE(after.cables[1].ends[0].at);
    CHECK(after.cables[1].ends[0].loose_m.x_m == plus.x_m);
    CHECK(after.cables[1].ends[0].loose_m.y_m == plus.y_m);
    CHECK(after.cables[1].ends[1].at); // the other end stays
    CHECK(after.cables[0].ends[0].at); // another part's cable stays

    const Bench again = laid(after, "B2");
    CHECK(part(again, "B2").condition == Condition::Sound);
    CHECK(part(again, "B2").charge == 0.4);
    CHECK(part(again, "B2").id != old); // a stale id is noticed
    CHECK(refused(again, RemovePart{old}).why == Why::UnknownPart);
    CHECK(again.kit.parts.size() == bench.kit.parts.size());
}

TEST_CASE("a part that came without a slot is not lost when it is removed") {
    Bench bench = laid(trayOnly(), "R1");
    bench.kit.parts.clear();
    bench = done(bench, RemovePart{idOf(bench, "R1")});
    REQUIRE(bench.kit.parts.size() == 1);
    CHECK(part(laid(bench, "R1"), "R1").rating == 10.0);
}

TEST_CASE("fuses are swapped for what is at hand, and a new one is sound") {
    Bench bench = laid(laid(laid(trayOnly(), "F2"), "F1"), "K1");
    const PartId blade = idOf(bench, "F2"), strip = idOf(bench, "F1");
    CHECK(ratingsAtHand(bench, blade) == std::vector<double>{3.0, 7.5, 15.0});
    CHECK(ratingsAtHand(bench, strip) == std::vector<double>{50.0, 60.0, 80.0});
    CHECK(ratingsAtHand(bench, idOf(bench, "K1")).empty());

    bench = done(bench, WearPart{blade, Condition::Open});
    bench = done(bench, FitFuse{blade, 15.0});
    CHECK(part(bench, "F2").rating == 15.0);
    CHECK(part(bench, "F2").condition == Condition::Sound);
    bench = done(bench, FitFuse{blade, 0.0});
    CHECK(part(bench, "F2").rating == 0.0);
    CHECK(part(done(bench, FitFuse{strip, 80.0}), "F1").rating == 80.0);

    const Refusal why = refused(bench, FitFuse{blade, 10.0});
    CHECK(why.why == Why::NotInTray);
    CHECK(why.place == "F2");
    CHECK(why.expected == "3, 7.5, 15, or 0 for none");
    CHECK(why.found == "10 A");
    CHECK(refused(bench, FitFuse{strip, 7.5}).why == Why::NotInTray);
    CHECK(refused(bench, FitFuse{blade, kNan}).why == Why::NotANumber);
    CHECK(refused(bench, FitFuse{blade, -3.0}).why == Why::NotInTray);
    CHECK(refused(bench, FitFuse{idOf(bench, "K1"), 7.5}).why == Why::BladeBlocks);
    CHECK(refused(bench, FitFuse{{99}, 7.5}).why == Why::UnknownPart);
}

TEST_CASE("the fuse a holder came with can go back although the kit has no spare") {
    Bench bench = laid(trayOnly(), "F2");
    bench.kit.blades_A.clear();
    bench = done(bench, FitFuse{idOf(bench, "F2"), 0.0});
    CHECK(part(done(bench, FitFuse{idOf(bench, "F2"), 7.5}), "F2").rating == 7.5);
}

TEST_CASE("controls take their own positions only") {
    const struct {
        std::string ref;
        int positions;
    } rows[] = {{"Q1", 3}, {"S1", 2}, {"S2", 3}, {"S3", 2}, {"S4", 2}, {"K1", 0}, {"M1", 0}};

    for (const auto& row : rows) {
        CAPTURE(row.ref);
        const Bench bench = laid(trayOnly(), row.ref);
        const PartId id = idOf(bench, row.ref);
        for (int position = 0; position < row.positions; ++position) {
            if (row.ref == "Q1" && position == 2) continue;
            CHECK(part(done(bench, Operate{id, position}), row.ref).position == position);
        }
        CHECK(refused(bench, Operate{id, row.positions}).why == Why::NoSuchPosition);
        CHECK(refused(bench, Operate{id, -1}).why == Why::NoSuchPosition);
    }
    CHECK(refused(trayOnly(), Operate{{1}, 0}).why == Why::UnknownPart);
}

TEST_CASE("the isolator turns only with its key in") {
    Bench bench = laid(trayOnly(), "Q1");
    const PartId isolator = idOf(bench, "Q1");
    CHECK(refused(bench, Operate{isolator, 2}).why == Why::KeyNotIn);
    bench = done(bench, Operate{isolator, 1});
    bench = done(bench, Operate{isolator, 2});
    CHECK(part(bench, "Q1").position == 2);
    CHECK(part(done(bench, Operate{isolator, 0}), "Q1").position == 0);
}

TEST_CASE("what the circuit did to a part lasts; only a relay welds") {
    const Bench bench = laid(laid(trayOnly(), "K1"), "E1");
    const PartId relay = idOf(bench, "K1"), lamp = idOf(bench, "E1");
    CHECK(part(done(bench, WearPart{relay, Condition::Welded}), "K1").condition ==
          Condition::Welded);
    CHECK(part(done(bench, WearPart{lamp, Condition::Open}), "E1").condition == Condition::Open);
    CHECK(refused(bench, WearPart{lamp, Condition::Welded}).why == Why::OutOfRange);
    CHECK(refused(bench, WearPart{{99}, Condition::Open}).why == Why::UnknownPart);
}

} // namespace loom::bench

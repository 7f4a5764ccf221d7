// SPDX-License-Identifier: MIT
#include "bench/limits.h"
#include "said.h"
#include "sample_benches.h"

#include <cmath>
#include <limits>

namespace loom::bench {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

// Two lamps and a block: terminals enough for any cable.
struct Fixture {
    Bench bench = laid(laid(trayOnly(), "E1", 0.3, 0.3), "X1", 0.9, 0.5);
    TerminalRef from = terminal(bench, "E1", "in"), to = terminal(bench, "X1", "1 upper");

    const Cable& cable() const { return bench.cables.back(); }

    void make(MakeCable edit = {}) {
        edit.from = from;
        edit.to = to;
        bench = done(bench, edit);
    }

    Refusal refusedMake(double area_m2, Sleeve sleeve, double length_m, const char* label) const {
        return refused(bench, MakeCable{from, to, area_m2, sleeve, length_m, label});
    }
};

} // namespace

TEST_CASE_FIXTURE(Fixture, "a cable cut from a reel gets its ends, a label and both joints") {
    make();
    CHECK(cable().label == "W-1");
    CHECK(cable().area_m2 == 1e-6);
    CHECK(cable().sleeve == Sleeve::Red);
    CHECK(cable().ends[0].at == from);
    CHECK(cable().ends[1].at == to);
    CHECK(cable().ends[0].kind == EndKind::Piggyback);
    CHECK(cable().ends[1].kind == EndKind::Bare);
    CHECK(cable().condition == CableCondition::Sound);
    CHECK(cable().id.number == 3); // after two parts
}

TEST_CASE_FIXTURE(Fixture, "labels count up, skip what is taken, and keep what was asked for") {
    make(MakeCable{{}, {}, 1e-6, Sleeve::Red, 0.0, "W-2"});
    make();
    CHECK(cable().label == "W-1");
    to = terminal(bench, "X1", "3 upper");
    make();
    CHECK(cable().label == "W-3");
    bench = done(bench, RemoveCable{bench.cables[1].id});
    to = terminal(bench, "X1", "2 upper");
    make();
    CHECK(cable().label == "W-1");
    make(MakeCable{{}, {}, 1e-6, Sleeve::Red, 0.0, "W-3"}); // need not be unique
    CHECK(cable().label == "W-3");
}

// The way asks for a quarter more and 5 cm, in steps of 5 cm.
TEST_CASE_FIXTURE(Fixture, "a cable without a length is long enough for where it goes") {
    make();
    const Point a = terminalAt(bench, from), b = terminalAt(bench, to);
    const double asked_m = 1.25 * std::hypot(a.x_m - b.x_m, a.y_m - b.y_m) + 0.05;
    CHECK(cable().length_m >= asked_m);
    CHECK(cable().length_m < asked_m + 0.05);
    CHECK(cable().length_m * 20.0 == std::round(cable().length_m * 20.0));
    from = terminal(bench, "E1", "out");
    make(MakeCable{{}, {}, 1e-6, Sleeve::Red, 1.234});
    CHECK(cable().length_m == 1.234);
}

TEST_CASE_FIXTURE(Fixture, "cable is cut only from reels in the kit, within their ranges") {
    CHECK(refusedMake(1e-6, Sleeve::Grey, 0.5, "").why == Why::NotInTray);
    CHECK(refusedMake(1e-6, Sleeve::Grey, 0.5, "").expected == "a reel of 1 mm2 grey");
    CHECK(refusedMake(1.5e-6, Sleeve::Red, 0.5, "").why == Why::NotInTray);
    CHECK(refusedMake(0.2e-6, Sleeve::Red, 0.5, "").why == Why::OutOfRange);
    CHECK(refusedMake(26e-6, Sleeve::Red, 0.5, "").why == Why::OutOfRange);
    CHECK(refusedMake(-1e-6, Sleeve::Red, 0.5, "").expected == "0.5 to 25 mm2");
    CHECK(refusedMake(kNan, Sleeve::Red, 0.5, "").why == Why::NotANumber);
    CHECK(refusedMake(1e-6, Sleeve::Red, -0.5, "").why == Why::OutOfRange);
    CHECK(refusedMake(1e-6, Sleeve::Red, 20.5, "").expected == "0 < metres <= 20");
    CHECK(refusedMake(1e-6, Sleeve::Red, kNan, "").why == Why::NotANumber);
    bench.kit.reels.clear();
    CHECK(refusedMake(1e-6, Sleeve::Red, 0.5, "").why == Why::NotInTray);
}

TEST_CASE_FIXTURE(Fixture, "labels are plain text of 1 to 24 characters") {
    const std::string widest = "ŵ234567890123456789012345"; // 25 characters, 26 bytes
    CHECK(refusedMake(1e-6, Sleeve::Red, 0.5, widest.c_str()).found == "25 characters");
    make(MakeCable{{}, {}, 1e-6, Sleeve::Red, 0.0, widest.substr(0, 25)});
    CHECK(cable().label == "ŵ23456789012345678901234");
    for (const std::string bad : {"a\nb",
                                  "\x7f",
                                  "\xc2\x85",
                                  "\xff",
                                  "\xc3",
                                  "\xed\xa0\x80",
                                  "\xc0\x80",
                                  "\xf4\x90\x80\x80",
                                  "\xe0\x80\xaf"}) {
        CAPTURE(bad);
        CHECK(refusedMake(1e-6, Sleeve::Red, 0.5, bad.c_str()).why == Why::OutOfRange);
    }
    CHECK(refusedMake(1e-6, Sleeve::Red, 0.5, "P-01").why == Why::Duplicate);
}

TEST_CASE_FIXTURE(Fixture, "a bench takes 800 cables and no more") {
    make();
    const Cable first = cable();
    while (bench.cables.size() < 800) {
        bench.cables.push_back(first);
        bench.cables.back().id = {++bench.lastId};
        bench.cables.back().ends[0].at.reset();
        bench.cables.back().ends[1].at.reset();
    }
    CHECK(refusedMake(1e-6, Sleeve::Red, 0.5, "").why == Why::TooMany);
    CHECK(refused(bench, TakeCable{"P-01", {}, {}}).why == Why::TooMany);
}

TEST_CASE_FIXTURE(Fixture, "a ready-made cable is taken once, as it is, both ends loose") {
    bench = done(bench, TakeCable{"P-01", {0.2, 0.3}, {99.0, -99.0}});
    CHECK(cable().length_m == 0.3);
    CHECK(cable().area_m2 == 10e-6);
    CHECK(cable().sleeve == Sleeve::Black);
    CHECK(cable().ends[0].kind == EndKind::RingM6);
    CHECK_FALSE(cable().ends[0].at);
    CHECK(cable().ends[0].loose_m.x_m == 0.2);
    CHECK(cable().ends[1].loose_m.x_m == 1.5); // the edge of the board
    CHECK(cable().ends[1].loose_m.y_m == 0.0);
    CHECK(isOut(bench, bench.kit.readyMade[0]));
    CHECK(refused(bench, TakeCable{"P-01", {}, {}}).found == "already on the bench");
    CHECK(refused(bench, TakeCable{"P-99", {}, {}}).why == Why::NotInTray);
    CHECK(refused(bench, TakeCable{"P-14", {kNan, 0.0}, {}}).why == Why::NotANumber);
    CHECK(refused(bench, TakeCable{"P-14", {}, {0.0, kNan}}).why == Why::NotANumber);
    bench = done(bench, RemoveCable{cable().id});
    CHECK_FALSE(isOut(bench, bench.kit.readyMade[0]));
}

TEST_CASE_FIXTURE(Fixture, "slots with one label empty one after the other") {
    const auto out = [&] {
        return std::pair(isOut(bench, bench.kit.readyMade[1]),
                         isOut(bench, bench.kit.readyMade[2]));
    };
    CHECK(out() == std::pair(false, false));
    bench = done(bench, TakeCable{"P-14", {}, {}});
    CHECK(cable().ends[0].kind == EndKind::Bare);
    CHECK(out() == std::pair(true, false));
    bench = done(bench, TakeCable{"P-14", {}, {}});
    CHECK(cable().ends[0].kind == EndKind::Spade);
    CHECK(out() == std::pair(true, true));
    CHECK(refused(bench, TakeCable{"P-14", {}, {}}).why == Why::NotInTray);
}

TEST_CASE_FIXTURE(Fixture, "an end comes off, lies on the board, and goes elsewhere") {
    make();
    const CableId id = cable().id;
    bench = done(bench, FreeEnd{id, 1, {5.0, 0.25}});
    CHECK_FALSE(cable().ends[1].at);
    CHECK(endAt(bench, cable().ends[1]).x_m == 1.5);
    CHECK(endAt(bench, cable().ends[1]).y_m == 0.25);
    bench = done(bench, FreeEnd{id, 1, {0.4, 0.6}}); // a loose one moves
    CHECK(endAt(bench, cable().ends[1]).x_m == 0.4);
    bench = done(bench, JoinEnd{id, 1, terminal(bench, "X1", "4 lower")});
    CHECK(terminalName(bench, *cable().ends[1].at) == "X1 4 lower");
    bench = done(bench, JoinEnd{id, 1, terminal(bench, "X1", "5 lower")}); // straight across
    CHECK(endsAt(bench, terminal(bench, "X1", "4 lower")).empty());
    CHECK(endsAt(bench, terminal(bench, "X1", "5 lower")).size() == 1);

    CHECK(refused(bench, FreeEnd{{99}, 0, {}}).why == Why::UnknownCable);
    CHECK(refused(bench, FreeEnd{id, 2, {}}).why == Why::OutOfRange);
    CHECK(refused(bench, FreeEnd{id, -1, {}}).why == Why::OutOfRange);
    CHECK(refused(bench, FreeEnd{id, 0, {kNan, 0.0}}).why == Why::NotANumber);
    CHECK(refused(bench, JoinEnd{{99}, 0, to}).why == Why::UnknownCable);
    CHECK(refused(bench, JoinEnd{id, 5, to}).why == Why::OutOfRange);
    CHECK(refused(bench, JoinEnd{id, 0, {{99}, 0}}).why == Why::UnknownPart);
}

TEST_CASE_FIXTURE(Fixture, "a cable follows the part it is joined to") {
    make();
    const double before_m = endAt(bench, cable().ends[0]).x_m;
    bench = done(bench, MovePart{from.part, {0.4, 0.3}});
    CHECK(std::fabs(endAt(bench, cable().ends[0]).x_m - before_m - 0.1) < 1e-12);
}

TEST_CASE_FIXTURE(Fixture, "a reel cable is made anew in place, and a new piece is sound") {
    make();
    const CableId id = cable().id;
    bench = done(bench, WearCable{id, CableCondition::Charred});
    CHECK(cable().condition == CableCondition::Charred);
    bench = done(bench, ChangeCable{id, 1e-6, Sleeve::Red, cable().length_m, "horn"});
    CHECK(cable().label == "horn");
    CHECK(cable().condition == CableCondition::Charred); // only its label is new
    bench = done(bench, ChangeCable{id, 6e-6, Sleeve::Red, 0.8, ""});
    CHECK(cable().label == "horn");
    CHECK(cable().area_m2 == 6e-6);
    CHECK(cable().length_m == 0.8);
    CHECK(cable().condition == CableCondition::Sound);
    CHECK(cable().ends[1].kind == EndKind::Ferrule); // made anew in the clamp
    CHECK(cable().ends[1].at == to);

    const auto why = [&](ChangeCable edit) {
        edit.cable = id;
        return refused(bench, edit).why;
    };
    CHECK(why({{}, 6e-6, Sleeve::White, 0.8, ""}) == Why::NotInTray);
    CHECK(why({{}, 25e-6, Sleeve::Black, 0.8, ""}) == Why::OutOfRange); // too thick for its clamp
    CHECK(why({{}, 6e-6, Sleeve::Red, 0.0, ""}) == Why::OutOfRange);
    CHECK(why({{}, kNan, Sleeve::Red, 0.8, ""}) == Why::NotANumber);
    CHECK(why({{}, 6e-6, Sleeve::Red, 0.8, "P-01"}) == Why::Duplicate);
    CHECK(why({{}, 6e-6, Sleeve::Red, 0.8, "a\tb"}) == Why::OutOfRange);
    CHECK(refused(bench, ChangeCable{{99}, 1e-6, Sleeve::Red, 0.5, ""}).why == Why::UnknownCable);
    bench = done(bench, TakeCable{"P-01", {}, {}});
    const ChangeCable readyMade{cable().id, 10e-6, Sleeve::Black, 0.5, ""};
    CHECK(refused(bench, readyMade).why == Why::NotInTray);
}

TEST_CASE_FIXTURE(Fixture, "a cable that came without slot or reel is not lost when removed") {
    make();
    bench.kit.reels.clear();
    bench = done(bench, RemoveCable{cable().id});
    CHECK(bench.cables.empty());
    bench = done(bench, TakeCable{"W-1", {}, {}});
    CHECK(cable().ends[0].kind == EndKind::Piggyback);
    CHECK(refused(bench, RemoveCable{{99}}).why == Why::UnknownCable);
    CHECK(refused(bench, WearCable{{99}}).why == Why::UnknownCable);
}

} // namespace loom::bench

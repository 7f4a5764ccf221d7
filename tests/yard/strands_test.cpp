// SPDX-License-Identifier: MIT
// How cables lie and move.
#include "yard/rig.h"

using namespace loom;
using bench::PartKind;
using test::Rig;

TEST_CASE("an opened bench is at rest, each cable reaching from terminal to terminal") {
    const bench::Bench bench = test::pippin();
    yard::Yard yard(bench);
    yard.settle();
    CHECK(yard.asleep());
    for (const bench::Cable& cable : bench.cables) {
        CAPTURE(cable.label);
        const auto* strand = yard.strand(cable.id);
        REQUIRE(strand);
        // Ends that share a terminal lie beside it, at most by two widths of a spade.
        CHECK(test::apart_m(strand->front(), bench::endAt(bench, cable.ends[0])) < 0.022);
        CHECK(test::apart_m(strand->back(), bench::endAt(bench, cable.ends[1])) < 0.022);
        CHECK(std::fabs(test::stretch(yard, cable.id) - 1.0) < 0.03);
    }
    CHECK(yard.takeFindings().empty()); // and nothing lies against the wheel
}

TEST_CASE("a cable keeps its length wherever its end is dragged within reach") {
    Rig rig;
    const bench::CableId id = rig.cable({0.3, 0.3}, {0.6, 0.3}, 0.6);
    yard::Yard yard(rig.bench);
    for (const bench::Point to : {bench::Point{0.7, 0.4}, {0.45, 0.6}, {0.2, 0.25}, {0.6, 0.1}}) {
        test::drag(yard, rig, id, 1, to, 12);
        CHECK(test::secondsToSleep(yard) < 3.0);
        const auto& strand = *yard.strand(id);
        CHECK(std::fabs(test::stretch(yard, id) - 1.0) < 0.03);
        CHECK(test::apart_m(strand.back(), to) < 1e-3);
        CHECK(test::apart_m(strand.front(), {0.3, 0.3}) < 1e-3);
    }
}

TEST_CASE("slack hangs towards the learner") {
    Rig rig;
    const bench::CableId id = rig.cable({0.3, 0.3}, {0.6, 0.3}, 0.6);
    yard::Yard yard(rig.bench);
    test::drag(yard, rig, id, 1, {0.75, 0.3}, 20); // taut
    test::drag(yard, rig, id, 1, {0.6, 0.3}, 20);  // and back: there is slack now
    yard.settle();
    double lowest_m = 0.0, highest_m = 1.0;
    for (const bench::Point& p : *yard.strand(id)) {
        lowest_m = std::max(lowest_m, p.y_m);
        highest_m = std::min(highest_m, p.y_m);
    }
    CHECK(lowest_m > 0.32);
    CHECK(highest_m > 0.28);
}

TEST_CASE("a thick cable bends less tightly than a thin one") {
    const auto tightest_m = [](double area_m2) {
        Rig rig;
        const bench::CableId id = rig.cable({0.3, 0.3}, {0.7, 0.3}, 0.5, area_m2);
        yard::Yard yard(rig.bench);
        test::drag(yard, rig, id, 1, {0.34, 0.3}, 40); // back to the other end
        yard.settle();
        yard.grip(id, (*yard.strand(id))[yard.strand(id)->size() / 2]); // and pulled to a hairpin
        yard.pull({0.32, 0.47});
        yard.settle();
        const auto& s = *yard.strand(id);
        double least_m = 1e9;
        for (std::size_t i = 1; i + 1 < s.size(); ++i) {
            const double a = test::apart_m(s[i - 1], s[i]), b = test::apart_m(s[i], s[i + 1]),
                         c = test::apart_m(s[i - 1], s[i + 1]);
            const double p = 0.5 * (a + b + c);
            const double area = std::sqrt(std::max(1e-16, p * (p - a) * (p - b) * (p - c)));
            least_m = std::min(least_m, a * b * c / (4.0 * area)); // circle through three points
        }
        return least_m;
    };
    const double thin_m = tightest_m(1e-6), thick_m = tightest_m(10e-6);
    CHECK(thick_m > 1.2 * thin_m);
    CHECK(thin_m > 0.008);
    CHECK(thick_m > 0.020);
}

TEST_CASE("cables that are not touched keep their shapes, and those of a moved part follow it") {
    bench::Bench bench = test::pippin();
    yard::Yard yard(bench);
    yard.settle();
    std::vector<std::vector<bench::Point>> before;
    for (const bench::Cable& cable : bench.cables)
        before.push_back(*yard.strand(cable.id));
    for (bench::Part& part : bench.parts)
        if (part.ref == "M1") part.at_m = {1.5, 0.95};
    yard.follow(bench);
    CHECK_FALSE(yard.asleep());
    yard.settle();
    const bench::Part* motor = bench::findPart(bench, std::string("M1"));
    int moved = 0;
    for (std::size_t i = 0; i < bench.cables.size(); ++i) {
        const bench::Cable& cable = bench.cables[i];
        CAPTURE(cable.label);
        const auto& now = *yard.strand(cable.id);
        const bool isOn = cable.ends[1].at && cable.ends[1].at->part == motor->id;
        if (isOn) {
            ++moved;
            CHECK(test::apart_m(now.back(), bench::endAt(bench, cable.ends[1])) < 1e-3);
            CHECK(std::fabs(test::stretch(yard, cable.id) - 1.0) < 0.03);
            continue;
        }
        REQUIRE(now.size() == before[i].size());
        for (std::size_t k = 0; k < now.size(); ++k)
            CHECK(test::apart_m(now[k], before[i][k]) == 0.0);
    }
    CHECK(moved == 2);
}

TEST_CASE("cables come and go, and the others stay where they are") {
    Rig rig;
    const bench::CableId a = rig.cable({0.2, 0.2}, {0.5, 0.2}, 0.4);
    const bench::CableId b = rig.cable({0.2, 0.4}, {0.5, 0.4}, 0.4);
    yard::Yard yard(rig.bench);
    const std::vector<bench::Point> before = *yard.strand(b);
    const std::uint64_t revision = yard.revision();
    rig.bench.cables.erase(rig.bench.cables.begin());
    const bench::CableId c = rig.cable({0.2, 0.6}, {0.5, 0.6}, 0.4);
    yard.follow(rig.bench);
    CHECK(yard.revision() != revision);
    CHECK(yard.strand(a) == nullptr);
    REQUIRE(yard.strand(c));
    REQUIRE(yard.strand(b)->size() == before.size());
    CHECK(test::apart_m((*yard.strand(b))[4], before[4]) == 0.0);
}

TEST_CASE("the hand takes a cable by its middle, and it stays where it was laid") {
    Rig rig;
    const bench::CableId id = rig.cable({0.3, 0.3}, {0.6, 0.3}, 0.8);
    yard::Yard yard(rig.bench);
    yard.settle();
    const std::vector<bench::Point> strand = *yard.strand(id);
    const bench::Point from = strand[strand.size() / 2];
    yard.grip(id, from);
    for (int i = 1; i <= 20; ++i) {
        yard.pull({from.x_m, from.y_m + 0.1 * i / 20});
        yard.step(1.0 / 60);
    }
    CHECK(test::away_m(*yard.strand(id), {from.x_m, from.y_m + 0.1}) < 0.01);
    yard.release();
    CHECK(test::secondsToSleep(yard) < 3.0);
    CHECK(test::away_m(*yard.strand(id), {from.x_m, from.y_m + 0.1}) < 0.05);
}

TEST_CASE("the hand pulls a middle no further than the cable reaches") {
    Rig rig;
    const bench::CableId id = rig.cable({0.3, 0.3}, {0.6, 0.3}, 0.4);
    yard::Yard yard(rig.bench);
    yard.grip(id, {0.45, 0.3});
    yard.pull({0.45, 0.7});
    for (int i = 0; i < 60; ++i)
        yard.step(1.0 / 60);
    CHECK(test::length_m(*yard.strand(id)) < 0.4 * 1.03);
    yard.release();
}

TEST_CASE("the same calls give the same strands, however the time is cut") {
    const auto run = [](double portion_s) {
        Rig rig;
        const bench::CableId id = rig.cable({0.3, 0.3}, {0.6, 0.3}, 0.6);
        yard::Yard yard(rig.bench);
        rig.end(id, 1).loose_m = {0.4, 0.5};
        yard.follow(rig.bench);
        for (double done_s = 0.0; done_s < 0.499; done_s += portion_s)
            yard.step(portion_s);
        return *yard.strand(id);
    };
    const auto once = run(1.0 / 64), again = run(1.0 / 64), fine = run(1.0 / 256);
    REQUIRE(once.size() == fine.size());
    for (std::size_t i = 0; i < once.size(); ++i) {
        CHECK(test::apart_m(once[i], again[i]) == 0.0);
        CHECK(test::apart_m(once[i], fine[i]) < 1e-9);
    }
}

namespace {

// A battery and an isolator, and a cable of which one end is joined to the battery.
bench::CableId hangFromBattery(Rig& rig) {
    rig.lay(PartKind::Battery, "B1", 0.2, 0.5);
    rig.lay(PartKind::Isolator, "Q1", 0.8, 0.5);
    const bench::CableId id = rig.cable({0.3, 0.1}, {0.6, 0.1}, 0.9, 10e-6);
    rig.end(id, 0).kind = rig.end(id, 1).kind = bench::EndKind::RingM8;
    rig.end(id, 0).at = bench::TerminalRef{rig.part("B1").id, 1};
    return id;
}

} // namespace

TEST_CASE("a cable joined by hand slides into the line it would have been opened in") {
    Rig rig;
    const bench::CableId id = hangFromBattery(rig);
    yard::Yard yard(rig.bench);
    test::drag(yard, rig, id, 1, {0.5, 0.05}, 10);
    test::drag(yard, rig, id, 1, {0.8, 0.65}, 10);
    const std::vector<bench::Point> drawn = *yard.strand(id);
    rig.end(id, 1).at = bench::TerminalRef{rig.part("Q1").id, 0};
    yard.follow(rig.bench);
    yard.step(1.0 / 60);
    CHECK_FALSE(yard.asleep());
    CHECK(test::secondsToSleep(yard) < 0.5);

    const yard::Yard opened(rig.bench);
    const std::vector<bench::Point>& wish = *opened.strand(id);
    REQUIRE(yard.strand(id)->size() == wish.size());
    for (std::size_t i = 0; i < wish.size(); ++i)
        CHECK(test::apart_m((*yard.strand(id))[i], wish[i]) < 1e-9);
}

TEST_CASE("a cable pulled at while it slides comes to rest whole") {
    Rig rig;
    const bench::CableId id = hangFromBattery(rig);
    yard::Yard yard(rig.bench);
    rig.end(id, 1).at = bench::TerminalRef{rig.part("Q1").id, 0};
    yard.follow(rig.bench);
    yard.step(0.05);
    test::drag(yard, rig, id, 1, {0.6, 0.3}, 10);
    CHECK(test::secondsToSleep(yard) < 3.0);
    CHECK(std::fabs(test::stretch(yard, id) - 1.0) < 0.03);
}

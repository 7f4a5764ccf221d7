// SPDX-License-Identifier: MIT
// What the yard finds by contact, and what ties hold.
#include "yard/obstacles.h"
#include "yard/rig.h"

using namespace loom;
using bench::PartKind;
using test::Rig;
using yard::Finding;

TEST_CASE("a cable laid over the wheel obstructs the axle, and frees it when it is taken away") {
    Rig rig;
    const bench::PartId motor = rig.lay(PartKind::Motor, "M1", 0.5, 0.35); // the wheel at 0.605
    const bench::CableId id = rig.cable({0.1, 0.6}, {0.4, 0.6}, 1.0);
    yard::Yard yard(rig.bench);
    yard.settle();
    CHECK(yard.takeFindings().empty());
    test::drag(yard, rig, id, 1, {0.605, 0.35}, 20);
    CHECK(test::secondsToSleep(yard) < 3.0);
    auto found = yard.takeFindings();
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == Finding::Kind::AxleObstructed);
    CHECK(found[0].part == motor);
    CHECK(found[0].byCable == id);
    rig.part("M1").obstructed = true; // as the caller records it
    yard.follow(rig.bench);
    yard.settle();
    CHECK(yard.takeFindings().empty()); // told once
    test::drag(yard, rig, id, 1, {0.4, 0.6}, 20);
    yard.settle();
    found = yard.takeFindings();
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == Finding::Kind::AxleFree);
}

TEST_CASE("what the hand carries over the wheel does not obstruct it until it is laid down") {
    Rig rig;
    const bench::PartId motor = rig.lay(PartKind::Motor, "M1", 0.5, 0.35);
    const bench::PartId horn = rig.lay(PartKind::Horn, "P1", 0.3, 0.6);
    yard::Yard yard(rig.bench);
    yard.settle();
    rig.part("P1").at_m = {0.62, 0.35};
    yard.follow(rig.bench, {horn, {}});
    yard.settle();
    CHECK(yard.takeFindings().empty());
    yard.follow(rig.bench);
    CHECK_FALSE(yard.asleep()); // there is something to look at
    yard.step(1.0 / 60);
    auto found = yard.takeFindings();
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == Finding::Kind::AxleObstructed);
    CHECK(found[0].part == motor);
    CHECK(found[0].byPart == horn);
    rig.part("M1").obstructed = true;
    rig.part("P1").at_m = {0.3, 0.6};
    yard.follow(rig.bench);
    yard.settle();
    found = yard.takeFindings();
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == Finding::Kind::AxleFree);
}

TEST_CASE("an axle that the bench already has obstructed is not told again") {
    Rig rig;
    rig.lay(PartKind::Motor, "M1", 0.5, 0.35);
    rig.lay(PartKind::Horn, "P1", 0.62, 0.35);
    rig.part("M1").obstructed = true;
    yard::Yard yard(rig.bench);
    yard.settle();
    CHECK(yard.takeFindings().empty());
}

TEST_CASE("an obstruction that was undone on the bench is not insisted on") {
    Rig rig;
    rig.lay(PartKind::Motor, "M1", 0.5, 0.35);
    const bench::PartId horn = rig.lay(PartKind::Horn, "P1", 0.62, 0.35);
    yard::Yard yard(rig.bench);
    yard.settle();
    CHECK(yard.takeFindings().size() == 1);
    yard.follow(rig.bench); // the bench still says that the axle is free
    yard.settle();
    CHECK(yard.takeFindings().empty());
    rig.part("P1").at_m = {0.3, 0.6};
    yard.follow(rig.bench, {horn, {}});
    yard.settle();
    CHECK(yard.takeFindings().empty()); // free again, as the bench has it
}

TEST_CASE("the wheel turns with the motor") {
    bench::Part motor;
    motor.kind = PartKind::Motor;
    motor.at_m = {0.5, 0.4};
    motor.quarterTurns = 1;
    const auto wheel = yard::wheelOf(motor);
    REQUIRE(wheel);
    CHECK(test::apart_m(wheel->hub_m, {0.5, 0.505}) < 1e-9);
    motor.kind = PartKind::Horn;
    CHECK_FALSE(yard::wheelOf(motor));
}

TEST_CASE("a battery that is not strapped is shifted by what runs into it, a strapped one is not") {
    for (const int strapped : {0, 1}) {
        CAPTURE(strapped);
        Rig rig;
        const bench::PartId battery = rig.lay(PartKind::Battery, "B1", 0.5, 0.4);
        const bench::PartId horn = rig.lay(PartKind::Horn, "P1", 0.3, 0.4);
        rig.part("B1").position = strapped;
        yard::Yard yard(rig.bench);
        rig.part("P1").at_m.x_m = 0.37; // 14 mm into it
        yard.follow(rig.bench, {horn, {}});
        const auto found = yard.takeFindings();
        REQUIRE(found.size() == (strapped ? 0 : 1));
        if (strapped) continue;
        CHECK(found[0].kind == Finding::Kind::BatteryShifted);
        CHECK(found[0].part == battery);
        CHECK(found[0].byPart == horn);
        CHECK(found[0].to_m.x_m > 0.505);
        CHECK(found[0].to_m.x_m < 0.52);
        CHECK(found[0].to_m.y_m == 0.4);
    }
}

TEST_CASE("a tie to the frame holds its cable where it is while an end is dragged about") {
    Rig rig;
    const bench::CableId id = rig.cable({0.2, 0.3}, {0.8, 0.3}, 0.9);
    rig.bench.ties.push_back({++rig.bench.lastId, id, 0.5, {}, 0.5, {0.5, 0.4}});
    yard::Yard yard(rig.bench);
    yard.settle();
    for (const bench::Point to : {bench::Point{0.9, 0.6}, {0.55, 0.2}, {0.3, 0.5}}) {
        test::drag(yard, rig, id, 1, to, 10);
        CHECK(test::secondsToSleep(yard) < 3.0);
        CHECK(test::away_m(*yard.strand(id), {0.5, 0.4}) < 0.002);
    }
    rig.bench.ties.clear();
    yard.follow(rig.bench);
    test::drag(yard, rig, id, 1, {0.2, 0.1}, 10);
    yard.settle();
    CHECK(test::away_m(*yard.strand(id), {0.5, 0.4}) > 0.02); // cut, it comes along
}

TEST_CASE("two cables tied together stay together") {
    Rig rig;
    const bench::CableId a = rig.cable({0.2, 0.3}, {0.8, 0.3}, 0.9);
    const bench::CableId b = rig.cable({0.2, 0.4}, {0.8, 0.4}, 0.9);
    rig.bench.ties.push_back({++rig.bench.lastId, a, 0.5, b, 0.5, {0.5, 0.4}});
    yard::Yard yard(rig.bench);
    yard.settle();
    const auto apart_m = [&] {
        const auto &s = *yard.strand(a), &t = *yard.strand(b);
        return test::apart_m(s[s.size() / 2], t[t.size() / 2]);
    };
    CHECK(apart_m() < 0.015);
    test::drag(yard, rig, a, 1, {0.4, 0.1}, 20);
    CHECK(test::secondsToSleep(yard) < 3.0);
    CHECK(apart_m() < 0.015);
}

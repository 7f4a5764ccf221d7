// How a bench differs from the plan, cable by cable.
#include "bench/catalogue.h"
#include "bench/file.h"
#include "lesson/exercise.h"
#include "lessons/hand.h"
#include "plan/plan.h"
#include "said.h"

#include <doctest/doctest.h>

namespace {

using namespace loom;
using lessontest::textOf;
using plan::Difference;
using plan::DifferenceKind;

const plan::Plan& plan() {
    static const plan::Plan read =
        *lesson::exerciseFromJson(textOf("lessons/04-pippin.json")).value().plan;
    return read;
}

// The bench of the whole vehicle, wired as on the plan.
struct Wired {
    bench::Bench bench = bench::fromJson(textOf("assets/benches/pippin.loom.json")).value();

    bench::Cable& cable(const char* label) {
        for (bench::Cable& cable : bench.cables)
            if (cable.label == label) return cable;
        FAIL("no such cable");
        return bench.cables.front();
    }

    bench::TerminalRef at(const char* ref, const char* terminal) const {
        return bench::findTerminal(bench, ref, terminal).value();
    }

    std::vector<Difference> differs() const { return plan::differences(plan(), bench); }

    Difference only() const {
        const auto all = differs();
        REQUIRE(all.size() == 1);
        return all.front();
    }
};

TEST_CASE("the vehicle wired as on the plan does not differ") {
    CHECK(Wired().differs().empty());
}

TEST_CASE("a cable may lie the other way round, in the other hole, and S3 be turned") {
    Wired wired;
    std::swap(wired.cable("P-32").ends[0], wired.cable("P-32").ends[1]);
    wired.cable("P-32").ends[0].at = wired.at("X1", "10 upper");
    wired.cable("P-18").ends[1].at = wired.at("S3", "out");
    wired.cable("P-19").ends[0].at = wired.at("S3", "in");
    wired.cable("P-04").ends[1].at = wired.at("Q1", "out");
    wired.cable("P-05").ends[0].at = wired.at("Q1", "in");
    CHECK(wired.differs().empty());
}

TEST_CASE("the two leads of a fuse holder share a label and may change places") {
    Wired wired;
    bench::Cable *first = nullptr, *second = nullptr;
    for (bench::Cable& cable : wired.bench.cables)
        if (cable.label == "P-14") (first ? second : first) = &cable;
    REQUIRE(second);
    std::swap(first->ends, second->ends);
    CHECK(wired.differs().empty());
}

TEST_CASE("each kind of difference is named") {
    struct Case {
        DifferenceKind kind;
        const char *label, *told;
        void (*change)(Wired&);
    };

    const Case cases[] = {
        {DifferenceKind::WrongEnd,
         "P-20",
         "P-20 is at X1/5",
         [](Wired& w) { w.cable("P-20").ends[1].at = w.at("X1", "5 upper"); }},
        {DifferenceKind::WrongEnd,
         "P-20",
         "an end of P-20 lies loose",
         [](Wired& w) { w.cable("P-20").ends[1].at.reset(); }},
        {DifferenceKind::WrongEnd,
         "P-19",
         "P-19 is at the other terminal of S3",
         [](Wired& w) { w.cable("P-19").ends[0].at = w.at("S3", "in"); }},
        {DifferenceKind::Missing,
         "P-08",
         "P-08 is not joined",
         [](Wired& w) {
             w.cable("P-08").ends[0].at.reset();
             w.cable("P-08").ends[1].at.reset();
         }},
        {DifferenceKind::WrongSize,
         "P-06",
         "P-06 is 2.5 mm²",
         [](Wired& w) { w.cable("P-06").area_m2 = 2.5e-6; }},
        {DifferenceKind::WrongColour,
         "P-06",
         "P-06 is blue",
         [](Wired& w) { w.cable("P-06").sleeve = bench::Sleeve::Blue; }},
        {DifferenceKind::WrongLength,
         "P-06",
         "P-06 is 0.5 m long",
         [](Wired& w) { w.cable("P-06").length_m = 0.5; }},
        {DifferenceKind::WrongFitting,
         "P-06",
         "P-06 has an end with a bare",
         [](Wired& w) { w.cable("P-06").ends[0].kind = bench::EndKind::Bare; }},
        {DifferenceKind::Extra,
         "W-1",
         "W-1, X1/4 to X1/5, is not on the plan",
         [](Wired& w) {
             bench::Cable extra = w.cable("P-32");
             extra.id = {900};
             extra.label = "W-1";
             extra.ends[0].at = w.at("X1", "4 lower");
             extra.ends[1].at = w.at("X1", "5 lower");
             w.bench.cables.push_back(extra);
         }},
    };
    for (const Case& c : cases) {
        CAPTURE(c.told);
        Wired wired;
        c.change(wired);
        const Difference difference = wired.only();
        CHECK(static_cast<int>(difference.kind) == static_cast<int>(c.kind));
        CHECK(difference.label == c.label);
        CHECK(plan::describe(difference) == c.told);
        CHECK_FALSE(difference.expected.empty());
    }
}

TEST_CASE("a centimetre more or less is none") {
    Wired wired;
    wired.cable("P-06").length_m += 0.01;
    wired.cable("P-15").length_m *= 1.09;
    CHECK(wired.differs().empty());
}

TEST_CASE("two cables crossed are two differences, in the plan's order") {
    Wired wired;
    std::swap(wired.cable("P-20").ends[1].at, wired.cable("P-21").ends[1].at);
    const auto all = wired.differs();
    REQUIRE(all.size() == 2);
    CHECK(all[0].label == "P-20");
    CHECK(all[0].expected == "X1/4");
    CHECK(all[0].found == "X1/5");
    CHECK(all[0].end == 1);
    CHECK(all[1].label == "P-21");
}

TEST_CASE("what belongs to no part of the plan, and what is joined nowhere, is let be") {
    Wired wired;
    wired.cable("D1a").label = "other";
    bench::Cable lying = wired.cable("P-32");
    lying.id = {901};
    lying.ends[0].at.reset();
    lying.ends[1].at.reset();
    wired.bench.cables.push_back(lying);
    CHECK(wired.differs().empty());
}

TEST_CASE("on an empty bench every cable is missing") {
    const auto all = plan::differences(plan(), bench::Bench{});
    CHECK(all.size() == plan().cables.size());
}

} // namespace

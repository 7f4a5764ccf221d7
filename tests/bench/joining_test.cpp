// SPDX-License-Identifier: MIT
// Which end may go where. The counts are common practice, no source; a block's hole is PIPPIN's.
#include "said.h"
#include "sample_benches.h"

namespace loom::bench {
namespace {

// A battery, an isolator, a block and a lamp, and a loose ready-made cable for each kind of end.
struct Fixture {
    Bench bench = trayOnly();
    std::vector<CableId> cableWith; // by EndKind

    Fixture() {
        for (int i = 0; i < 6; ++i) {
            const auto kind = static_cast<EndKind>(i);
            bench.kit.readyMade.push_back({word(kind), 0.5, 1e-6, Sleeve::Red, {kind, kind}});
            bench = done(bench, TakeCable{word(kind), {0.1, 0.9}, {0.2, 0.9}});
            cableWith.push_back(bench.cables.back().id);
        }
        const double x_m[] = {0.15, 0.4, 0.8, 1.2};
        int i = 0;
        for (const char* ref : {"B1", "Q1", "X1", "E1"})
            bench = laid(bench, ref, x_m[i++]);
    }

    TerminalRef at(const char* ref, const char* word) const { return terminal(bench, ref, word); }

    std::optional<Refusal> whyNot(EndKind kind, TerminalRef to, int end = 0) const {
        return whyNotJoin(bench, {cableWith[static_cast<int>(kind)], end, kind}, to);
    }

    void join(EndKind kind, TerminalRef to, int end = 0) {
        bench = done(bench, JoinEnd{cableWith[static_cast<int>(kind)], end, to});
    }

    void wire(TerminalRef from, TerminalRef to, double area_m2 = 1e-6) {
        bench = done(bench, MakeCable{from, to, area_m2});
    }

    EndKind lastMade(int end) const { return bench.cables.back().ends[end].kind; }
};

} // namespace

TEST_CASE_FIXTURE(Fixture, "a terminal says what it takes when the end is of another kind") {
    const struct {
        TerminalRef to;
        EndKind right, wrong;
        std::string place, expected, found;
    } rows[] = {
        {at("B1", "plus"), EndKind::RingM6, EndKind::Spade, "B1 plus", "ring M6", "spade"},
        {at("Q1", "in"), EndKind::RingM8, EndKind::RingM6, "Q1 in", "ring M8", "ring M6"},
        {at("E1", "in"),
         EndKind::Spade,
         EndKind::Bare,
         "E1 in",
         "spade or piggyback spade",
         "bare"},
        {at("X1", "3 upper"),
         EndKind::Ferrule,
         EndKind::Piggyback,
         "X1 3 upper",
         "bare or ferrule",
         "piggyback spade"},
    };

    for (const auto& row : rows) {
        CAPTURE(row.place);
        CHECK_FALSE(whyNot(row.right, row.to));
        const auto why = whyNot(row.wrong, row.to);
        REQUIRE(why);
        CHECK(why->why == Why::WrongEnd);
        CHECK(why->place == row.place);
        CHECK(why->expected == row.expected);
        CHECK(why->found == row.found);
        // The edit refuses for the same reason as the terminal showed.
        const CableId held = cableWith[static_cast<int>(row.wrong)];
        CHECK(refused(bench, JoinEnd{held, 0, row.to}).why == Why::WrongEnd);
    }
}

TEST_CASE_FIXTURE(Fixture, "a stud takes three ends") {
    for (const char* way : {"1 upper", "2 upper", "3 upper"}) {
        CHECK_FALSE(whyNot(EndKind::RingM6, at("B1", "plus")));
        wire(at("B1", "plus"), at("X1", way), 6e-6);
    }
    const auto why = whyNot(EndKind::RingM6, at("B1", "plus"));
    REQUIRE(why);
    CHECK(why->why == Why::TerminalFull);
    CHECK(why->expected == "3 ends at most");
    CHECK(why->found == "4 ends"); // with this one
    const MakeCable fourth{at("B1", "plus"), at("X1", "4 upper"), 6e-6};
    CHECK(refused(bench, fourth).why == Why::TerminalFull);
}

TEST_CASE_FIXTURE(Fixture, "each hole of a block takes two ends, so a way takes four") {
    for (const char* way : {"2 upper", "3 upper"})
        wire(at("X1", "1 upper"), at("X1", way));
    CHECK(whyNot(EndKind::Bare, at("X1", "1 upper"))->why == Why::TerminalFull);
    CHECK(whyNot(EndKind::Bare, at("X1", "1 upper"))->expected == "2 ends at most");
    CHECK_FALSE(whyNot(EndKind::Bare, at("X1", "1 lower")));
}

TEST_CASE_FIXTURE(Fixture, "a hole of a block takes up to 16 mm2") {
    bench = done(bench, MakeCable{at("X1", "1 upper"), at("X1", "2 upper"), 16e-6, Sleeve::Black});
    const Refusal why =
        refused(bench, MakeCable{at("B1", "plus"), at("X1", "3 upper"), 25e-6, Sleeve::Black});
    CHECK(why.why == Why::OutOfRange);
    CHECK(why.place == "X1 3 upper");
    CHECK(why.expected == "16 mm2 at most");
    CHECK(why.found == "25 mm2");
}

TEST_CASE_FIXTURE(Fixture, "a tab takes one plain spade, and one more for each piggyback") {
    join(EndKind::Spade, at("E1", "in"));
    const auto full = whyNotJoin(bench, {cableWith[4], 1, EndKind::Spade}, at("E1", "out"));
    CHECK_FALSE(full);
    bench.kit.readyMade.push_back(
        {"another", 0.5, 1e-6, Sleeve::Red, {EndKind::Spade, EndKind::Spade}});
    bench = done(bench, TakeCable{"another", {0.1, 0.8}, {0.2, 0.8}});
    const Held spade{bench.cables.back().id, 0, EndKind::Spade};
    REQUIRE(whyNotJoin(bench, spade, at("E1", "in")));
    CHECK(whyNotJoin(bench, spade, at("E1", "in"))->why == Why::TerminalFull);
    CHECK(whyNotJoin(bench, spade, at("E1", "in"))->found == "2 ends");

    join(EndKind::Piggyback, at("E1", "in")); // goes under the spade, which moves onto its back
    CHECK(endsAt(bench, at("E1", "in")).size() == 2);
    CHECK(whyNotJoin(bench, spade, at("E1", "in"))->why == Why::TerminalFull);
    bench = done(bench, FreeEnd{cableWith[4], 0, {0.1, 0.1}});
    CHECK_FALSE(whyNotJoin(bench, spade, at("E1", "in")));
}

TEST_CASE_FIXTURE(Fixture, "wiring from a reel never gets stuck at a tab") {
    bench = laid(bench, "P1", 1.3, 0.2);
    std::vector<EndKind> made;
    for (const char* way : {"1 upper", "2 upper", "3 upper", "4 upper"}) {
        wire(at("E1", "in"), at("X1", way));
        made.push_back(lastMade(0));
        CHECK(lastMade(1) == EndKind::Bare);
    }
    CHECK(made == std::vector<EndKind>{
                      EndKind::Piggyback, EndKind::Spade, EndKind::Piggyback, EndKind::Piggyback});
    wire(at("P1", "in"), at("P1", "out"), 6e-6); // too thick for a piggyback spade
    CHECK(lastMade(0) == EndKind::Spade);
    CHECK_FALSE(whyNotJoin(bench, Held{}, at("P1", "in")));
    wire(at("P1", "in"), at("X1", "5 upper"), 6e-6);
    CHECK(lastMade(0) == EndKind::Piggyback);
    CHECK(lastMade(1) == EndKind::Ferrule);
}

TEST_CASE_FIXTURE(Fixture, "both ends of a cable cannot share one terminal") {
    join(EndKind::Bare, at("X1", "1 upper"), 0);
    const auto why = whyNot(EndKind::Bare, at("X1", "1 upper"), 1);
    REQUIRE(why);
    CHECK(why->why == Why::SameTerminal);
    CHECK_FALSE(whyNot(EndKind::Bare, at("X1", "1 lower"), 1)); // the other hole of the way
    CHECK(refused(bench, MakeCable{at("X1", "2 upper"), at("X1", "2 upper")}).why ==
          Why::SameTerminal);
}

TEST_CASE_FIXTURE(Fixture, "where an end is now does not count against it") {
    wire(at("X1", "1 upper"), at("X1", "2 upper"));
    join(EndKind::Bare, at("X1", "1 upper"), 0);
    CHECK_FALSE(whyNot(EndKind::Bare, at("X1", "1 upper"), 0)); // put back where it was
    join(EndKind::Bare, at("X1", "1 upper"), 0);
    CHECK(endsAt(bench, at("X1", "1 upper")).size() == 2);
    CHECK(whyNotJoin(bench, Held{}, at("X1", "1 upper"))->why == Why::TerminalFull);
}

TEST_CASE_FIXTURE(Fixture, "joining at nothing names what is not there") {
    CHECK(whyNot(EndKind::Bare, {{99}, 0})->why == Why::UnknownPart);
    const auto why = whyNot(EndKind::Bare, {idOf(bench, "X1"), 20});
    CHECK(why->why == Why::UnknownTerminal);
    CHECK(why->expected == "terminal 0 to 19");
    CHECK(whyNotJoin(bench, {{99}, 0, EndKind::Bare}, at("X1", "1 upper"))->why ==
          Why::UnknownCable);
    CHECK(whyNotJoin(bench, {cableWith[0], 2, EndKind::Bare}, at("X1", "1 upper")));
}

} // namespace loom::bench

// SPDX-License-Identifier: MIT
// The steps of making ends, and what they are refused for.
#include "handmade.h"
#include "said.h"

#include <cmath>

namespace loom::bench {

TEST_CASE("a clamp whose screw is closed takes no end made by hand, and says so beforehand") {
    Bench bench = handsOn();
    const TerminalRef hole = terminal(bench, "X1", "3 upper");
    MakeCable make;
    make.from = terminal(bench, "B1", "plus");
    make.to = hole;
    const Refusal why = refused(bench, make);
    CHECK(why.why == Why::ScrewClosed);
    CHECK(why.place == "X1 3 upper");
    CHECK(why.expected == "its screw open");
    CHECK(why.found == "tightened with 0.5 N m");
    const auto before = whyNotJoin(bench, {}, hole);
    REQUIRE(before);
    CHECK(before->why == Why::ScrewClosed);
    bench = done(bench, TurnScrew{hole, 0.0});
    CHECK_FALSE(whyNotJoin(bench, {}, hole));
    bench = done(bench, make);
    CHECK(cable(bench).ends[1].at == hole);
}

TEST_CASE("an end taken from a clamp goes into the next only when that is open") {
    Bench bench = handsOn();
    const TerminalRef first = terminal(bench, "X1", "3 upper");
    const TerminalRef second = terminal(bench, "X1", "4 upper");
    bench = cut(bench, first, terminal(bench, "X1", "9 upper"));
    bench = made(bench, 0, {});
    const CableId id = cable(bench).id;
    CHECK(refused(bench, JoinEnd{id, 0, second}).why == Why::ScrewClosed);
    bench = done(bench, TurnScrew{second, 0.0});
    bench = done(bench, JoinEnd{id, 0, second});
    REQUIRE(cable(bench).ends[0].make);
    CHECK(cable(bench).ends[0].make->strip_m == 0.01); // it stays as it was made
    CHECK(cable(bench).ends[0].make->twisted);
    CHECK(cable(bench).ends[0].make->pushed_m == 0.0); // but is not in yet
    CHECK(screwAt(bench, second).torque_Nm == 0.0);
    CHECK(screwAt(bench, first).torque_Nm == 0.5);
    CHECK(done(bench, JoinEnd{id, 0, second}).cables.size() == bench.cables.size());
}

TEST_CASE("a ring takes the nut off by itself, and a fresh cable has nothing done to it") {
    Bench bench = handsOn();
    const TerminalRef post = terminal(bench, "B1", "plus"), stud = terminal(bench, "Q1", "in");
    MakeCable make;
    make.from = post;
    make.to = stud;
    bench = done(bench, make);
    CHECK(screwAt(bench, post).torque_Nm == 0.0);
    CHECK(screwAt(bench, stud).torque_Nm == 0.0);
    REQUIRE(cable(bench).ends[0].make);
    CHECK(cable(bench).ends[0].make->strip_m == 0.0);
    CHECK_FALSE(stateOf(bench, cable(bench), 0).touches);
}

TEST_CASE("an end that is not made by hand is made well in one move, its screw too") {
    Bench bench = handsOn();
    bench.kit.handmade = {"P-01"};
    const TerminalRef hole = terminal(bench, "X1", "3 upper");
    bench = done(bench, TurnScrew{hole, 0.2});
    MakeCable make;
    make.from = terminal(bench, "B1", "plus");
    make.to = hole;
    bench = done(bench, make);
    CHECK(bench.screws.empty());
    for (int end = 0; end < 2; ++end) {
        CHECK_FALSE(cable(bench).ends[end].make);
        CHECK(stateOf(bench, cable(bench), end).faults.empty());
    }
}

TEST_CASE("a ready-made cable comes with its fittings on and its bare ends unstripped") {
    Bench bench = handsOn();
    bench = done(bench, TakeCable{"P-14", {0.1, 0.1}, {0.2, 0.1}});
    const Cable& lead = cable(bench, "P-14"); // bare, spade
    REQUIRE(lead.ends[0].make);
    CHECK(lead.ends[0].make->strip_m == 0.0);
    CHECK(stateOf(bench, lead, 1).faults.empty());
    const Bench post = done(bench, TakeCable{"P-01", {0.1, 0.3}, {0.2, 0.3}}); // two rings
    const CableId rings = cable(post, "P-01").id;
    CHECK(refused(post, StripEnd{rings, 1, 0.01}).why == Why::WrongEnd);
    CHECK(refused(post, PressEnd{rings, 1, EndKind::Bare}).why == Why::WrongEnd);
    // Its bare end takes a ferrule, and loses it again.
    Bench fitted = done(done(bench, StripEnd{lead.id, 0, 0.01}), TwistEnd{lead.id, 0});
    fitted = done(fitted, PressEnd{lead.id, 0, EndKind::Ferrule});
    CHECK(stateOf(fitted, cable(fitted, "P-14"), 0).faults.empty());
    fitted = done(fitted, StripEnd{lead.id, 0, 0.012});
    CHECK(has(stateOf(fitted, cable(fitted, "P-14"), 0), EndFault::NotPressed));
    bench = done(bench, JoinEnd{lead.id, 1, terminal(bench, "S4", "in")});
    const Cable& joined = cable(bench, "P-14");
    CHECK(has(stateOf(bench, joined, 1), EndFault::NotPushedIn));
    bench = done(bench, PushEnd{joined.id, 1, 0.008});
    CHECK(stateOf(bench, cable(bench, "P-14"), 1).faults.empty());
}

TEST_CASE("steps that cannot be done are refused with their reason") {
    Bench bench = handsOn();
    bench = cut(bench, terminal(bench, "X1", "3 upper"), terminal(bench, "B1", "plus"));
    const CableId id = cable(bench).id;
    const TerminalRef hole = terminal(bench, "X1", "3 upper");
    const Bench closed = done(bench, TurnScrew{hole, 0.5});
    const Bench broken = done(bench, TurnScrew{hole, 5.0});
    const Bench loose = done(bench, FreeEnd{id, 0, {0.1, 0.1}});

    struct Row {
        const char* what;
        const Bench& bench;
        Edit edit;
        Why why;
    };

    const double nan = std::nan("");
    const Row rows[] = {
        {"no such cable", bench, StripEnd{{99}, 0, 0.01}, Why::UnknownCable},
        {"no such end", bench, TwistEnd{id, 2}, Why::OutOfRange},
        {"more than 30 mm", bench, StripEnd{id, 0, 0.031}, Why::OutOfRange},
        {"less than nothing", bench, StripEnd{id, 0, -0.001}, Why::OutOfRange},
        {"not a number", bench, StripEnd{id, 0, nan}, Why::NotANumber},
        {"twisting a sleeve", bench, TwistEnd{id, 0}, Why::NotStripped},
        {"pressing on a sleeve", bench, PressEnd{id, 0, EndKind::Ferrule}, Why::NotStripped},
        {"a spade in a clamp",
         done(bench, StripEnd{id, 0, 0.01}),
         PressEnd{id, 0, EndKind::Spade},
         Why::WrongEnd},
        {"pushing a ring", bench, PushEnd{id, 1, 0.01}, Why::WrongEnd},
        {"pushing a loose end", loose, PushEnd{id, 0, 0.01}, Why::NotJoined},
        {"pushing against a closed screw", closed, PushEnd{id, 0, 0.01}, Why::ScrewClosed},
        {"pushing too far", bench, PushEnd{id, 0, 0.04}, Why::OutOfRange},
        {"tugging at a loose end", loose, TugEnd{id, 0}, Why::NotJoined},
        {"a tab has no screw", bench, TurnScrew{terminal(bench, "S4", "in"), 1.0}, Why::WrongEnd},
        {"no such terminal", bench, TurnScrew{{hole.part, 77}, 1.0}, Why::UnknownTerminal},
        {"no such part", bench, MendScrew{{{99}, 0}}, Why::UnknownPart},
        {"backwards", bench, TurnScrew{hole, -1.0}, Why::OutOfRange},
        {"with a crane", bench, TurnScrew{hole, 51.0}, Why::OutOfRange},
        {"a broken screw", broken, TurnScrew{hole, 0.5}, Why::ScrewBroken},
    };
    for (const Row& row : rows) {
        CAPTURE(row.what);
        const Refusal why = refused(row.bench, row.edit);
        CHECK(static_cast<int>(why.why) == static_cast<int>(row.why));
        CHECK_FALSE(why.expected.empty());
        CHECK_FALSE(why.found.empty());
    }
}

TEST_CASE("a fresh cut undoes twist and fitting, a longer strip keeps the twist") {
    Bench bench = handsOn();
    bench = cut(bench, terminal(bench, "X1", "3 upper"), terminal(bench, "B1", "plus"));
    const CableId id = cable(bench).id;
    bench = done(done(bench, StripEnd{id, 0, 0.008}), TwistEnd{id, 0});
    bench = done(bench, StripEnd{id, 0, 0.01});
    CHECK(cable(bench).ends[0].make->twisted);
    bench = done(bench, PressEnd{id, 0, EndKind::Ferrule});
    CHECK(cable(bench).ends[0].kind == EndKind::Ferrule);
    CHECK(cable(bench).ends[0].make->pressed);
    bench = done(bench, StripEnd{id, 0, 0.01});
    CHECK_FALSE(cable(bench).ends[0].make->pressed);
    CHECK_FALSE(cable(bench).ends[0].make->twisted);
}

TEST_CASE("a screw that breaks is done with until a new one is there") {
    Bench bench = handsOn();
    const TerminalRef hole = terminal(bench, "X1", "3 upper");
    bench = done(bench, TurnScrew{hole, 1.5}); // three times what is right
    CHECK(screwAt(bench, hole).broken);
    bench = done(bench, MendScrew{hole});
    CHECK_FALSE(screwAt(bench, hole).broken);
    CHECK(bench.screws.empty());
}

TEST_CASE("a tug frees what does not hold and proves what does") {
    Bench bench = handsOn();
    const TerminalRef hole = terminal(bench, "X1", "3 upper");
    bench = cut(bench, hole, terminal(bench, "B1", "plus"));
    const CableId id = cable(bench).id;
    const Bench good = done(made(bench, 0, {}), TugEnd{id, 0});
    CHECK(cable(good).ends[0].tugged);
    CHECK(cable(good).ends[0].at == hole);
    // Whatever is done to it or its screw afterwards asks for another tug.
    CHECK_FALSE(cable(done(good, TurnScrew{hole, 0.0})).ends[0].tugged);
    const Bench out = done(made(bench, 0, {0.01, 0.005}), TugEnd{id, 0});
    CHECK_FALSE(cable(out).ends[0].at);
    const Point lies = cable(out).ends[0].loose_m, from = terminalAt(out, hole);
    CHECK(std::hypot(lies.x_m - from.x_m, lies.y_m - from.y_m) < 0.05);
    CHECK(std::hypot(lies.x_m - from.x_m, lies.y_m - from.y_m) > 0.005);
    // A sleeve under the screw holds, though it joins nothing: the tug is not enough.
    const Bench sleeve = done(made(bench, 0, {0.01, 0.02}), TugEnd{id, 0});
    CHECK(cable(sleeve).ends[0].tugged);
    CHECK_FALSE(stateOf(sleeve, cable(sleeve), 0).touches);
}

TEST_CASE("the quick way makes everything of an end well") {
    Bench bench = handsOn();
    bench = cut(bench, terminal(bench, "X1", "3 upper"), terminal(bench, "B1", "plus"));
    bench = done(bench, TurnScrew{terminal(bench, "B1", "plus"), 20.0}); // broken
    const CableId id = cable(bench).id;
    for (int end = 0; end < 2; ++end) {
        bench = done(bench, MakeEndWell{id, end});
        CHECK(stateOf(bench, cable(bench), end).faults.empty());
        CHECK(stateOf(bench, cable(bench), end).touches);
    }
    CHECK(bench.screws.empty());
}

TEST_CASE("another piece of cable has ends that are not made yet") {
    Bench bench = handsOn();
    bench = cut(bench, terminal(bench, "B1", "plus"), terminal(bench, "Q1", "in"));
    const CableId id = cable(bench).id;
    bench = done(done(bench, MakeEndWell{id, 0}), MakeEndWell{id, 1});
    const Bench named = done(bench, ChangeCable{id, 1e-6, Sleeve::Red, cable(bench).length_m, "x"});
    CHECK(stateOf(named, cable(named, "x"), 0).faults.empty());
    const Bench longer = done(bench, ChangeCable{id, 1e-6, Sleeve::Red, 2.0, ""});
    CHECK(has(stateOf(longer, cable(longer), 0), EndFault::NotStripped));
}

TEST_CASE("what is removed takes its screws, ties and probes along") {
    Bench bench = handsOn();
    bench = cut(bench, terminal(bench, "X1", "3 upper"), terminal(bench, "B1", "plus"));
    bench = cut(bench, terminal(bench, "X1", "4 upper"), terminal(bench, "Q1", "in"), "W-2");
    const CableId first = cable(bench).id, second = cable(bench, "W-2").id;
    bench = done(bench, TieCable{first, 0.5, second, 0.4, {0.5, 0.5}});
    bench = done(bench, TieCable{second, 0.5, {}, 0.5, {0.5, 0.6}});
    bench = done(bench, PlaceMeter{{1.0, 0.5}});
    bench = done(bench, Probe{0, {terminal(bench, "X1", "3 upper"), {}, 0}});
    bench = done(bench, Probe{1, {{}, first, 1}});
    const Bench noBlock = done(bench, RemovePart{idOf(bench, "X1")});
    CHECK_FALSE(noBlock.meter->probes[0].terminal);
    CHECK(noBlock.meter->probes[1].cable == first);
    for (const Screw& screw : noBlock.screws)
        CHECK(findPart(noBlock, screw.at.part));
    const Bench noCable = done(bench, RemoveCable{first});
    CHECK(noCable.ties.size() == 1);
    CHECK_FALSE(noCable.meter->probes[1].cable);
}

} // namespace loom::bench

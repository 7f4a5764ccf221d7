// SPDX-License-Identifier: MIT
// Thousands of edits as nobody would make them; whatever is accepted leaves a sound bench.
#include "bench/ends.h"
#include "bench/limits.h"
#include "bench/wiring.h"
#include "said.h"
#include "sample_benches.h"

#include <cmath>
#include <limits>
#include <random>
#include <set>

namespace loom::bench {
namespace {

class Hand {
public:
    explicit Hand(std::uint32_t seed) : random(seed) {}

    Edit next(const Bench& bench) {
        switch (below(26)) {
        case 0:
        case 1:
            return LayPart{ref(bench), point(), below(5) - below(2)};
        case 2:
            return MovePart{part(bench), point()};
        case 3:
            return TurnPart{part(bench), below(6) - 1};
        case 4:
            return below(4) ? Edit{Operate{part(bench), below(4) - below(2)}}
                            : Edit{RemovePart{part(bench)}};
        case 5:
        case 6:
        case 7:
        case 8:
            return MakeCable{terminal(bench),
                             terminal(bench),
                             area_m2(),
                             sleeve(),
                             below(3) ? 0.0 : number(),
                             below(3) ? "" : "mine"};
        case 9:
            return TakeCable{below(2) ? "P-01" : "P-14", point(), point()};
        case 10:
            return below(3) ? Edit{FreeEnd{cable(bench), below(2), point()}}
                            : Edit{RemoveCable{cable(bench)}};
        case 11:
        case 12:
            return JoinEnd{cable(bench), below(3) - below(2), terminal(bench)};
        case 13:
            return FreeEnd{cable(bench), below(3) - below(2), point()};
        case 14:
            return ChangeCable{cable(bench), area_m2(), sleeve(), number(), ""};
        case 15:
            return FitFuse{part(bench), below(2) ? 7.5 * below(3) : number()};
        case 16:
        case 17:
        case 18:
        case 19:
            return ofAnEnd(bench);
        case 20:
        case 21:
            return TurnScrew{terminal(bench), below(2) ? 0.0 : below(2) ? 0.5 : number()};
        case 22:
            return ofATieOrAxle(bench);
        case 23:
            return ofTheMeter(bench);
        default:
            return below(2) ? Edit{WearPart{part(bench), static_cast<Condition>(below(3))}}
                            : Edit{WearCable{cable(bench), static_cast<CableCondition>(below(4))}};
        }
    }

private:
    std::mt19937 random;

    Edit ofAnEnd(const Bench& bench) {
        const CableId which = cable(bench);
        const int end = below(2);
        switch (below(9)) {
        case 0:
            return StripEnd{which, end, below(4) ? 0.001 * below(31) : number()};
        case 1:
            return TwistEnd{which, end};
        case 2:
            return PressEnd{which, end, static_cast<EndKind>(below(6))};
        case 3:
        case 4:
            return PushEnd{which, end, below(4) ? 0.001 * below(31) : number()};
        case 5:
            return TugEnd{which, end};
        case 6:
            return MakeEndWell{which, end};
        case 7:
            return MendScrew{terminal(bench)};
        default:
            return WearEnd{which, end};
        }
    }

    Edit ofATieOrAxle(const Bench& bench) {
        switch (below(4)) {
        case 0:
            return CutTie{static_cast<std::uint32_t>(below(static_cast<int>(bench.lastId) + 2))};
        case 1:
            return ObstructAxle{part(bench), below(2) == 0, below(2) ? cable(bench) : CableId{}};
        default:
            return TieCable{cable(bench),
                            below(5) ? 0.5 : number(),
                            below(2) ? cable(bench) : CableId{},
                            0.25,
                            point()};
        }
    }

    Edit ofTheMeter(const Bench& bench) {
        switch (below(8)) {
        case 0:
        case 1:
            return PlaceMeter{point()};
        case 2:
            return HangMeter{};
        case 3:
            return SetMeter{static_cast<MeterRange>(below(5))};
        case 4:
            return below(2) ? Edit{WearMeter{}} : Edit{FitMeterFuse{}};
        default:
            Probe probe{below(3), {}};
            if (below(3)) probe.to.terminal = terminal(bench);
            if (below(3) == 0) probe.to.cable = cable(bench);
            probe.to.end = below(3);
            return probe;
        }
    }

    int below(int limit) { return static_cast<int>(random() % static_cast<unsigned>(limit)); }

    double number() {
        switch (below(12)) {
        case 0:
            return std::numeric_limits<double>::quiet_NaN();
        case 1:
            return -std::numeric_limits<double>::infinity();
        case 2:
            return 1e308;
        case 3:
            return -0.0;
        default:
            return (below(4000) - 1000) / 1000.0;
        }
    }

    Point point() { return {number(), number()}; }

    double area_m2() {
        const double usual_m2[] = {1e-6, 2.5e-6, 4e-6, 6e-6, 10e-6, 25e-6};
        return below(10) ? usual_m2[below(6)] : number() * 1e-6;
    }

    Sleeve sleeve() { return below(3) ? Sleeve::Red : Sleeve::Black; }

    std::string ref(const Bench& bench) {
        const int i = below(static_cast<int>(bench.kit.parts.size()) + 1);
        return i ? bench.kit.parts[static_cast<std::size_t>(i) - 1].ref : "none such";
    }

    // Mostly something that is there, now and then a stale or foreign id.
    PartId part(const Bench& bench) {
        if (bench.parts.empty() || below(20) == 0)
            return {static_cast<std::uint32_t>(below(static_cast<int>(bench.lastId) + 3))};
        return bench.parts[random() % bench.parts.size()].id;
    }

    CableId cable(const Bench& bench) {
        if (bench.cables.empty() || below(20) == 0)
            return {static_cast<std::uint32_t>(below(static_cast<int>(bench.lastId) + 3))};
        return bench.cables[random() % bench.cables.size()].id;
    }

    TerminalRef terminal(const Bench& bench) {
        const PartId owner = part(bench);
        const Part* found = findPart(bench, owner);
        const int count = found ? static_cast<int>(spec(found->kind).terminals.size()) : 3;
        return {owner, static_cast<std::uint8_t>(below(count + (below(20) ? 0 : 2)))};
    }
};

bool onBoard(const Bench& bench, Point point) {
    return point.x_m >= 0.0 && point.x_m <= bench.board_m.x_m && point.y_m >= 0.0 &&
           point.y_m <= bench.board_m.y_m;
}

void checkParts(const Bench& bench, std::set<std::uint32_t>& ids) {
    std::set<std::string> refs;
    for (const Part& part : bench.parts) {
        CHECK(ids.insert(part.id.number).second);
        CHECK(refs.insert(part.ref).second);
        CHECK(onBoard(bench, part.at_m));
        CHECK_FALSE(whyNotRating("", part.kind, part.rating));
        const int positions = static_cast<int>(spec(part.kind).positions.size());
        CHECK(part.position >= 0);
        CHECK(part.position < std::max(positions, 1));
        for (std::size_t i = 0; i < spec(part.kind).terminals.size(); ++i) {
            const Point at = terminalAt(bench, {part.id, static_cast<std::uint8_t>(i)});
            CHECK(onBoard(bench, at));
        }
    }
}

void checkCables(const Bench& bench, std::set<std::uint32_t>& ids) {
    for (const Cable& cable : bench.cables) {
        CHECK(ids.insert(cable.id.number).second);
        CHECK_FALSE(whyNotName("", cable.label));
        CHECK_FALSE(whyNotLength("", cable.length_m));
        CHECK_FALSE(whyNotArea("", cable.area_m2));
        CHECK(wholeArea_m2(cable.area_m2) == cable.area_m2);
        CHECK((!cable.ends[0].at || cable.ends[0].at != cable.ends[1].at));
        for (const CableEnd& end : cable.ends) {
            CHECK(onBoard(bench, end.loose_m));
            if (!end.at) continue;
            const Part* part = findPart(bench, end.at->part);
            REQUIRE(part);
            REQUIRE(end.at->terminal < spec(part->kind).terminals.size());
            CHECK(fits(end.kind, spec(part->kind).terminals[end.at->terminal].kind));
        }
    }
}

void checkRoom(const Bench& bench) {
    for (const Part& part : bench.parts) {
        const auto& terminals = spec(part.kind).terminals;
        for (std::size_t i = 0; i < terminals.size(); ++i) {
            int ends = 0, piggybacks = 0;
            for (const EndRef& ref : endsAt(bench, {part.id, static_cast<std::uint8_t>(i)})) {
                ++ends;
                const EndKind kind = findCable(bench, ref.cable)->ends[ref.end].kind;
                piggybacks += kind == EndKind::Piggyback ? 1 : 0;
            }
            CHECK(ends <= capacity(terminals[i].kind) + piggybacks);
        }
    }
}

void checkWiring(const Bench& bench) {
    const Wiring wiring = wire(bench);
    std::set<circuit::Key> keys;
    for (const circuit::Element& element : wiring.netlist.elements) {
        CHECK(element.key != 0);
        CHECK(keys.insert(element.key).second);
    }
    for (const auto& nodes : wiring.nodes) {
        for (const circuit::Node node : nodes)
            CHECK(node < wiring.netlist.nodeCount);
    }
}

void checkHandsOn(const Bench& bench, std::set<std::uint32_t>& ids) {
    for (const Screw& screw : bench.screws) {
        const Part* owner = findPart(bench, screw.at.part);
        REQUIRE(owner);
        REQUIRE(screw.at.terminal < spec(owner->kind).terminals.size());
        CHECK(spec(owner->kind).terminals[screw.at.terminal].kind != TerminalKind::Tab);
        CHECK(screw.torque_Nm >= 0.0);
        CHECK(screw.torque_Nm <= torqueFor(bench, screw.at).breaks_Nm);
    }
    for (const Tie& tie : bench.ties) {
        CHECK(ids.insert(tie.id).second);
        CHECK(findCable(bench, tie.cable));
        CHECK((!tie.other || findCable(bench, tie.other)));
        CHECK(onBoard(bench, tie.at_m));
    }
    if (!bench.meter) return;
    CHECK(onBoard(bench, bench.meter->at_m));
    for (const ProbeTip& tip : bench.meter->probes) {
        CHECK((!tip.terminal || findPart(bench, tip.terminal->part)));
        CHECK((!tip.cable || findCable(bench, tip.cable)));
    }
}

void checkEnds(const Bench& bench) {
    for (const Cable& cable : bench.cables) {
        for (int end = 0; end < 2; ++end) {
            const EndState state = stateOf(bench, cable, end);
            CHECK(state.resistance_ohm >= 0.5e-3);
            CHECK(state.copperShows_m >= 0.0);
            CHECK((state.touches ? cable.ends[end].at.has_value() : true));
            const auto& make = cable.ends[end].make;
            CHECK((!make || (make->strip_m >= 0.0 && make->strip_m <= kMakeMost_m)));
            CHECK((!make || (make->pushed_m >= 0.0 && make->pushed_m <= kMakeMost_m)));
        }
    }
}

void checkSound(const Bench& bench) {
    std::set<std::uint32_t> ids;
    checkParts(bench, ids);
    checkCables(bench, ids);
    checkHandsOn(bench, ids);
    checkEnds(bench);
    checkRoom(bench);
    CHECK((ids.empty() || *ids.rbegin() <= bench.lastId));
    CHECK(ids.count(0) == 0);
}

} // namespace

TEST_CASE("whatever is edited, in whatever order, the bench stays sound and can be saved") {
    int accepted = 0, refusedCount = 0;
    for (std::uint32_t seed = 1; seed <= 5; ++seed) {
        CAPTURE(seed);
        Hand hand(seed);
        Bench bench = trayOnly();
        if (seed % 2) bench.kit.handmade = {"*"};
        for (int step = 0; step < 1600; ++step) {
            CAPTURE(step);
            const Edit edit = hand.next(bench);
            const Outcome<Bench> after = loom::bench::apply(bench, edit);
            if (!after) {
                ++refusedCount;
                CHECK_FALSE(after.refusal().place.empty());
                CHECK_FALSE(after.refusal().expected.empty());
                CHECK_FALSE(after.refusal().found.empty());
                continue;
            }
            ++accepted;
            bench = after.value();
            checkSound(bench);
            if (step % 20) continue;
            checkWiring(bench);
            const Outcome<Bench> again = fromJson(toJson(bench));
            if (!again) FAIL(again.refusal().place << ": " << again.refusal().expected);
            CHECK(identical(bench, again.value()));
        }
        CHECK(bench.parts.size() > 5);
        CHECK(bench.cables.size() > 5);
    }
    CHECK(accepted > 1500);
    CHECK(refusedCount > 1500);
}

} // namespace loom::bench

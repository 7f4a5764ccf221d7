// SPDX-License-Identifier: MIT
// Everything is dragged about with everything, at any speed. Whatever is done, no strand is torn,
// thrown off the board or left with a number that is none.
#include "problems/dice.h"
#include "yard/rig.h"

using namespace loom;

namespace {

// Gives a point anywhere on the board, and now and then far outside it.
struct Hand {
    problems::Dice& dice;
    bench::Point board_m;

    bench::Point anywhere() {
        const double over = dice.between(0.0, 1.0) < 0.1 ? 0.5 : 0.0;
        return {dice.between(-over, board_m.x_m + over), dice.between(-over, board_m.y_m + over)};
    }
};

// The first thing that is wrong with a strand; empty when all is well.
std::string fault(const std::vector<bench::Point>& strand,
                  const std::vector<double>& links,
                  bench::Point board_m) {
    if (links.size() + 1 != strand.size()) return "links and points do not match";
    for (std::size_t i = 0; i < strand.size(); ++i) {
        const bench::Point p = strand[i];
        if (!std::isfinite(p.x_m) || !std::isfinite(p.y_m)) return "not a number";
        if (p.x_m < -0.3 || p.y_m < -0.3 || p.x_m > board_m.x_m + 0.3 || p.y_m > board_m.y_m + 0.3)
            return "off the board at point " + std::to_string(i);
        if (i > 0 && test::apart_m(strand[i - 1], p) > 1.5 * links[i - 1])
            return "torn before point " + std::to_string(i);
    }
    return "";
}

void checkWhole(const yard::Yard& yard, const bench::Bench& bench) {
    for (const bench::Cable& cable : bench.cables) {
        CAPTURE(cable.label);
        const auto* strand = yard.strand(cable.id);
        REQUIRE(strand);
        REQUIRE(fault(*strand, *yard.links(cable.id), bench.board_m) == "");
    }
}

} // namespace

TEST_CASE("a thousand random drags of everything with everything") {
    problems::Dice dice(5);
    const bench::Bench whole = test::pippin();
    bench::Bench bench = whole;
    yard::Yard yard(bench);
    Hand hand{dice, bench.board_m};
    double slowest_s = 0.0;
    for (int drag = 0; drag < 1000; ++drag) {
        CAPTURE(drag);
        yard::InHand inHand;
        bench::Point* held = nullptr;
        const int what = static_cast<int>(dice.below(4));
        bench::Cable& cable = bench.cables[dice.below(std::uint32_t(bench.cables.size()))];
        if (what == 0) { // a part
            bench::Part& part = bench.parts[dice.below(std::uint32_t(bench.parts.size()))];
            held = &part.at_m;
            inHand.part = part.id;
            if (dice.oneIn(4)) part.quarterTurns = static_cast<int>(dice.below(4));
        } else if (what < 3) { // an end, put on a terminal or left lying
            bench::CableEnd& end = cable.ends[dice.below(2)];
            end.loose_m = bench::endAt(bench, end);
            end.at.reset();
            held = &end.loose_m;
            inHand.cable = cable.id;
        }
        const bench::Point from = held ? *held : hand.anywhere(), to = hand.anywhere();
        if (!held) yard.grip(cable.id, from);
        const int frames = 1 + static_cast<int>(dice.below(dice.oneIn(3) ? 8 : 3));
        for (int i = 1; i <= frames; ++i) {
            const double share = static_cast<double>(i) / frames;
            const bench::Point now{from.x_m + share * (to.x_m - from.x_m),
                                   from.y_m + share * (to.y_m - from.y_m)};
            if (held)
                *held = now;
            else
                yard.pull(now);
            yard.follow(bench, inHand);
            INFO("frame ", i, " of ", frames, " what ", what, " id ", cable.id.number);
            yard.step(1.0 / 60);
            checkWhole(yard, bench);
        }
        if (!held) yard.release();
        if (what == 2)
            cable.ends[dice.below(2)] = bench::findCable(whole, cable.id)->ends[dice.below(2)];
        if (dice.oneIn(50)) bench = whole; // as undo does
        yard.follow(bench);
        yard.step(1.0 / 60);
        if (dice.oneIn(25)) slowest_s = std::max(slowest_s, test::secondsToSleep(yard));
        checkWhole(yard, bench);
    }
    CHECK(slowest_s < 3.0);
    CHECK(test::secondsToSleep(yard) < 3.0);
}

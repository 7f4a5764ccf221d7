// SPDX-License-Identifier: MIT
// The bench file of Pippin against the wiring plan: the rows below are the plan's table.
#include "bench/wiring.h"
#include "sample_benches.h"

#include <cmath>
#include <map>
#include <set>

namespace loom::bench {
namespace {

struct PlanRow {
    std::string label, from, to; // a way of X1 is "X1/3"; an in-line fuse makes two rows
    double area_mm2;
    Sleeve sleeve;
    double length_m;
    EndKind fromEnd, toEnd;
};

constexpr EndKind kM6 = EndKind::RingM6, kM8 = EndKind::RingM8, kFerrule = EndKind::Ferrule;
constexpr EndKind kBare = EndKind::Bare, kSpade = EndKind::Spade, kPiggyback = EndKind::Piggyback;

// clang-format off
const PlanRow plan[] = {
    {"P-01", "B1 plus", "B2 minus", 10, Sleeve::Black, 0.30, kM6, kM6},
    {"P-02", "B1 minus", "X1/10", 10, Sleeve::Black, 0.70, kM6, kFerrule},
    {"P-03", "B2 plus", "F1 in", 10, Sleeve::Red, 0.25, kM6, kM6},
    {"P-04", "F1 out", "Q1 in", 10, Sleeve::Red, 0.40, kM6, kM8},
    {"P-05", "Q1 out", "X1/1", 10, Sleeve::Red, 0.60, kM8, kFerrule},
    {"P-06", "X1/1", "K1 normally open", 6, Sleeve::Red, 0.35, kFerrule, kM6},
    {"P-07", "K1 normally open", "K2 normally open", 6, Sleeve::Red, 0.15, kM6, kM6},
    {"P-08", "X1/10", "K1 normally closed", 6, Sleeve::Black, 0.35, kFerrule, kM6},
    {"P-09", "K1 normally closed", "K2 normally closed", 6, Sleeve::Black, 0.15, kM6, kM6},
    {"P-10", "K1 common", "X1/6", 6, Sleeve::White, 0.35, kM6, kFerrule},
    {"P-11", "K2 common", "X1/7", 6, Sleeve::Grey, 0.40, kM6, kFerrule},
    {"P-12", "X1/6", "M1 lead 1", 6, Sleeve::White, 0.90, kFerrule, kM6},
    {"P-13", "X1/7", "M1 lead 2", 6, Sleeve::Grey, 0.90, kFerrule, kM6},
    {"P-14", "X1/1", "F2 in", 1, Sleeve::Red, 0.10, kBare, kSpade},
    {"P-14", "F2 out", "X1/2", 1, Sleeve::Red, 0.10, kSpade, kBare},
    {"P-15", "X1/2", "S1 in", 1, Sleeve::Red, 1.10, kBare, kSpade},
    {"P-16", "S1 out", "X1/3", 1, Sleeve::Orange, 1.10, kPiggyback, kBare},
    {"P-17", "S1 lamp return", "X1/9", 0.75, Sleeve::Black, 1.10, kSpade, kBare},
    {"P-18", "X1/3", "S3 in", 1, Sleeve::Orange, 1.00, kBare, kSpade},
    {"P-19", "S3 out", "S2 common", 1, Sleeve::Orange, 0.20, kSpade, kSpade},
    {"P-20", "S2 forward", "X1/4", 1, Sleeve::Violet, 1.10, kSpade, kBare},
    {"P-21", "S2 reverse", "X1/5", 1, Sleeve::Green, 1.10, kSpade, kBare},
    {"P-22", "X1/4", "K1 coil a", 0.75, Sleeve::Violet, 0.35, kBare, kPiggyback},
    {"P-23", "X1/5", "K2 coil a", 0.75, Sleeve::Green, 0.45, kBare, kPiggyback},
    {"P-24", "K1 coil b", "K2 coil b", 0.75, Sleeve::Black, 0.20, kPiggyback, kPiggyback},
    {"P-25", "K2 coil b", "X1/10", 0.75, Sleeve::Black, 0.45, kSpade, kBare},
    // F3 stands further from way 1 here than on the vehicle, so its lead is longer than the plan's.
    {"P-26", "X1/1", "F3 in", 1, Sleeve::Red, 0.30, kBare, kSpade},
    {"P-26", "F3 out", "X1/8", 1, Sleeve::Red, 0.10, kSpade, kBare},
    {"P-27", "S4 out", "E1 in", 1, Sleeve::Yellow, 0.60, kSpade, kSpade},
    {"P-28", "E1 out", "X1/9", 1, Sleeve::Black, 0.90, kSpade, kBare},
    {"P-29", "S1 out", "S5 in", 1, Sleeve::Orange, 0.30, kSpade, kSpade},
    {"P-30", "S5 out", "P1 in", 1, Sleeve::Blue, 0.50, kSpade, kSpade},
    {"P-31", "P1 out", "X1/9", 1, Sleeve::Black, 0.60, kSpade, kBare},
    {"P-32", "X1/9", "X1/10", 6, Sleeve::Black, 0.10, kFerrule, kFerrule},
    {"P-33", "X1/8", "S4 in", 1, Sleeve::Yellow, 0.90, kBare, kSpade},
    // The diodes across the coils, cathode to the side that the selector feeds.
    {"D1a", "D1 cathode", "K1 coil a", 0.75, Sleeve::Violet, 0.10, kSpade, kSpade},
    {"D1b", "D1 anode", "K1 coil b", 0.75, Sleeve::Black, 0.10, kSpade, kSpade},
    {"D2a", "D2 cathode", "K2 coil a", 0.75, Sleeve::Green, 0.10, kSpade, kSpade},
    {"D2b", "D2 anode", "K2 coil b", 0.75, Sleeve::Black, 0.10, kSpade, kPiggyback},
};

// clang-format on

// "X1/3" for either hole of a way, the terminal's name for all others.
std::string planName(const Bench& bench, TerminalRef terminal) {
    const std::string name = terminalName(bench, terminal);
    if (name.rfind("X1 ", 0) != 0) return name;
    return "X1/" + name.substr(3, name.find(' ', 3) - 3);
}

// Sets of terminals joined by cables and common metal.
class Joined {
public:
    explicit Joined(const Bench& subject) : bench(subject), wiring(wire(subject)) {
        for (circuit::Node node = 0; node < wiring.netlist.nodeCount; ++node)
            parent[node] = node;
        for (const circuit::Element& element : wiring.netlist.elements) {
            if (const auto* cable = std::get_if<circuit::Cable>(&element.part))
                parent[root(cable->a)] = root(cable->b);
        }
    }

    bool joined(const char* ref, const char* word, const char* otherRef, const char* otherWord) {
        return root(node(ref, word)) == root(node(otherRef, otherWord));
    }

    std::size_t sets() {
        std::set<circuit::Node> roots;
        for (const auto& nodes : wiring.nodes) {
            for (const circuit::Node node : nodes)
                roots.insert(root(node));
        }
        return roots.size();
    }

private:
    const Bench& bench;
    Wiring wiring;
    std::map<circuit::Node, circuit::Node> parent;

    circuit::Node node(const char* ref, const char* word) {
        return *nodeOf(bench, wiring, terminal(bench, ref, word));
    }

    circuit::Node root(circuit::Node node) {
        while (parent[node] != node)
            node = parent[node];
        return node;
    }
};

struct Box {
    double left_m, right_m, top_m, bottom_m;
};

Box boxOf(const Part& part) {
    const PartSpec& kind = spec(part.kind);
    const bool onEdge = part.quarterTurns % 2 != 0;
    const double width_m = onEdge ? kind.height_m : kind.width_m;
    const double height_m = onEdge ? kind.width_m : kind.height_m;
    return {part.at_m.x_m - width_m / 2,
            part.at_m.x_m + width_m / 2,
            part.at_m.y_m - height_m / 2,
            part.at_m.y_m + height_m / 2};
}

} // namespace

TEST_CASE("Pippin's cables are those of the wiring plan, in its order") {
    const Bench bench = pippin();
    REQUIRE(bench.cables.size() == std::size(plan));
    for (std::size_t i = 0; i < std::size(plan); ++i) {
        const PlanRow& row = plan[i];
        const Cable& cable = bench.cables[i];
        CAPTURE(row.label);
        CHECK(cable.label == row.label);
        REQUIRE(cable.ends[0].at);
        REQUIRE(cable.ends[1].at);
        CHECK(planName(bench, *cable.ends[0].at) == row.from);
        CHECK(planName(bench, *cable.ends[1].at) == row.to);
        CHECK(cable.ends[0].kind == row.fromEnd);
        CHECK(cable.ends[1].kind == row.toEnd);
        CHECK(cable.area_m2 == row.area_mm2 / 1e6);
        CHECK(cable.sleeve == row.sleeve);
        CHECK(cable.length_m == row.length_m);
    }
}

TEST_CASE("Pippin's network joins what the plan joins and nothing else") {
    const Bench bench = pippin();
    const Wiring wiring = wire(bench);
    std::map<std::string, circuit::Node> nodeByName;
    for (std::size_t i = 0; i < bench.parts.size(); ++i) {
        for (std::size_t t = 0; t < wiring.nodes[i].size(); ++t) {
            const TerminalRef terminal{bench.parts[i].id, static_cast<std::uint8_t>(t)};
            nodeByName[planName(bench, terminal)] = wiring.nodes[i][t];
        }
    }
    std::size_t cables = 0;
    for (const circuit::Element& element : wiring.netlist.elements) {
        const auto* cable = std::get_if<circuit::Cable>(&element.part);
        if (!cable) continue;
        const PlanRow& row = plan[cables++];
        CAPTURE(row.label);
        CHECK(cable->a == nodeByName.at(row.from));
        CHECK(cable->b == nodeByName.at(row.to));
    }
    CHECK(cables == std::size(plan));

    Joined joined(bench);
    CHECK(joined.joined("Q1", "out", "K2", "normally open"));
    CHECK(joined.joined("B1", "minus", "K2", "normally closed"));
    CHECK(joined.joined("B1", "minus", "S1", "lamp return"));
    CHECK(joined.joined("B1", "minus", "P1", "out"));
    CHECK(joined.joined("S1", "out", "S5", "in"));
    CHECK(joined.joined("D1", "cathode", "S2", "forward"));
    CHECK(joined.joined("D2", "cathode", "S2", "reverse"));
    CHECK(joined.joined("D2", "anode", "B1", "minus"));
    CHECK_FALSE(joined.joined("Q1", "out", "B1", "minus"));
    CHECK_FALSE(joined.joined("S2", "forward", "S2", "reverse"));
    CHECK_FALSE(joined.joined("M1", "lead 1", "M1", "lead 2"));
    // Link, B2+, F1 out, +24 V, ways 2 to 8, S3 to S2, S4 to E1, S5 to P1, 0 V: counted by hand.
    CHECK(joined.sets() == 4 + 7 + 3 + 1);
}

TEST_CASE("Pippin lies ready and at rest: everything of the kit is out, all controls are off") {
    const Bench bench = pippin();
    CHECK(bench.parts.size() == 19);
    for (const PartSlot& slot : bench.kit.parts)
        CHECK(isOut(bench, slot));
    for (const CableSlot& slot : bench.kit.readyMade)
        CHECK(isOut(bench, slot));
    for (const Part& part : bench.parts) {
        CAPTURE(part.ref);
        // The batteries are strapped down, as they have to be before anything is joined to them.
        const bool battery = part.kind == PartKind::Battery;
        CHECK(part.position == (battery ? 1 : spec(part.kind).restPosition));
        CHECK(part.condition == Condition::Sound);
    }
    CHECK(part(bench, "F1").rating == 50.0);
    CHECK(part(bench, "F2").rating == 7.5);
    CHECK(part(bench, "F3").rating == 3.0);
}

TEST_CASE("Pippin's parts lie on the board and not on one another") {
    const Bench bench = pippin();
    for (const Part& part : bench.parts) {
        CAPTURE(part.ref);
        const Box own = boxOf(part);
        CHECK(own.left_m >= 0.05);
        CHECK(own.top_m >= 0.05);
        CHECK(own.right_m <= bench.board_m.x_m - 0.05);
        CHECK(own.bottom_m <= bench.board_m.y_m - 0.05);
        for (const Part& other : bench.parts) {
            if (other.id == part.id) continue;
            CAPTURE(other.ref);
            const Box box = boxOf(other);
            const double across_m = std::max(box.left_m - own.right_m, own.left_m - box.right_m);
            const double down_m = std::max(box.top_m - own.bottom_m, own.top_m - box.bottom_m);
            CHECK(std::max(across_m, down_m) >= 0.002);
        }
    }
}

TEST_CASE("Pippin can be built by hand from its kit") {
    const Bench whole = pippin();
    Bench bench = whole;
    bench.parts.clear();
    bench.cables.clear();
    for (const Part& part : whole.parts)
        bench = done(bench, LayPart{part.ref, part.at_m, part.quarterTurns});
    for (const Cable& cable : whole.cables) {
        bench = done(bench, TakeCable{cable.label, {0.5, 0.5}, {0.6, 0.5}});
        for (int end = 0; end < 2; ++end) {
            const Part& owner = *findPart(whole, cable.ends[end].at->part);
            const TerminalRef to{idOf(bench, owner.ref), cable.ends[end].at->terminal};
            bench = done(bench, JoinEnd{bench.cables.back().id, end, to});
        }
    }
    REQUIRE(bench.cables.size() == whole.cables.size());
    for (std::size_t i = 0; i < whole.cables.size(); ++i) {
        CHECK(bench.cables[i].length_m == whole.cables[i].length_m);
        CHECK(bench.cables[i].ends[0].kind == whole.cables[i].ends[0].kind);
    }
}

TEST_CASE("the free bench starts empty, with a part of every kind in the tray") {
    const Outcome<Bench> read = fromJson(repositoryFile("assets/benches/free.loom.json"));
    REQUIRE(read);
    CHECK(read.value().parts.empty());
    std::set<PartKind> kinds;
    for (const PartSlot& slot : read.value().kit.parts)
        kinds.insert(slot.kind);
    CHECK(kinds.size() == allKinds().size());
    Bench bench = read.value();
    for (const PartSlot& slot : read.value().kit.parts)
        bench = laid(bench, slot.ref);
}

} // namespace loom::bench

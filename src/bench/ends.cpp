// SPDX-License-Identifier: MIT
// The rules of a good end. Lengths: common practice, no source, but for about 10 mm of bare copper
// in a screw clamp (common practice too). Torques: at torqueFor(). Contact resistances: a sound
// one is 1 mohm or less (from memory), the others are ours, large enough to be seen.
#include "bench/ends.h"

#include "bench/catalogue.h"
#include "bench/limits.h"

#include <algorithm>

namespace loom::bench {
namespace {

constexpr double kSound_ohm = 0.5e-3;
constexpr double kStrandsCut_ohm = 1.0e-3;  // too tight: still sound
constexpr double kLooseScrew_ohm = 5e-3;    // and it grows, as every loose one does
constexpr double kFewStrands_ohm = 10e-3;   // too little copper under the screw or in the barrel
constexpr double kNotPressed_ohm = 20e-3;   // a fitting slipped on
constexpr double kLyingThere_ohm = 100e-3;  // metal that only lies against metal
constexpr double kThroughSleeve_ohm = 10.0; // the screw's edge has cut the sleeve a little

// A clamp, from the mouth of its hole: the screw bites 6 mm in, so the copper has to come 2 mm past
// it and the sleeve to stay 4 mm before it. Common practice, no source.
constexpr double kPastScrew_m = 0.008, kSleeveIn_m = 0.002, kSleeveAtScrew_m = 0.006;
// Below this an end does not reach the metal.
constexpr double kReachesMetal_m = 0.002;
// The screw of a hole with two ends rests on the one further in when it is so much further in.
constexpr double kMissed_m = 0.002;
// The share of the least torque at which a screw holds an end against a gentle tug: common practice, no source.
constexpr double kHoldsAt = 0.5;
// A strand or bare copper reaches a neighbour so far away. Drawn parts are larger than real ones.
constexpr double kNeighbour_m = 0.045;

constexpr double kMm = 1e-3;

TerminalKind kindAt(const Bench& bench, TerminalRef at) {
    return spec(findPart(bench, at.part)->kind).terminals[at.terminal].kind;
}

bool isFitted(EndKind kind) {
    return kind != EndKind::Bare;
}

// The nearest terminal of another metal on the same part.
std::optional<TerminalRef> neighbourOf(const Bench& bench, TerminalRef at) {
    const auto& terminals = spec(findPart(bench, at.part)->kind).terminals;
    const TerminalSpec& own = terminals[at.terminal];
    std::optional<TerminalRef> nearest;
    double least_m2 = kNeighbour_m * kNeighbour_m;
    for (std::size_t i = 0; i < terminals.size(); ++i) {
        if (terminals[i].node == own.node) continue;
        const double dx_m = terminals[i].x_m - own.x_m, dy_m = terminals[i].y_m - own.y_m;
        const double away_m2 = dx_m * dx_m + dy_m * dy_m;
        if (away_m2 >= least_m2) continue;
        least_m2 = away_m2;
        nearest = TerminalRef{at.part, static_cast<std::uint8_t>(i)};
    }
    return nearest;
}

// How far in the other ends of the same hole are, the furthest of them.
double deepestOther_m(const Bench& bench, const Cable& cable, int end, TerminalRef at) {
    double deepest_m = 0.0;
    for (const EndRef& ref : endsAt(bench, at)) {
        if (ref.cable == cable.id && ref.end == end) continue;
        const Cable& other = *findCable(bench, ref.cable);
        const CableEnd& made = other.ends[ref.end];
        const double pushed_m =
            made.make ? made.make->pushed_m : targetFor(made.kind, other.area_m2).pushed_m;
        deepest_m = std::max(deepest_m, pushed_m);
    }
    return deepest_m;
}

// Goes through what was done to one end and collects what follows.
class Judge {
public:
    Judge(const Bench& judged, const Cable& of, int which)
        : bench(judged), cable(of), end(which), made(of.ends[which]),
          make(made.make ? *made.make : wellMade(made.kind, of.area_m2, true)),
          target(targetFor(made.kind, of.area_m2)) {}

    EndState state() {
        strip();
        strands();
        fitting();
        if (!made.at) {
            found.touches = false;
            return found;
        }
        const TerminalKind kind = kindAt(bench, *made.at);
        if (kind == TerminalKind::Clamp) clamp();
        if (kind == TerminalKind::Tab) tab();
        if (kind != TerminalKind::Tab) screw();
        reach();
        return found;
    }

private:
    const Bench& bench;
    const Cable& cable;
    int end;
    const CableEnd& made;
    EndMake make;
    EndTarget target;
    EndState found;

    void fault(EndFault kind, double resistance_ohm) {
        found.faults.push_back(kind);
        found.resistance_ohm = std::max(found.resistance_ohm, resistance_ohm);
    }

    void apart() {
        found.touches = false;
        found.holds = false;
    }

    void strip() {
        if (make.strip_m <= 0.0) {
            fault(EndFault::NotStripped, kSound_ohm);
            found.touches = false;
            found.holds = !isFitted(made.kind); // a screw holds a sleeve as well
        } else if (make.strip_m < target.stripLeast_m) {
            fault(EndFault::StripTooShort, kFewStrands_ohm);
            found.holds = false;
        } else if (make.strip_m > target.stripMost_m) {
            fault(EndFault::StripTooLong, kSound_ohm);
            if (isFitted(made.kind)) found.copperShows_m = make.strip_m - target.strip_m;
        }
    }

    void strands() {
        if (make.strip_m > 0.0 && !make.twisted) fault(EndFault::StrandOut, kSound_ohm);
    }

    void fitting() {
        if (!isFitted(made.kind) || make.pressed) return;
        fault(EndFault::NotPressed, kNotPressed_ohm);
        found.holds = false;
    }

    void clamp() {
        const bool missed = deepestOther_m(bench, cable, end, *made.at) - make.pushed_m > kMissed_m;
        if (make.pushed_m < kPastScrew_m || missed) {
            fault(EndFault::NotPushedIn, kLyingThere_ohm);
            found.loose = true;
            found.holds = false;
        }
        if (make.pushed_m < kReachesMetal_m) apart();
        if (make.strip_m <= 0.0) return;
        if (!isFitted(made.kind)) found.copperShows_m = std::max(0.0, make.strip_m - make.pushed_m);
        const double sleeve_m = make.pushed_m - make.strip_m;
        if (sleeve_m <= kSleeveIn_m) return;
        fault(EndFault::OnSleeve, kThroughSleeve_ohm);
        found.holds = found.holds || make.strip_m < target.stripLeast_m;
        if (sleeve_m >= kSleeveAtScrew_m) found.touches = false;
    }

    void tab() {
        if (make.pushed_m >= target.pushedLeast_m) return;
        fault(EndFault::NotPushedIn, kLyingThere_ohm);
        found.loose = true;
        found.holds = false;
        if (make.pushed_m < kReachesMetal_m) apart();
    }

    void screw() {
        const Screw now = screwAt(bench, *made.at);
        const TorqueTarget right = torqueFor(bench, *made.at);
        if (now.broken || now.torque_Nm == 0.0) {
            fault(now.broken ? EndFault::ScrewBroken : EndFault::ScrewOpen, kLyingThere_ohm);
            found.loose = true;
            found.holds = false;
        } else if (now.torque_Nm < right.least_Nm) {
            fault(EndFault::ScrewLoose, kLooseScrew_ohm);
            found.loose = true;
            if (now.torque_Nm < kHoldsAt * right.least_Nm) found.holds = false;
        } else if (now.torque_Nm > right.most_Nm) {
            fault(EndFault::ScrewTight, kStrandsCut_ohm);
        }
    }

    void reach() {
        const bool out = make.strip_m > 0.0 && !make.twisted;
        const bool bare = found.copperShows_m > kCopperReaches_m;
        if (!out && !bare) return;
        const auto neighbour = neighbourOf(bench, *made.at);
        if (bare)
            found.copperOn = neighbour;
        else
            found.strandOn = neighbour;
    }
};

// Barrel of a ring or spade: common practice, no source.
double barrel_m(double area_m2) {
    if (area_m2 <= 2.5e-6) return 7 * kMm;
    return area_m2 <= 6e-6 ? 9 * kMm : 12 * kMm;
}

} // namespace

EndState stateOf(const Bench& bench, const Cable& cable, int end) {
    const CableEnd& made = cable.ends[static_cast<std::size_t>(end)];
    const bool unremarkable = !made.make && made.at && bench.screws.empty() &&
                              kindAt(bench, *made.at) != TerminalKind::Clamp;
    return unremarkable ? EndState{} : Judge(bench, cable, end).state();
}

EndTarget targetFor(EndKind kind, double area_m2) {
    switch (kind) {
    case EndKind::Bare:
        return {10 * kMm, 8 * kMm, 12 * kMm, 10 * kMm, 8 * kMm, 12 * kMm};
    case EndKind::Ferrule:
        return {10 * kMm, 9 * kMm, 12 * kMm, 10 * kMm, 8 * kMm, 12 * kMm};
    case EndKind::RingM6:
    case EndKind::RingM8:
        return {
            barrel_m(area_m2), barrel_m(area_m2) - 2 * kMm, barrel_m(area_m2) + 2 * kMm, 0, 0, 0};
    case EndKind::Spade:
    case EndKind::Piggyback:
        return {barrel_m(area_m2),
                barrel_m(area_m2) - 2 * kMm,
                barrel_m(area_m2) + 2 * kMm,
                8 * kMm,
                7 * kMm,
                kMakeMost_m};
    }
    return {};
}

EndMake wellMade(EndKind kind, double area_m2, bool joined) {
    const EndTarget target = targetFor(kind, area_m2);
    return {target.strip_m, true, isFitted(kind), joined ? target.pushed_m : 0.0};
}

// M6 2.5 N m, M8 6.0 N m: Omron 3G3FV-CE manual p. 2-25; slotted clamp screw M3 0.5 N m: IEC 60999-1,
// from memory; both
// within 20 %. Breaks at twice the right one: common practice, no source.
TorqueTarget torqueFor(const Bench& bench, TerminalRef terminal) {
    double right_Nm = 0.0;
    switch (kindAt(bench, terminal)) {
    case TerminalKind::StudM6:
        right_Nm = 2.5;
        break;
    case TerminalKind::StudM8:
        right_Nm = 6.0;
        break;
    case TerminalKind::Clamp:
        right_Nm = 0.5;
        break;
    case TerminalKind::Tab:
        break;
    }
    return {right_Nm, 0.8 * right_Nm, 1.2 * right_Nm, 2.0 * right_Nm};
}

Screw screwAt(const Bench& bench, TerminalRef terminal) {
    for (const Screw& screw : bench.screws)
        if (screw.at == terminal) return screw;
    return {terminal, torqueFor(bench, terminal).right_Nm, false};
}

bool isHandmade(const Bench& bench, const std::string& label) {
    const auto& labels = bench.kit.handmade;
    return std::any_of(labels.begin(), labels.end(), [&](const std::string& listed) {
        return listed == "*" || listed == label;
    });
}

} // namespace loom::bench

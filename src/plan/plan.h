// SPDX-License-Identifier: MIT
// The wiring plan of an exercise as plain data, and how a bench differs from it. Start with
// differences(). Drawn by drawing.h; read with the exercise, member "plan".
#pragma once

#include "bench/bench.h"
#include "bench/phrase.h"
#include "plan/spot.h"

#include <array>
#include <string>
#include <vector>

namespace loom::plan {

// Where a part is on the vehicle, seen from above: metres from the frame's front left corner, x to
// the right, y to the rear.
struct PlanPart {
    bench::PartKind kind{};
    std::string ref;
    bench::Point at_m;
    int quarterTurns = 0; // clockwise
    double rating = 0.0;  // fuse: A
};

struct PlanCable {
    std::string label;
    Spot from, to; // "X1" with "3 upper"; on a block either hole of the way will do
    double length_m = 0.5;
    double area_m2 = 1e-6;
    bench::Sleeve sleeve = bench::Sleeve::Red;
    std::array<bench::EndKind, 2> ends{bench::EndKind::Bare, bench::EndKind::Bare};
    bench::Phrase note; // "series link: fitted last"; may be empty
};

struct Plan {
    bench::Point frame_m{1.2, 0.8}; // width and length of the vehicle's frame
    std::vector<PlanPart> parts;
    std::vector<PlanCable> cables; // in the order of the plan
};

enum class DifferenceKind {
    Missing,   // a cable of the plan that is not joined at either end
    Extra,     // a cable on the bench that the plan does not have
    WrongEnd,  // joined, but this end elsewhere; end says which end of the plan's row
    WrongSize, // mm2
    WrongColour,
    WrongLength, // by more than a tenth, or 2 cm
    WrongFitting, // the kind of end
    WrongFuse     // of a holder: another rating in it, or none; label is the part's ref
};

struct Difference {
    DifferenceKind kind = DifferenceKind::Missing;
    std::string label;
    int end = -1;                  // 0 the plan's from, 1 its to; -1 where no end is meant
    bench::Phrase expected, found; // "X1/4", "X1/5"; "6 mm2"
};

// In the order of the plan, extra ones and fuses last. A cable may lie the other way round: its ends are then
// taken crosswise. Cables with the same label are matched so that least differs. A part whose two
// terminals carry no legend may be joined either way round. Cables that go to a part which is not
// on the plan, and cables that are joined nowhere, are no extra ones.
std::vector<Difference> differences(const Plan& plan, const bench::Bench& bench);

// Without what the plan expects: "P-20 is at X1/5".
bench::Phrase describe(const Difference& difference);

// A terminal as a plan names it: "X1/4", "K1 normally open"; "S3" where either terminal will do.
bench::Phrase placeName(bench::PartKind kind, const Spot& spot);
bench::Phrase placeName(const bench::Bench& bench, bench::TerminalRef terminal);

} // namespace loom::plan

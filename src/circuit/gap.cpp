// SPDX-License-Identifier: MIT
#include "circuit/gap.h"

#include <cmath>

namespace loom::circuit {

namespace {

// On the edge of conducting, with no current, it stays as it is: else an arc that hangs on another
// not yet struck would come and go for ever.
int sideOf(int side, double v, double limit_V) {
    if (side != 0 && side * v >= limit_V * (1.0 - 1e-12)) return side;
    return v > limit_V ? 1 : v < -limit_V ? -1 : 0;
}

double gapSlope_S(const Gap& gap) {
    return gap.phase == GapPhase::Arcing ? 1.0 / kArc_ohm : 1.0 / kSpark_ohm;
}

} // namespace

void openGap(Gap& gap, double current_A, double time_s) {
    if (!gap.closed()) return;
    gap.phase = std::fabs(current_A) >= kArcLeast_A ? GapPhase::Arcing : GapPhase::Open;
    gap.opened_s = time_s;
    gap.side = 0;
}

double gapLimit_V(const Gap& gap, double time_s) {
    if (gap.phase != GapPhase::Arcing) return kSpark_V;
    const double v = kArcFoot_V + kArcGrowth_V_per_s * (time_s - gap.opened_s);
    return v < kSpark_V ? v : kSpark_V;
}

void stampGap(const Gap& gap, std::uint32_t branch, Stage& s) {
    const double g = gap.side == 0 ? 0.0 : gapSlope_S(gap);
    s.g[branch] = g;
    s.j[branch] = -g * gap.side * gapLimit_V(gap, s.time_s);
}

void updateGap(Gap& gap, std::uint32_t branch, Stage& s) {
    const double v = s.v[branch];
    s.i[branch] = s.g[branch] * v + s.j[branch];
    s.changeSide(gap.side, sideOf(gap.side, v, gapLimit_V(gap, s.time_s)));
}

void stampInsulation(int side, double& g, double& j) {
    if (side == 0) return;
    g += 1.0 / kSpark_ohm;
    j -= side * kInsulation_V / kSpark_ohm;
}

double updateInsulation(int& side, double v, Stage& s) {
    const double i = side == 0 ? 0.0 : (v - side * kInsulation_V) / kSpark_ohm;
    s.changeSide(side, sideOf(side, v, kInsulation_V));
    return i;
}

} // namespace loom::circuit

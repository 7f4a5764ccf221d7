// SPDX-License-Identifier: MIT
#include "circuit/relay.h"

#include <cmath>

namespace loom::circuit {

double phaseEnds_s(const RelayPart& r) {
    switch (r.armature) {
    case Armature::Leaving:
        return r.began_s + kBreakAfter_s;
    case Armature::Crossing:
        return r.began_s + kMakeAfter_s;
    case Armature::Touching:
        return r.began_s + kBounceAfter_s;
    case Armature::Bouncing:
        return r.began_s + kBounceEnds_s;
    case Armature::Letting:
        return r.began_s + kReleaseAfter_s;
    case Armature::Returning:
        return r.began_s + kRestAfter_s;
    case Armature::Rest:
    case Armature::In:
        break;
    }
    return 1e300;
}

namespace {

double weldPower_W(const RelayPart& r, const ContactPart& no, double i) {
    const bool touchesBadly = r.armature == Armature::Touching || r.armature == Armature::Bouncing;
    if (no.gap.phase == GapPhase::Arcing || (touchesBadly && no.gap.closed()))
        return kArcFootForWeld_V * std::fabs(i);
    const double drop_V = std::fabs(i) * no.resistance_ohm;
    return no.gap.closed() && drop_V > kMelting_V ? drop_V * std::fabs(i) : 0.0;
}

} // namespace

void warm(const std::vector<RelayPart>& relays,
          const std::vector<ContactPart>& contacts,
          Stage& s) {
    constexpr double kForgets_s = 0.01;
    for (const RelayPart& r : relays) {
        const ContactPart& no = contacts[r.normallyOpen];
        const double power = weldPower_W(r, no, s.i[no.branch]);
        const double rate = power > 0.0 ? 0.0 : 1.0 / kForgets_s;
        const double e = (s.base[r.weldEnergy] + s.a_s * power) / (1.0 + s.a_s * rate);
        s.y[r.weldEnergy] = e;
        s.f[r.weldEnergy] = power - rate * e;
    }
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
#include "lesson/threat_phrase.h"

#include "plan/plan.h"

#include <cmath>

namespace loom::lesson {
namespace {

using bench::Phrase;
using bench::phrase;

Phrase placeOf(const bench::Bench& bench, const bench::ProbeTip& tip) {
    if (tip.terminal) return plan::placeName(bench, *tip.terminal);
    const bench::Cable* cable = bench::findCable(bench, tip.cable);
    return phrase("found/loose-end", {{"name", cable ? cable->label : std::string()}});
}

const char* keyOf(Threat::Kind kind) {
    switch (kind) {
    case Threat::Kind::Unprotected:
        return "threat/unprotected";
    case Threat::Kind::AsItStands:
        return "threat/as-it-stands";
    case Threat::Kind::Short:
        return "threat/short";
    case Threat::Kind::Opened:
        return "threat/opened";
    case Threat::Kind::Welded:
        return "threat/welded";
    }
    return "";
}

} // namespace

Phrase describe(const bench::Bench& bench, const Threat& threat) {
    return phrase(keyOf(threat.kind),
                  {{"cable", threat.cable},
                   {"part", threat.part},
                   {"a", placeOf(bench, threat.a)},
                   {"b", placeOf(bench, threat.b)},
                   {"current", Phrase::Amount{std::fabs(threat.current_A), "A"}},
                   {"time", Phrase::Amount{threat.after_s, "s"}}});
}

} // namespace loom::lesson

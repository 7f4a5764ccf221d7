// SPDX-License-Identifier: MIT
// Where a probe of the meter can be put: terminals, and the metal of cable ends. Nothing is drawn here.
#pragma once

#include "screen/board/state.h"

#include <optional>
#include <string>
#include <vector>

namespace loom::screen {

// Somewhere a probe can be put.
struct ProbeTarget {
    bench::ProbeTip tip;
    ImVec2 at_px{0, 0};
};

// Every terminal, and the metal of every cable end, as drawn last.
std::vector<ProbeTarget> probeTargets(const bench::Bench& bench, const SceneCache& scene);
// The nearest to where the hand is, within a finger's reach.
std::optional<ProbeTarget>
probeTargetNear(const View& view, const bench::Bench& bench, const SceneCache& scene, ImVec2 at_px);
// "K1 coil a", "end of P-06 at X1 1 upper"
std::string probePlace(const bench::Bench& bench, const bench::ProbeTip& tip);

} // namespace loom::screen

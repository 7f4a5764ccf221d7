// SPDX-License-Identifier: MIT
#include "screen/board/probe.h"

#include "bench/catalogue.h"
#include "screen/art/fitting_art.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {

namespace {

constexpr float kFinger_px = 44.0f; // a target is reached from this far, times the unit

ImVec2 toScreen(const SceneCache& scene, bench::Point at) {
    return scene.board.toScreen({static_cast<float>(at.x_m), static_cast<float>(at.y_m)});
}

// The bare metal of an end: its tip when it lies loose, else its fitting beside the terminal.
ImVec2
metalAt(const SceneCache& scene, const bench::Bench& bench, std::size_t cable, std::size_t end) {
    const bench::CableEnd& made = bench.cables[cable].ends[end];
    if (!made.at || cable >= scene.routes.size()) return toScreen(scene, bench::endAt(bench, made));
    const art::Route& route = scene.routes[cable];
    const art::EndSeat& seat = route.ends[end];
    const ImVec2 from = art::seatedAt_m(seat);
    const float out = art::sleeveStart_m(seat, route.width_m) * 0.7f;
    return scene.board.toScreen({from.x + seat.leaves.x * out, from.y + seat.leaves.y * out});
}

} // namespace

std::vector<ProbeTarget> probeTargets(const bench::Bench& bench, const SceneCache& scene) {
    std::vector<ProbeTarget> out;
    for (const bench::Part& part : bench.parts)
        for (std::size_t t = 0; t < bench::spec(part.kind).terminals.size(); ++t) {
            ProbeTarget target;
            target.tip.terminal = bench::TerminalRef{part.id, static_cast<std::uint8_t>(t)};
            target.at_px = toScreen(scene, terminalAt(bench, *target.tip.terminal));
            out.push_back(target);
        }
    for (std::size_t c = 0; c < bench.cables.size(); ++c)
        for (std::size_t e = 0; e < 2; ++e) {
            ProbeTarget target;
            target.tip.cable = bench.cables[c].id;
            target.tip.end = static_cast<int>(e);
            target.at_px = metalAt(scene, bench, c, e);
            out.push_back(target);
        }
    return out;
}

std::optional<ProbeTarget> probeTargetNear(const View& view,
                                           const bench::Bench& bench,
                                           const SceneCache& scene,
                                           ImVec2 at_px) {
    std::optional<ProbeTarget> best;
    float least = kFinger_px * 0.5f * view.layout.unit;
    for (const ProbeTarget& target : probeTargets(bench, scene)) {
        const float away = std::hypot(target.at_px.x - at_px.x, target.at_px.y - at_px.y);
        if (away > least) continue;
        least = away;
        best = target;
    }
    return best;
}

std::string probePlace(const bench::Bench& bench, const bench::ProbeTip& tip) {
    if (tip.terminal) return terminalWords(bench, *tip.terminal);
    const bench::Cable* cable = bench::findCable(bench, tip.cable);
    if (cable == nullptr) return words("meter/lying");
    const bench::CableEnd& end = cable->ends[static_cast<std::size_t>(tip.end & 1)];
    if (!end.at) return words("meter/loose-end", {{"cable", cable->label}});
    return words("meter/end-at",
                 {{"cable", cable->label}, {"place", terminalWords(bench, *end.at)}});
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
#include "screen/board/ends.h"

#include "bench/catalogue.h"
#include "bench/ends.h"
#include "screen/art/board_art.h"
#include "screen/art/fitting_art.h"
#include "screen/art/palette.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {
namespace {

constexpr ImU32 kStrandTone = art::rgb(0xb9692c), kStrandEdge = art::rgb(0x6e3a12);

// Bare copper between the terminal and the sleeve, at its own length.
void drawCopper(
    const Scene& scene, ImDrawList* list, const art::EndSeat& seat, float width_m, double shows_m) {
    const ImVec2 from = art::seatedAt_m(seat);
    const float begins_m = 0.002f, ends_m = begins_m + static_cast<float>(shows_m);
    const auto at = [&](float along_m) {
        return scene.board.toScreen(
            {from.x + seat.leaves.x * along_m, from.y + seat.leaves.y * along_m});
    };
    const float wide = std::max(2.0f, width_m * 0.55f * scene.board.px_per_m);
    list->AddLine(at(begins_m), at(ends_m), kStrandEdge, wide + 1.0f);
    list->AddLine(at(begins_m), at(ends_m), kStrandTone, wide);
}

void drawStrand(const Scene& scene, ImDrawList* list, ImVec2 from, bench::TerminalRef to) {
    const ImVec2 there = px(scene, bench::terminalAt(scene.bench, to));
    const ImVec2 d{there.x - from.x, there.y - from.y};
    const ImVec2 tip{from.x + d.x * 0.62f, from.y + d.y * 0.62f};
    const ImVec2 bend{from.x + d.x * 0.25f - d.y * 0.18f, from.y + d.y * 0.25f + d.x * 0.18f};
    const float wide = std::clamp(0.0016f * scene.board.px_per_m, 1.1f, 2.4f);
    list->AddBezierQuadratic(from, bend, tip, kStrandEdge, wide + 0.8f);
    list->AddBezierQuadratic(from, bend, tip, kStrandTone, wide);
}

void drawOpenRing(const Scene& scene, ImDrawList* list, ImVec2 at) {
    const float radius = std::max(7.0f, 0.0125f * scene.board.px_per_m);
    list->AddCircle(at, radius, art::tone::kPaper, 0, 4.4f);
    list->AddCircle(at, radius, art::tone::kInk, 0, 2.0f);
}

void drawEnd(
    const Scene& scene, const BoardUi& ui, ImDrawList* list, std::size_t index, int which) {
    const bench::Cable& cable = scene.bench.cables[index];
    const bench::CableEnd& end = cable.ends[static_cast<std::size_t>(which)];
    const ImVec2 at = px(scene, bench::endAt(scene.bench, end));
    const bench::EndState state = bench::stateOf(scene.bench, cable, which);
    if (end.at && end.make->pushed_m > 0.0 && state.copperShows_m > 0.0005) {
        const art::Route& route = ui.scene.routes[index];
        drawCopper(scene, list, route.ends[which], route.width_m, state.copperShows_m);
    }
    if (state.strandOn) drawStrand(scene, list, at, *state.strandOn);
    if (isUnmade(scene.bench, cable, which)) drawOpenRing(scene, list, at);
}

// The end under the pointer that is not made yet.
const bench::Cable* unmadeUnder(const Scene& scene, ImVec2 at_px, ImVec2& place) {
    const float reach = std::clamp(0.03f * scene.board.px_per_m, 12.0f, 24.0f);
    for (const bench::Cable& cable : scene.bench.cables)
        for (int e = 0; e < 2; ++e) {
            place = px(scene, bench::endAt(scene.bench, cable.ends[static_cast<std::size_t>(e)]));
            if (std::hypot(place.x - at_px.x, place.y - at_px.y) < reach &&
                isUnmade(scene.bench, cable, e))
                return &cable;
        }
    return nullptr;
}

} // namespace

bool isUnmade(const bench::Bench& bench, const bench::Cable& cable, int end) {
    const auto& make = cable.ends[static_cast<std::size_t>(end)].make;
    if (!make) return false;
    const bench::EndState state = bench::stateOf(bench, cable, end);
    return std::any_of(state.faults.begin(), state.faults.end(), [&](bench::EndFault fault) {
        return fault == bench::EndFault::NotStripped || fault == bench::EndFault::NotPressed ||
               fault == bench::EndFault::ScrewOpen ||
               (fault == bench::EndFault::NotPushedIn && make->pushed_m == 0.0);
    });
}

void drawEndsByHand(const Scene& scene,
                    const BoardUi& ui,
                    art::PictureStore& pictures,
                    ImDrawList* list) {
    for (std::size_t i = 0; i < std::min(scene.bench.cables.size(), ui.scene.routes.size()); ++i)
        for (int e = 0; e < 2; ++e)
            if (scene.bench.cables[i].ends[static_cast<std::size_t>(e)].make)
                drawEnd(scene, ui, list, i, e);
    const bool quiet = holdsSomething(ui) || scene.quiet || scene.view->touch ||
                       !std::holds_alternative<std::monostate>(ui.chosen);
    if (quiet) return;
    ImVec2 place{0, 0};
    const bench::Cable* cable = unmadeUnder(scene, ImGui::GetIO().MousePos, place);
    if (cable == nullptr) return;
    const Rect& board = scene.view->layout.board;
    art::drawTag(list,
                 pictures,
                 scene.fonts,
                 {board.min, board.max},
                 place,
                 cable->label.c_str(),
                 words("closeup/unmade").c_str());
}

std::string spokenTerminal(const bench::Bench& bench, bench::TerminalRef terminal) {
    std::string said = terminalWords(bench, terminal);
    for (const bench::EndRef& ref : bench::endsAt(bench, terminal)) {
        const bench::Cable* cable = bench::findCable(bench, ref.cable);
        if (cable != nullptr && isUnmade(bench, *cable, ref.end))
            said += ", " + cable->label + " " + words("closeup/unmade");
    }
    return said;
}

} // namespace loom::screen

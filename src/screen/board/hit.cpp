// SPDX-License-Identifier: MIT
#include "screen/board/hit.h"

#include "bench/catalogue.h"
#include "screen/art/cable_art.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {

namespace {

float between(ImVec2 a, ImVec2 b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

// Half of 44 px, less when terminals are crowded by a small scale.
float grabRadius(const Scene& scene) {
    const float whole = 22.0f * scene.view->layout.unit;
    return std::clamp(0.034f * scene.board.px_per_m, 10.0f, whole);
}

struct NearTerminal {
    std::optional<bench::TerminalRef> ref;
    float distance_px = 1e9f;
};

NearTerminal nearestTerminal(const Scene& scene, ImVec2 at_px) {
    NearTerminal best;
    for (const bench::Part& part : scene.bench.parts) {
        if (part.id == scene.heldPart) continue;
        const auto& terminals = bench::spec(part.kind).terminals;
        for (std::size_t t = 0; t < terminals.size(); ++t) {
            const bench::TerminalRef ref{part.id, static_cast<std::uint8_t>(t)};
            const float d = between(px(scene, terminalAt(scene.bench, ref)), at_px);
            if (d < best.distance_px) best = {ref, d};
        }
    }
    return best;
}

bool takeLooseEnd(const Scene& scene, ImVec2 at_px, float nearer_px, Press& press) {
    for (const bench::Cable& cable : scene.bench.cables)
        for (int e = 0; e < 2; ++e) {
            const bench::CableEnd& end = cable.ends[static_cast<std::size_t>(e)];
            if (end.at) continue;
            const float d = between(px(scene, end.loose_m), at_px);
            if (d > nearer_px) continue;
            nearer_px = d;
            press.on = Press::On::End;
            press.cable = cable.id;
            press.end = e;
        }
    return press.on == Press::On::End;
}

bool takeLabel(const Scene& scene, const BoardUi& ui, ImVec2 at_px, Press& press) {
    for (std::size_t i = std::min(scene.bench.cables.size(), ui.scene.labels.size()); i-- > 0;) {
        const art::LabelSpot& spot = ui.scene.labels[i];
        const Rect box{spot.box_px.min, spot.box_px.max};
        if (spot.along < 0.0f || !box.contains(at_px)) continue;
        press.on = Press::On::Cable;
        press.cable = scene.bench.cables[i].id;
        press.end = -1;
        press.along = spot.along;
        return true;
    }
    return false;
}

// reach_px beyond the sleeve's own edge. The outer two fifths belong to their end.
bool takeSleeve(const Scene& scene, const BoardUi& ui, ImVec2 at_px, float reach_px, Press& press) {
    for (std::size_t i = std::min(scene.bench.cables.size(), ui.scene.routes.size()); i-- > 0;) {
        const art::Route& route = ui.scene.routes[i];
        const art::RouteHit hit = art::nearestOn(route, scene.board.toBoard(at_px));
        const float px_away = (hit.distance_m - route.width_m * 0.5f) * scene.board.px_per_m;
        if (px_away > reach_px) continue;
        press.on = Press::On::Cable;
        press.cable = scene.bench.cables[i].id;
        const float share = route.drawn_m > 0.0f ? hit.along_m / route.drawn_m : 0.5f;
        press.end = share < 0.4f ? 0 : share > 0.6f ? 1 : -1;
        press.along = share;
        return true;
    }
    return false;
}

ImVec2 unturned(ImVec2 d, int quarterTurns) {
    for (int i = 0; i < (quarterTurns & 3); ++i)
        d = {d.y, -d.x};
    return d;
}

bool takePart(const Scene& scene, ImVec2 at_px, Press& press) {
    const bench::Part* part = partUnder(scene, at_px);
    if (part == nullptr) return false;
    const ImVec2 centre = px(scene, part->at_m);
    const float scale = scene.board.px_per_m;
    press.part = part->id;
    press.local_m =
        unturned({(at_px.x - centre.x) / scale, (at_px.y - centre.y) / scale}, part->quarterTurns);
    press.on = onControl(part->kind, press.local_m) ? Press::On::Control : Press::On::Part;
    return true;
}

// A control is worked through the cable that hangs over it; that is grabbed beside the control.
bool takeControl(const Scene& scene, ImVec2 at_px, Press& press) {
    Press there = press;
    if (!takePart(scene, at_px, there) || there.on != Press::On::Control) return false;
    press = there;
    return true;
}

} // namespace

const bench::Part* partUnder(const Scene& scene, ImVec2 at_px) {
    for (std::size_t i = scene.bench.parts.size(); i-- > 0;) {
        const bench::Part& part = scene.bench.parts[i];
        if (part.id == scene.heldPart) continue;
        const art::Box box = art::partBox(lookOf(scene, part));
        if (Rect{box.min, box.max}.contains(at_px)) return &part;
    }
    return nullptr;
}

std::optional<bench::TerminalRef> terminalNear(const Scene& scene, ImVec2 at_px) {
    const NearTerminal near = nearestTerminal(scene, at_px);
    return near.distance_px <= grabRadius(scene) * 1.3f ? near.ref : std::nullopt;
}

Press pressAt(const Scene& scene, const BoardUi& ui, ImVec2 at_px) {
    Press press;
    press.at_px = at_px;
    const NearTerminal near = nearestTerminal(scene, at_px);
    const float reach = grabRadius(scene);
    if (takeLooseEnd(scene, at_px, std::min(reach, near.distance_px), press)) return press;
    const float own = std::max(9.0f, 0.016f * scene.board.px_per_m);
    if (near.distance_px <= own) {
        press.on = Press::On::Terminal;
        press.terminal = *near.ref;
        return press;
    }
    if (takeLabel(scene, ui, at_px, press)) return press;
    if (ui.tool == Tool::BareHand && takeControl(scene, at_px, press)) return press;
    if (takeSleeve(scene, ui, at_px, 2.0f, press)) return press;
    if (near.distance_px <= reach) {
        press.on = Press::On::Terminal;
        press.terminal = *near.ref;
        return press;
    }
    if (takePart(scene, at_px, press)) return press;
    if (takeSleeve(scene, ui, at_px, scene.view->touch ? 16.0f : 6.0f, press)) return press;
    press.on = Press::On::Board;
    return press;
}

bool onControl(bench::PartKind kind, ImVec2 m) {
    const std::optional<bench::ControlArea>& area = bench::spec(kind).controlArea;
    if (!area) return false;
    if (!area->round)
        return m.x >= area->left_m && m.x <= area->right_m && m.y >= area->top_m &&
               m.y <= area->bottom_m;
    return std::hypot(m.x - 0.5 * (area->left_m + area->right_m),
                      m.y - 0.5 * (area->top_m + area->bottom_m)) <
           0.5 * (area->right_m - area->left_m);
}

int tappedPosition(const bench::Part& part, ImVec2 m) {
    switch (bench::spec(part.kind).control) {
    case bench::ControlKind::Key:
        return part.position == 1 ? 2 : 1;
    case bench::ControlKind::Places:
        return m.x < -0.015f ? 2 : m.x > 0.015f ? 0 : 1;
    case bench::ControlKind::Plain:
        break;
    }
    return part.position == 0 ? 1 : 0;
}

} // namespace loom::screen

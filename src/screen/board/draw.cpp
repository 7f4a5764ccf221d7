// SPDX-License-Identifier: MIT
// Draws the scene: parts, rings, cables, labels, what is in the hand; and registers each thing
// under its name for the keyboard, the mirror and the tests.
#include "screen/board/draw.h"

#include "bench/catalogue.h"
#include "screen/art/board_art.h"
#include "screen/art/cable_art.h"
#include "screen/art/palette.h"
#include "screen/board/drop.h"
#include "screen/board/ends.h"
#include "screen/board/hit.h"
#include "screen/board/tie_art.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {

namespace {

struct Drawing {
    const Scene& scene;
    BoardUi& ui;
    Items& items;
    art::PictureStore& pictures;
    ImDrawList* list;

    const attempt::Attempt& attempt() const { return scene.view->session->attempt(); }
};

Rect square(ImVec2 centre, float side) {
    return rectAt(centre.x - side * 0.5f, centre.y - side * 0.5f, side, side);
}

bool holdsEnd(const Hand& hand) {
    return std::holds_alternative<NewCable>(hand) || std::holds_alternative<EndInHand>(hand) ||
           std::holds_alternative<ReadyMade>(hand);
}

bool drawParts(const Drawing& d) {
    bool moves = false;
    for (const bench::Part& part : d.scene.bench.parts) {
        art::PartLook look = lookOf(d.scene, part);
        const art::Box box = art::partBox(look);
        if (!look.held && !holdsEnd(d.ui.hand))
            look.focused =
                d.items.note("part/" + part.ref, part.ref, Zone::Board, {box.min, box.max});
        const auto* chosen = std::get_if<bench::PartId>(&d.ui.chosen);
        look.selected = chosen != nullptr && *chosen == part.id;
        look.nameLater = true;
        art::drawPart(d.list, d.pictures, d.scene.fonts, look);
        moves = moves || std::fabs(look.speed_rad_s) > 0.05f || look.sounding > 0.05f ||
                look.temp_K > 450.0f;
    }
    return moves;
}

void drawTerminals(const Drawing& d) {
    const float side = 44.0f * d.scene.view->layout.unit;
    const auto* chosen = std::get_if<bench::TerminalRef>(&d.ui.chosen);
    for (const bench::Part& part : d.scene.bench.parts) {
        if (part.id == d.scene.heldPart) continue;
        const auto& terminals = bench::spec(part.kind).terminals;
        for (std::size_t t = 0; t < terminals.size(); ++t) {
            const bench::TerminalRef ref{part.id, static_cast<std::uint8_t>(t)};
            const ImVec2 at = px(d.scene, terminalAt(d.scene.bench, ref));
            const bool focused = d.items.note("terminal/" + part.ref + "/" + terminals[t].word,
                                              spokenTerminal(d.scene.bench, ref),
                                              Zone::Board,
                                              square(at, side));
            const float radius = std::max(9.0f, 0.018f * d.scene.board.px_per_m);
            if (focused || (chosen != nullptr && *chosen == ref))
                art::drawRing(d.list, at, radius, focused);
        }
    }
}

// Both ends of the chosen cable are ringed, so that the eye finds them.
void ringChosenEnds(const Drawing& d) {
    const auto* id = std::get_if<bench::CableId>(&d.ui.chosen);
    const bench::Cable* cable = id != nullptr ? findCable(d.scene.bench, *id) : nullptr;
    if (cable == nullptr) return;
    const float radius = std::max(9.0f, 0.018f * d.scene.board.px_per_m);
    for (const bench::CableEnd& end : cable->ends)
        art::drawRing(d.list, px(d.scene, endAt(d.scene.bench, end)), radius, false);
}

// Dashed rings on all that would take what is held; the nearest one speaks.
void drawTakers(const Drawing& d) {
    if (!holdsEnd(d.ui.hand)) return;
    const bench::Bench& bench = d.attempt().bench();
    const std::uint64_t key = d.attempt().revision() + 1;
    if (d.ui.scene.takersKey != key) {
        d.ui.scene.takersKey = key;
        d.ui.scene.takers.clear();
        for (const bench::Part& part : bench.parts)
            for (std::size_t t = 0; t < bench::spec(part.kind).terminals.size(); ++t) {
                const bench::TerminalRef ref{part.id, static_cast<std::uint8_t>(t)};
                if (!whyNot(bench, d.ui, ref)) d.ui.scene.takers.push_back(ref);
            }
    }
    const float radius = std::max(8.0f, 0.02f * d.scene.board.px_per_m);
    for (const bench::TerminalRef& ref : d.ui.scene.takers)
        art::drawTakesRing(d.list, px(d.scene, terminalAt(d.scene.bench, ref)), radius);
}

// A piggyback spade goes where there is no room left.
std::string roomLine(const bench::Bench& bench, bench::TerminalRef to) {
    const bench::Part* part = findPart(bench, to.part);
    const auto kind = bench::spec(part->kind).terminals[to.terminal].kind;
    const int room = bench::capacity(kind) - static_cast<int>(bench::endsAt(bench, to).size());
    if (room <= 0) return words("tag.on-top");
    return words("tag.room", {{"count", std::to_string(room)}});
}

void drawTargetTag(const Drawing& d) {
    if (!holdsEnd(d.ui.hand)) return;
    const auto near = terminalNear(d.scene, d.ui.hand_px);
    if (!near) return;
    const bench::Bench& bench = d.attempt().bench();
    const ImVec2 at = px(d.scene, terminalAt(d.scene.bench, *near));
    const Rect& board = d.scene.view->layout.board;
    const auto refusal = whyNot(bench, d.ui, *near);
    const float radius = std::max(11.0f, 0.026f * d.scene.board.px_per_m);
    if (refusal) {
        art::drawRefusesRing(d.list, at, radius);
        const std::string why = sentence(*refusal);
        art::drawTag(d.list,
                     d.pictures,
                     d.scene.fonts,
                     {board.min, board.max},
                     at,
                     words("tag.no").c_str(),
                     why.c_str(),
                     art::TagMark::Fault);
        return;
    }
    art::drawTakesRing(d.list, at, radius, static_cast<float>(d.scene.view->clock_s));
    const std::string fits = words("tag.fits", {{"what", terminalWords(bench, *near)}});
    const std::string room = roomLine(bench, *near);
    art::drawTag(
        d.list, d.pictures, d.scene.fonts, {board.min, board.max}, at, fits.c_str(), room.c_str());
}

art::CableLook cableLook(const Drawing& d, const bench::Cable& cable) {
    art::CableLook look;
    look.sleeve = cable.sleeve;
    look.condition = cable.condition;
    look.area_m2 = cable.area_m2;
    const circuit::Reading r = d.attempt().reading(cable.id);
    look.current_A = static_cast<float>(r.current_A);
    look.temp_K = static_cast<float>(r.temp_K);
    if (!d.scene.view->reducedMotion) {
        look.phase_m = static_cast<float>(d.scene.view->clock_s) * art::kShimmerSpeed_m_s;
        look.time_s = static_cast<float>(d.scene.view->clock_s);
    }
    const auto* chosen = std::get_if<bench::CableId>(&d.ui.chosen);
    look.selected = chosen != nullptr && *chosen == cable.id;
    look.held = cable.id == d.scene.heldCable;
    return look;
}

std::string spokenCable(const Scene& scene, const bench::Cable& cable) {
    const auto where = [&](const bench::CableEnd& end) {
        return end.at ? terminalWords(scene.bench, *end.at) : words("spoken.loose");
    };
    return words(
        "spoken.cable",
        {{"cable", cable.label}, {"from", where(cable.ends[0])}, {"to", where(cable.ends[1])}});
}

// A loose end can be grabbed and focused by itself.
void noteLooseEnds(const Drawing& d, const bench::Cable& cable) {
    const float side = 44.0f * d.scene.view->layout.unit;
    for (int e = 0; e < 2; ++e) {
        const bench::CableEnd& end = cable.ends[static_cast<std::size_t>(e)];
        if (end.at) continue;
        const std::string name = "end/" + std::to_string(cable.id.number) + "/" + std::to_string(e);
        const ImVec2 at = px(d.scene, end.loose_m);
        if (d.items.note(
                name, words("spoken.end", {{"cable", cable.label}}), Zone::Board, square(at, side)))
            art::drawRing(d.list, at, 14.0f, true);
    }
}

bool drawCables(const Drawing& d) {
    bool moves = false;
    const auto& routes = d.ui.scene.routes;
    const auto each = [&](bool held) {
        for (std::size_t i = 0; i < d.scene.bench.cables.size(); ++i) {
            const bench::Cable& cable = d.scene.bench.cables[i];
            if ((cable.id == d.scene.heldCable) != held) continue;
            art::CableLook look = cableLook(d, cable);
            art::drawCableShadow(d.list, d.scene.board, routes[i], look);
            art::drawCable(d.list, d.pictures, d.scene.board, routes[i], look);
            art::drawCableSmoke(d.list, d.pictures, d.scene.board, routes[i], look);
            moves = moves || std::fabs(look.current_A) > 1e-3f || look.temp_K > 430.0f;
        }
    };
    each(false);
    each(true);
    return moves;
}

// A strap round the cable, to the frame or round both.
void drawTies(const Drawing& d) {
    const auto& cables = d.scene.bench.cables;
    for (const bench::Tie& tie : d.scene.bench.ties)
        for (std::size_t i = 0; i < cables.size() && i < d.ui.scene.routes.size(); ++i) {
            const bool first = cables[i].id == tie.cable;
            if (!first && !(cables[i].id == tie.other)) continue;
            const art::Route& route = d.ui.scene.routes[i];
            const double along = first ? tie.along : tie.otherAlong;
            const art::RoutePoint at =
                art::pointAlong(route, static_cast<float>(along) * route.drawn_m);
            art::drawTie(d.list, d.scene.board, at, route.width_m, !tie.other);
        }
}

// Over the cables, so that every part can be told by its name.
void drawNames(const Drawing& d) {
    for (const bench::Part& part : d.scene.bench.parts)
        art::drawPartName(d.list, d.scene.fonts, lookOf(d.scene, part));
}

// From further away labels would cover everything; the chosen cable keeps its own.
constexpr float kRoomForLabels_px_per_m = 300.0f;

void drawLabels(const Drawing& d) {
    const float unit = d.scene.view->layout.unit;
    for (std::size_t i = 0; i < d.scene.bench.cables.size(); ++i) {
        const bench::Cable& cable = d.scene.bench.cables[i];
        const art::LabelSpot& spot = d.ui.scene.labels[i];
        const bool held = cable.id == d.scene.heldCable;
        bool focused = false;
        if (!held && !holdsEnd(d.ui.hand)) {
            const art::RoutePoint middle =
                art::pointAlong(d.ui.scene.routes[i], d.ui.scene.routes[i].drawn_m * 0.5f);
            const Rect box = spot.along < 0.0f ? square(d.scene.board.toScreen(middle.at_m), 24.0f)
                                               : Rect{spot.box_px.min, spot.box_px.max};
            focused = d.items.note("cable/" + std::to_string(cable.id.number),
                                   spokenCable(d.scene, cable),
                                   Zone::Board,
                                   box);
            noteLooseEnds(d, cable);
        }
        if (spot.along < 0.0f || cable.label.empty()) continue;
        const auto* chosen = std::get_if<bench::CableId>(&d.ui.chosen);
        const bool marked = held || focused || (chosen != nullptr && *chosen == cable.id);
        if (!marked && d.scene.board.px_per_m < kRoomForLabels_px_per_m * unit) continue;
        art::drawLabel(d.list,
                       d.scene.fonts,
                       spot,
                       cable.label.c_str(),
                       marked                                            ? art::LabelMark::Attention
                       : cable.condition != bench::CableCondition::Sound ? art::LabelMark::Fault
                                                                         : art::LabelMark::None);
    }
}

// A blade or the key in the hand.
void drawSmallThings(const Drawing& d) {
    if (const auto* fuse = std::get_if<FuseInHand>(&d.ui.hand))
        art::drawBlade(d.list,
                       d.scene.fonts,
                       d.ui.hand_px,
                       d.scene.board.px_per_m,
                       fuse->rating_A,
                       0.0f,
                       false);
    if (std::holds_alternative<KeyInHand>(d.ui.hand))
        art::drawKey(d.list, d.ui.hand_px, d.scene.board.px_per_m, 0.0f);
}

// Where a held fuse or key would go.
void drawPartTargets(const Drawing& d) {
    for (const bench::Part& part : d.scene.bench.parts) {
        const bool takes = (std::holds_alternative<KeyInHand>(d.ui.hand) &&
                            bench::isA(part, bench::PartClass::Isolator) && part.position == 0) ||
                           (std::holds_alternative<FuseInHand>(d.ui.hand) &&
                            takesFuse(part.kind, std::get<FuseInHand>(d.ui.hand).rating_A));
        if (!takes) continue;
        const art::Box box = art::partBox(lookOf(d.scene, part));
        art::drawTakesRing(d.list,
                           {(box.min.x + box.max.x) * 0.5f, (box.min.y + box.max.y) * 0.5f},
                           std::max(box.width(), box.height()) * 0.55f,
                           static_cast<float>(d.scene.view->clock_s));
    }
}

// What a finger covers is shown again beside it, larger.
void drawLoupe(const Drawing& d) {
    const bool fine = holdsEnd(d.ui.hand) || std::holds_alternative<ProbeInHand>(d.ui.hand);
    if (!d.scene.view->touch || !d.ui.carried || !fine) return;
    const float unit = d.scene.view->layout.unit, half = 62.0f * unit;
    const Rect& board = d.scene.view->layout.board;
    ImVec2 centre{d.ui.hand_px.x, d.ui.hand_px.y - 118.0f * unit};
    if (centre.y - half < board.min.y) centre.y = d.ui.hand_px.y + 118.0f * unit;
    centre.x =
        std::clamp(centre.x, board.min.x + half, std::max(board.min.x + half, board.max.x - half));
    Scene near = d.scene;
    const ImVec2 at_m = near.board.toBoard(d.ui.hand_px);
    near.board.px_per_m *= 1.8f;
    near.board.origin_px = {centre.x - at_m.x * near.board.px_per_m,
                            centre.y - at_m.y * near.board.px_per_m};
    d.list->PushClipRect(
        {centre.x - half, centre.y - half}, {centre.x + half, centre.y + half}, true);
    d.list->AddRectFilled(
        {centre.x - half, centre.y - half}, {centre.x + half, centre.y + half}, art::tone::kBoard);
    Items unseen;
    const Drawing inside{near, d.ui, unseen, d.pictures, d.list};
    for (const bench::Part& part : near.bench.parts)
        art::drawPart(d.list, d.pictures, near.fonts, lookOf(near, part));
    drawTakers(inside);
    drawCables(inside);
    d.list->PopClipRect();
    d.list->AddRect({centre.x - half, centre.y - half},
                    {centre.x + half, centre.y + half},
                    art::tone::kAttention,
                    10.0f * unit,
                    0,
                    3.0f * unit);
}

} // namespace

bool drawScene(
    const Scene& scene, BoardUi& ui, Items& items, art::PictureStore& pictures, ImDrawList* list) {
    const Drawing d{scene, ui, items, pictures, list};
    bool moves = drawParts(d);
    drawTakers(d);
    moves = drawCables(d) || moves;
    drawTies(d);
    drawEndsByHand(scene, ui, pictures, list);
    drawTerminals(d);
    ringChosenEnds(d);
    drawNames(d);
    drawLabels(d);
    drawPartTargets(d);
    drawSmallThings(d);
    drawLoupe(d);
    drawTargetTag(d);
    return moves;
}

} // namespace loom::screen

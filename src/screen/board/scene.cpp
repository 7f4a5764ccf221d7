// SPDX-License-Identifier: MIT
#include "screen/board/scene.h"

#include "attempt/state_hash.h"
#include "bench/catalogue.h"
#include "screen/art/cable_art.h"
#include "screen/board/camera.h"

#include <algorithm>
#include <cmath>

namespace loom::screen {

namespace {

bench::CableEnd looseEnd(bench::EndKind kind, bench::Point at) {
    bench::CableEnd end;
    end.kind = kind;
    end.loose_m = at;
    return end;
}

double distance(bench::Point a, bench::Point b) {
    return std::hypot(a.x_m - b.x_m, a.y_m - b.y_m);
}

// What hangs in the hand is put on the shown bench, so that it is drawn like everything else.
struct Hang {
    Scene& scene;
    const BoardUi& ui;
    bench::Point at;

    void operator()(std::monostate) {}

    void operator()(const FuseInHand&) {}

    void operator()(const KeyInHand&) {}

    void operator()(const ProbeInHand&) {} // drawn by meter.cpp

    void operator()(const FromTray& held) {
        for (const bench::PartSlot& slot : scene.bench.kit.parts) {
            if (slot.ref != held.ref || isOut(scene.bench, slot)) continue;
            bench::Part part;
            part.id = {scene.bench.lastId + 1};
            part.kind = slot.kind;
            part.ref = slot.ref;
            part.rating = slot.rating;
            part.position = bench::spec(slot.kind).restPosition;
            part.at_m = at;
            scene.bench.parts.push_back(part);
            scene.heldPart = part.id;
            scene.ghostPart = true;
            return;
        }
    }

    void operator()(const PartInHand& held) {
        for (bench::Part& part : scene.bench.parts)
            if (part.id == held.part) part.at_m = {at.x_m + held.dx_m, at.y_m + held.dy_m};
        scene.heldPart = held.part;
    }

    void operator()(const EndInHand& held) {
        for (bench::Cable& cable : scene.bench.cables) {
            if (!(cable.id == held.cable)) continue;
            bench::CableEnd& end = cable.ends[static_cast<std::size_t>(held.end)];
            end = looseEnd(end.kind, at);
        }
        scene.heldCable = held.cable;
    }

    void operator()(const CableInHand&) {} // the yard pulls it

    void operator()(const NewCable& held) {
        const bench::Part* part = findPart(scene.bench, held.from.part);
        if (part == nullptr || scene.bench.kit.reels.empty()) return;
        const std::size_t reel = std::min(ui.reel, scene.bench.kit.reels.size() - 1);
        bench::Cable cable;
        cable.id = {scene.bench.lastId + 1};
        cable.area_m2 = scene.bench.kit.reels[reel].area_m2;
        cable.sleeve = scene.bench.kit.reels[reel].sleeve;
        const auto& terminal = bench::spec(part->kind).terminals[held.from.terminal];
        cable.ends[0].kind = bench::usualEnd(terminal.kind, cable.area_m2);
        cable.ends[0].at = held.from;
        cable.ends[1] = looseEnd(cable.ends[0].kind, at);
        cable.length_m = distance(terminalAt(scene.bench, held.from), at) * 1.15 + 0.02;
        scene.bench.cables.push_back(cable);
        scene.heldCable = cable.id;
    }

    void operator()(const ReadyMade& held) {
        for (const bench::CableSlot& slot : scene.bench.kit.readyMade) {
            if (slot.label != held.label || isOut(scene.bench, slot)) continue;
            bench::Cable cable;
            cable.id = {scene.bench.lastId + 1};
            cable.label = slot.label;
            cable.area_m2 = slot.area_m2;
            cable.sleeve = slot.sleeve;
            cable.length_m = slot.length_m;
            cable.ends[0] = looseEnd(slot.ends[0], at);
            cable.ends[1] = looseEnd(slot.ends[1], {at.x_m + slot.length_m * 0.6, at.y_m + 0.03});
            scene.bench.cables.push_back(cable);
            scene.heldCable = cable.id;
            return;
        }
    }
};

// Changes when a route or a label could lie elsewhere than it did.
std::uint64_t sceneKey(const Scene& scene, const BoardUi& ui) {
    attempt::StateHash hash;
    hash.add(scene.view->session->attempt().revision());
    hash.add(static_cast<std::uint64_t>(scene.bench.cables.size()));
    for (const float x : {scene.board.px_per_m, scene.board.origin_px.x, scene.board.origin_px.y})
        hash.add(static_cast<double>(x));
    hash.add(static_cast<std::uint64_t>(ui.hand.index()));
    if (holdsSomething(ui))
        for (const float x : {ui.hand_px.x, ui.hand_px.y})
            hash.add(static_cast<double>(x));
    if (!scene.bench.cables.empty()) hash.add(scene.bench.cables.back().length_m);
    if (scene.view->yard) hash.add(static_cast<std::uint64_t>(scene.view->yard->revision()));
    return hash.value();
}

void layRoutes(const Scene& scene, SceneCache& cache) {
    cache.routes.resize(scene.bench.cables.size());
    for (std::size_t i = 0; i < cache.routes.size(); ++i) {
        const bench::Cable& cable = scene.bench.cables[i];
        const yard::Yard* yard = scene.view->yard;
        const std::vector<bench::Point>* strand = yard ? yard->strand(cable.id) : nullptr;
        if (strand)
            art::followStrand(art::spanOf(scene.bench, cable), *strand, cache.routes[i]);
        else
            art::layRoute(art::spanOf(scene.bench, cable), cache.routes[i]);
    }
}

void placeSceneLabels(const Scene& scene, SceneCache& cache) {
    std::vector<art::Box> obstacles;
    for (const bench::Part& part : scene.bench.parts)
        art::appendObstacles(scene.fonts, lookOf(scene, part), obstacles);
    std::vector<art::LabelWish> wishes;
    for (std::size_t i = 0; i < scene.bench.cables.size(); ++i) {
        const bench::Cable& cable = scene.bench.cables[i];
        wishes.push_back({cable.label.empty() ? nullptr : &cache.routes[i], cable.label.c_str()});
    }
    cache.labels.resize(wishes.size());
    art::placeLabels(scene.board, scene.fonts, wishes, obstacles, cache.labels);
}

} // namespace

art::FontSet fontSet(const View& view) {
    art::FontSet set;
    set.regular[0] = view.fonts.body;
    set.bold[0] = view.fonts.legend;
    set.bold[1] = view.fonts.bold;
    set.bold[2] = view.fonts.title;
    set.bold[3] = view.fonts.large;
    set.scale = view.layout.unit;
    return set;
}

Scene showScene(const View& view, BoardUi& ui) {
    Scene scene;
    scene.view = &view;
    scene.bench = view.session->attempt().bench();
    scene.board = ui.scene.board = boardView(view, ui);
    scene.fonts = fontSet(view);
    std::visit(Hang{scene, ui, metres(scene, ui.hand_px)}, ui.hand);
    const std::uint64_t key = sceneKey(scene, ui);
    if (key != ui.scene.key) {
        ui.scene.key = key;
        layRoutes(scene, ui.scene);
        placeSceneLabels(scene, ui.scene);
    }
    return scene;
}

art::PartLook lookOf(const Scene& scene, const bench::Part& part) {
    art::PartLook look;
    look.kind = part.kind;
    look.centre = px(scene, part.at_m);
    look.px_per_m = scene.board.px_per_m;
    look.quarterTurns = part.quarterTurns;
    look.ref = part.ref.c_str();
    look.rating = part.rating;
    look.position = static_cast<float>(part.position);
    look.condition = part.condition;
    look.time_s = scene.view->reducedMotion ? 0.0f : static_cast<float>(scene.view->clock_s);
    look.held = part.id == scene.heldPart;
    if (look.held && scene.ghostPart) {
        look.alpha = 0.8f;
        return look;
    }
    const attempt::Attempt& attempt = scene.view->session->attempt();
    const circuit::Reading r = attempt.reading(part.id);
    look.melting = static_cast<float>(r.melting);
    // A lamp's is its filament's, which glows by itself; its body stays cool.
    if (!bench::isA(part, bench::PartClass::Lamp)) look.temp_K = static_cast<float>(r.temp_K);
    look.armature = r.pulledIn ? 1.0f : 0.0f;
    look.angle_rad = static_cast<float>(r.angle_rad);
    look.speed_rad_s = static_cast<float>(r.speed_rad_s);
    if (bench::isA(part, bench::PartClass::Lamp))
        look.light = std::min(1.0f, static_cast<float>(r.brightness));
    if (bench::isA(part, bench::PartClass::LampSwitch))
        look.light = std::min(
            1.0f, static_cast<float>(std::fabs(attempt.reading(part.id, 1).current_A) / 0.02));
    if (bench::isA(part, bench::PartClass::Horn))
        look.sounding = std::min(1.0f, static_cast<float>(r.power_W / 60.0));
    return look;
}

} // namespace loom::screen

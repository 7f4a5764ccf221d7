// SPDX-License-Identifier: MIT
// What the card offers besides, as the job at hand has it: to name a hidden fault, and to tie a
// cable where it was tapped.
#include "bench/catalogue.h"
#include "screen/art/route.h"
#include "screen/card/text.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

#include <cmath>

namespace loom::screen {
namespace {

constexpr double kReachOfTie_m = 0.025; // cables that pass this near one another can be tied

Action asks(std::string name, std::string label, attempt::Command command) {
    Action action;
    action.name = std::move(name);
    action.label = std::move(label);
    action.asks = Do{std::move(command)};
    return action;
}

std::string endName(const bench::Bench& bench, const bench::CableEnd& end) {
    return end.at ? terminalWords(bench, *end.at) : words("card/loose");
}

void offerNaming(const bench::Bench& bench, const Chosen& chosen, CardText& card) {
    if (const auto* id = std::get_if<bench::PartId>(&chosen)) {
        const bench::Part* part = bench::findPart(bench, *id);
        card.actions.push_back(asks("card/fault",
                                    words("card/fault", {{"name", part->ref}}),
                                    attempt::NameFault{part->ref, -1}));
    }
    const auto* id = std::get_if<bench::CableId>(&chosen);
    if (id == nullptr) return;
    const bench::Cable* cable = bench::findCable(bench, *id);
    card.actions.push_back(asks("card/fault",
                                words("card/fault", {{"name", cable->label}}),
                                attempt::NameFault{cable->label, -1}));
    for (int end = 0; end < 2; ++end)
        card.actions.push_back(
            asks("card/fault/" + std::to_string(end),
                 words("card/fault-end",
                       {{"end", endName(bench, cable->ends[static_cast<std::size_t>(end)])}}),
                 attempt::NameFault{cable->label, end}));
}

// Where the other cable passes nearest to a point, and how far along that is.
struct Passing {
    const bench::Cable* cable = nullptr;
    double along = 0.5, distance_m = kReachOfTie_m;
};

Passing
passingBy(const bench::Bench& bench, const SceneCache& scene, bench::CableId self, ImVec2 at_m) {
    Passing nearest;
    for (std::size_t i = 0; i < bench.cables.size() && i < scene.routes.size(); ++i) {
        const art::Route& route = scene.routes[i];
        if (bench.cables[i].id == self || route.drawn_m <= 0.0f) continue;
        const art::RouteHit hit = art::nearestOn(route, at_m);
        if (hit.distance_m >= nearest.distance_m) continue;
        nearest = {&bench.cables[i], hit.along_m / route.drawn_m, hit.distance_m};
    }
    return nearest;
}

const bench::Cable* otherOf(const bench::Bench& bench, const bench::Tie& tie, bench::CableId self) {
    return bench::findCable(bench, tie.cable == self ? tie.other : tie.cable);
}

void offerTies(const bench::Bench& bench, const BoardUi& ui, bench::CableId id, CardText& card) {
    const bench::Cable* cable = bench::findCable(bench, id);
    const auto index = static_cast<std::size_t>(cable - bench.cables.data());
    if (index >= ui.scene.routes.size()) return;
    const art::Route& route = ui.scene.routes[index];
    const auto along_m = static_cast<float>(ui.chosenAlong) * route.drawn_m;
    const ImVec2 at = art::pointAlong(route, along_m).at_m;
    bench::TieCable tie{id, ui.chosenAlong, {}, 0.5, {at.x, at.y}};
    card.actions.push_back(asks("card/tie", words("card/tie"), bench::Edit{tie}));
    if (const Passing other = passingBy(bench, ui.scene, id, at); other.cable != nullptr) {
        tie.other = other.cable->id;
        tie.otherAlong = other.along;
        card.actions.push_back(asks("card/tie-to",
                                    words("card/tie-to", {{"cable", other.cable->label}}),
                                    bench::Edit{tie}));
    }
    for (const bench::Tie& made : bench.ties) {
        if (!(made.cable == id) && !(made.other == id)) continue;
        const bench::Cable* other = otherOf(bench, made, id);
        card.actions.push_back(asks("card/cut/" + std::to_string(made.id),
                                    other != nullptr
                                        ? words("card/cut-from", {{"cable", other->label}})
                                        : words("card/cut"),
                                    bench::Edit{bench::CutTie{made.id}}));
    }
}

} // namespace

void offerMore(const View& view, const BoardUi& ui, CardText& card) {
    const bench::Bench& bench = view.session->attempt().bench();
    const lesson::Exercise* exercise = view.session->exercise();
    if (const auto* cable = std::get_if<bench::CableId>(&ui.chosen))
        offerTies(bench, ui, *cable, card);
    if (exercise != nullptr && !exercise->faults.empty()) offerNaming(bench, ui.chosen, card);
}

} // namespace loom::screen

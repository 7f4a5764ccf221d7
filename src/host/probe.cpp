// SPDX-License-Identifier: MIT
#include "host/probe.h"

#include "attempt/meter_reading.h"
#include "bench/catalogue.h"
#include "bench/file.h"
#include "screen/sentences.h"

#include <SDL.h>
#include <emscripten.h>
#include <imgui_internal.h> // InputEventsQueue
#include <nlohmann/json.hpp>

namespace loom::host {

namespace {

using Json = nlohmann::json;

Json rects(const screen::Items& items) {
    Json out = Json::object();
    for (const screen::Item& item : items.all())
        out[item.name] = {item.rect.min.x, item.rect.min.y, item.rect.width(), item.rect.height()};
    return out;
}

Json zones(const screen::Items& items) {
    Json out = Json::object();
    for (const screen::Item& item : items.all())
        out[item.name] = static_cast<int>(item.zone);
    return out;
}

// Where the board's metres are, in CSS pixels.
Json boardView(const art::BoardView& view) {
    return {{"x", view.origin_px.x}, {"y", view.origin_px.y}, {"px_per_m", view.px_per_m}};
}

Json reading(const circuit::Reading& r) {
    return {{"voltage", r.voltage_V},
            {"current", r.current_A},
            {"power", r.power_W},
            {"temp", r.temp_K},
            {"contactNO", r.contactNO_A},
            {"contactNC", r.contactNC_A},
            {"pulledIn", r.pulledIn},
            {"open", r.open},
            {"speed", r.speed_rad_s},
            {"angle", r.angle_rad},
            {"charge", r.charge},
            {"melting", r.melting},
            {"brightness", r.brightness}};
}

Json parts(const attempt::Attempt& attempt) {
    Json out = Json::object();
    for (const bench::Part& part : attempt.bench().parts) {
        Json row = reading(attempt.reading(part.id));
        const auto& elements = bench::spec(part.kind).elements;
        for (std::size_t i = 1; i < elements.size(); ++i)
            row[elements[i].word] = reading(attempt.reading(part.id, static_cast<int>(i)));
        out[part.ref] = std::move(row);
    }
    return out;
}

Json cables(const attempt::Attempt& attempt) {
    Json out = Json::object();
    for (const bench::Cable& cable : attempt.bench().cables) {
        const circuit::Reading r = attempt.reading(cable.id);
        out[std::to_string(cable.id.number)] = {
            {"label", cable.label}, {"current", r.current_A}, {"temp", r.temp_K}, {"open", r.open}};
    }
    return out;
}

Json live(const attempt::Attempt& attempt) {
    const attempt::Supply supply = attempt.supply();
    return {{"supply",
             {{"live", supply.live},
              {"voltage", supply.voltage_V},
              {"current", supply.current_A},
              {"batteryOut", supply.batteryOut}}},
            {"parts", parts(attempt)},
            {"cables", cables(attempt)},
            {"quiet", attempt.quiet()}};
}

Json events(const attempt::Attempt& attempt) {
    Json out = Json::array();
    for (const attempt::BenchEvent& event : attempt.events())
        out.push_back(screen::sentence(event));
    return out;
}

Json verdict(const lesson::Session& session) {
    if (!session.verdict()) return nullptr;
    Json checks = Json::array();
    for (const lesson::Judged& row : session.verdict()->checks)
        checks.push_back({{"check", row.check},
                          {"passed", row.passed},
                          {"marks", row.marks},
                          {"say", screen::text(row.say)}});
    return {{"marks", session.verdict()->marks},
            {"outOf", session.verdict()->outOf},
            {"solved", session.verdict()->solved()},
            {"stale", session.verdictIsStale()},
            {"checks", std::move(checks)}};
}

struct HandTeller {
    const bench::Bench& bench;

    Json operator()(std::monostate) const { return nullptr; }

    Json operator()(const screen::FromTray& h) const { return {{"what", "part"}, {"ref", h.ref}}; }

    Json operator()(const screen::ReadyMade& h) const {
        return {{"what", "ready-made"}, {"label", h.label}};
    }

    Json operator()(const screen::FuseInHand& h) const {
        return {{"what", "fuse"}, {"rating", h.rating_A}};
    }

    Json operator()(const screen::KeyInHand&) const { return {{"what", "key"}}; }

    Json operator()(const screen::PartInHand& h) const {
        const bench::Part* part = findPart(bench, h.part);
        return {{"what", "part"}, {"ref", part != nullptr ? part->ref : std::string()}};
    }

    Json operator()(const screen::EndInHand& h) const {
        return {{"what", "end"}, {"cable", h.cable.number}, {"end", h.end}};
    }

    Json operator()(const screen::ProbeInHand& h) const {
        return {{"what", "probe"}, {"which", h.which == 0 ? "red" : "black"}};
    }

    Json operator()(const screen::CableInHand& h) const {
        return {{"what", "cable"}, {"cable", h.cable.number}};
    }

    Json operator()(const screen::NewCable& h) const {
        return {{"what", "new cable"}, {"from", bench::terminalName(bench, h.from)}};
    }
};

Json camera(const screen::Camera& c) {
    return {{"zoom", c.zoom}, {"x_m", c.centreX_m}, {"y_m", c.centreY_m}};
}

Json pointer() {
    const ImVec2 at = ImGui::GetIO().MousePos;
    return ImGui::IsMousePosValid(&at) ? Json{at.x, at.y} : Json(nullptr);
}

Json saved(const Autosave& autosave) {
    const auto revision = autosave.savedRevision();
    return revision ? Json(*revision) : Json(nullptr);
}

Json focused(const screen::Items& items) {
    return items.focusVisible() ? items.focused() : std::string();
}

Json exercise(const lesson::Session& session) {
    return session.exercise() != nullptr ? session.exercise()->id : std::string();
}

// All input so far has been read and drawn; what it set going may not have settled.
bool inputSeen(const App& app) {
    return app.ready && SDL_HasEvents(SDL_FIRSTEVENT, SDL_LASTEVENT) == SDL_FALSE &&
           ImGui::GetCurrentContext()->InputEventsQueue.empty();
}

bool settled(const App& app) {
    return app.pace.frames() > 0 && app.pace.framesWanted() == 0 && inputSeen(app);
}

struct Section {
    std::string_view name;
    Json (*tell)(const App&);
};

constexpr Section kSections[] = {
    {"settled", [](const App& app) { return Json(settled(app)); }},
    {"inputSeen", [](const App& app) { return Json(inputSeen(app)); }},
    {"framesWanted", [](const App& app) { return Json(app.pace.framesWanted()); }},
    {"moving", [](const App& app) { return Json(app.moving); }},
    {"frames", [](const App& app) { return Json(app.pace.frames()); }},
    {"cpuFrame_ms", [](const App& app) { return Json(app.pace.own_ms()); }},
    {"graphics_ms", [](const App& app) { return Json(app.pace.graphics_ms()); }},
    {"behind_s", [](const App& app) { return Json(app.clock.behind_s()); }},
    {"time_s",
     [](const App& app) {
         const auto slices = static_cast<double>(app.session.attempt().now_slices());
         return Json(slices * attempt::kSlice_s);
     }},
    {"rects", [](const App& app) { return rects(app.room.items); }},
    {"zones", [](const App& app) { return zones(app.room.items); }},
    {"boardView", [](const App& app) { return boardView(app.room.board.scene.board); }},
    {"focused", [](const App& app) { return focused(app.room.items); }},
    {"document", [](const App& app) { return Json(app.autosave.document()); }},
    {"exercise", [](const App& app) { return exercise(app.session); }},
    {"revision", [](const App& app) { return Json(app.session.attempt().revision()); }},
    {"saved", [](const App& app) { return saved(app.autosave); }},
    {"live", [](const App& app) { return live(app.session.attempt()); }},
    {"events", [](const App& app) { return events(app.session.attempt()); }},
    {"measurements",
     [](const App& app) { return Json(attempt::measurementsOf(app.session.attempt().record())); }},
    {"notice", [](const App& app) { return Json(app.room.board.notice); }},
    {"verdict", [](const App& app) { return verdict(app.session); }},
    {"pointer", [](const App&) { return pointer(); }},
    {"reducedMotion", [](const App& app) { return Json(app.reducedMotion); }},
    {"hand",
     [](const App& app) {
         return std::visit(HandTeller{app.session.attempt().bench()}, app.room.board.hand);
     }},
    {"camera", [](const App& app) { return camera(app.room.board.camera); }},
};

std::string textOf(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string names() {
    Json out = {"bench"};
    for (const Section& section : kSections)
        out.push_back(section.name);
    return textOf(out);
}

} // namespace

std::string probe(const App& app, std::string_view name) {
    // As its file reads, in the file's order.
    if (name == "bench") return bench::toJson(app.session.attempt().bench());
    for (const Section& section : kSections)
        if (section.name == name) return textOf(section.tell(app));
    return names();
}

} // namespace loom::host

extern "C" EMSCRIPTEN_KEEPALIVE const char* loom_probe(const char* section) {
    static std::string answer;
    answer = loom::host::probe(loom::host::app(), section);
    return answer.c_str();
}

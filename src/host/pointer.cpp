// SPDX-License-Identifier: MIT
#include "host/pointer.h"

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <imgui_impl_sdl2.h>
#include <imgui_internal.h> // InputEventsQueue

namespace loom::host {

namespace {

ImVec2 between(ImVec2 a, ImVec2 b) {
    return {(a.x + b.x) * 0.5f, (a.y + b.y) * 0.5f};
}

float distance(ImVec2 a, ImVec2 b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

void point(ImVec2 at) {
    ImGui::GetIO().AddMouseSourceEvent(ImGuiMouseSource_TouchScreen);
    ImGui::GetIO().AddMousePosEvent(at.x, at.y);
}

void press(bool down) {
    ImGui::GetIO().AddMouseSourceEvent(ImGuiMouseSource_TouchScreen);
    ImGui::GetIO().AddMouseButtonEvent(0, down);
}

// A lifted finger points at nothing.
void pointNowhere() {
    point({-FLT_MAX, -FLT_MAX});
}

// While the command key is held no browser tells of a letter's release.
void releaseUnderCommandKey(const SDL_KeyboardEvent& key) {
    if ((key.keysym.mod & KMOD_GUI) == 0 || key.keysym.sym < SDLK_a || key.keysym.sym > SDLK_z)
        return;
    SDL_Event release{};
    release.key = key;
    release.type = SDL_KEYUP;
    ImGui_ImplSDL2_ProcessEvent(&release);
}

} // namespace

void Pointer::feed(const SDL_Event& event, float width, float height) {
    switch (event.type) {
    case SDL_FINGERDOWN:
    case SDL_FINGERMOTION:
    case SDL_FINGERUP:
        feedFinger(event.tfinger, width, height);
        return;
    case SDL_MOUSEMOTION:
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEWHEEL:
        finger = false;
        break;
    default:
        break;
    }
    ImGui_ImplSDL2_ProcessEvent(&event);
    if (event.type == SDL_KEYDOWN) releaseUnderCommandKey(event.key);
}

void Pointer::feedFinger(const SDL_TouchFingerEvent& event, float width, float height) {
    const ImVec2 at{event.x * width, event.y * height};
    if (event.type == SDL_FINGERDOWN) fingerDown(event.fingerId, at);
    if (event.type == SDL_FINGERMOTION) fingerMoved(event.fingerId, at);
    if (event.type == SDL_FINGERUP) fingerUp(event.fingerId, at);
}

void Pointer::zoom(ImVec2 at, float factor) {
    pinch.active = true;
    pinch.centre = at;
    pinch.scale *= factor;
}

void Pointer::fingerDown(SDL_FingerID id, ImVec2 at) {
    finger = true;
    fingers.push_back({id, at});
    if (fingers.size() == 1) {
        point(at);
        press(true);
    } else {
        interrupt();
    }
}

void Pointer::fingerMoved(SDL_FingerID id, ImVec2 at) {
    const auto it =
        std::find_if(fingers.begin(), fingers.end(), [&](const Finger& f) { return f.id == id; });
    if (it == fingers.end()) return;
    if (!interrupted) {
        it->at = at;
        point(at);
        return;
    }
    if (fingers.size() < 2 || it - fingers.begin() > 1) return;
    const ImVec2 centre = between(fingers[0].at, fingers[1].at);
    const float apart = std::max(distance(fingers[0].at, fingers[1].at), 1.0f);
    it->at = at;
    const ImVec2 centreNow = between(fingers[0].at, fingers[1].at);
    pinch.active = true;
    pinch.centre = centreNow;
    pinch.moved = {pinch.moved.x + centreNow.x - centre.x, pinch.moved.y + centreNow.y - centre.y};
    pinch.scale *= std::max(distance(fingers[0].at, fingers[1].at), 1.0f) / apart;
}

void Pointer::fingerUp(SDL_FingerID id, ImVec2 at) {
    fingers.erase(
        std::remove_if(fingers.begin(), fingers.end(), [&](const Finger& f) { return f.id == id; }),
        fingers.end());
    if (!interrupted) {
        point(at);
        press(false);
        pointNowhere();
    }
    if (fingers.empty()) interrupted = false;
}

void Pointer::cancelTouch() {
    if (!fingers.empty()) interrupt();
}

void Pointer::interrupt() {
    if (interrupted) return;
    interrupted = true;
    lettingGo = true;
    press(false);
    pointNowhere();
}

screen::Pinch Pointer::takePinch() {
    const screen::Pinch taken = pinch;
    pinch = {};
    return taken;
}

// The release may reach the screen some frames later, behind other input; until then whatever it
// would end is undone again, so that nothing takes it for a click.
bool Pointer::settle(screen::RoomUi& ui) {
    if (!lettingGo) return false;
    ui.items.letGo();
    const bool lets = ui.board.carried || !screen::holdsSomething(ui.board);
    if (lets) screen::letGo(ui.board);
    ui.board.press = {};
    const bool seen = ImGui::GetCurrentContext()->InputEventsQueue.empty();
    if (seen && !ImGui::GetIO().MouseDown[0]) lettingGo = false;
    return lets;
}

} // namespace loom::host

// SPDX-License-Identifier: MIT
// Mouse, fingers and keys from SDL to Dear ImGui. One finger is the pointer; a second one stops
// what the first was doing without a click, and the two together pinch.
#pragma once

#include "screen/room/room.h"

#include <SDL.h>
#include <vector>

namespace loom::host {

class Pointer {
public:
    // width, height: the window in CSS pixels.
    void feed(const SDL_Event& event, float width, float height);
    // The trackpad's pinch, which is no touch: a factor about a point.
    void zoom(ImVec2 at, float factor);
    // The browser took the fingers away, for a gesture of its own.
    void cancelTouch();

    // What two fingers have done since the last call.
    screen::Pinch takePinch();
    // Before and after each frame: lets go of what a second finger interrupted. Whether it did.
    bool settle(screen::RoomUi& ui);

    bool isFinger() const { return finger; }

private:
    struct Finger {
        SDL_FingerID id;
        ImVec2 at;
    };

    void feedFinger(const SDL_TouchFingerEvent& event, float width, float height);
    void fingerDown(SDL_FingerID id, ImVec2 at);
    void fingerMoved(SDL_FingerID id, ImVec2 at);
    void fingerUp(SDL_FingerID id, ImVec2 at);
    void interrupt();

    std::vector<Finger> fingers;
    screen::Pinch pinch;
    bool finger = false;      // the last pointer was one
    bool interrupted = false; // until every finger is lifted
    bool lettingGo = false;   // until the screen has seen the release
};

} // namespace loom::host

// SPDX-License-Identifier: MIT
// The whole screen. Make one RoomUi, call drawRoom() between ImGui::NewFrame and Render.
#pragma once

#include "screen/art/picture.h"
#include "screen/room/state.h"

#include <variant>

namespace loom::screen {

// A cable gripped by its middle and pulled.
struct Pull {
    bench::CableId cable;
    bench::Point taken_m; // where on the board it was gripped
    bench::Point to_m;    // where the hand is
};

// What is in the hand, as the yard is to know it.
using InYard = std::variant<std::monostate, Carried, Pull>;

// What a frame came to, besides its intents.
struct Shown {
    bool moves = false;  // by itself: another frame is wanted soon
    bool sounds = false; // the meter's tone
    InYard inHand;
};

// Draws everything, appends what was asked for.
Shown drawRoom(const View& view, RoomUi& ui, art::PictureStore& pictures, Intents& out);

// Escape has nothing to let go of and nothing to close, so that it may mean something to the page.
bool handsFree(const RoomUi& ui);

// A refusal or a sentence from outside (a file that could not be read) to show under the board.
void showNotice(RoomUi& ui, std::string sentence);

} // namespace loom::screen

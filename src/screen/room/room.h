// SPDX-License-Identifier: MIT
// The whole screen. Make one RoomUi, call drawRoom() between ImGui::NewFrame and Render.
#pragma once

#include "screen/art/picture.h"
#include "screen/board/board.h"
#include "screen/kit/view.h"
#include "screen/room/furniture.h"
#include "screen/trace/panel.h"

namespace loom::screen {

struct RoomUi {
    Items items;
    BenchUi bench;
    FurnitureUi furniture;
    TraceUi trace;
};

// Draws everything, appends what was asked for. Returns whether it moves by itself and wants
// another frame soon.
bool drawRoom(const View& view, RoomUi& ui, art::PictureStore& pictures, Intents& out);

// A refusal or a sentence from outside (a file that could not be read) to show under the board.
void showNotice(RoomUi& ui, std::string sentence);

} // namespace loom::screen

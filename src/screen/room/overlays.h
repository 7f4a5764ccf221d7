// SPDX-License-Identifier: MIT
// One table of all that lies in layers on the screen or is held open: what Escape closes and in which
// order, what is drawn over what, what is read and so kept clear of.
#pragma once

#include "screen/room/state.h"

#include <string>
#include <vector>

namespace loom::screen {

// What a layer is drawn with.
struct Painting {
    const View& view;  // of the whole window
    const View& board; // beside the paper when that is pulled wide; still when that is asked for
    RoomUi& ui;
    art::PictureStore& pictures;
    ImDrawList* list;
    Asked out;
    bool moves = false; // something moves by itself
};

struct Overlay {
    const char* name;
    bool (*isOpen)(const RoomUi& ui); // nullptr: it is always there
    void (*close)(RoomUi& ui);        // nullptr: nothing to close
    int layer;                        // drawn from the lowest up; 0: nothing of its own is drawn
    void (*draw)(Painting& painting);
    const char* readItem; // what is laid over the board keeps clear of this item; nullptr: of none
};

// In the order in which Escape closes them.
const std::vector<Overlay>& overlays();
void drawOverlays(Painting& painting, Intents& out);

// The first that is open; nullptr: Escape has nothing to let go of and nothing to close.
const Overlay* frontOverlay(const RoomUi& ui);
// The items that are kept clear of.
std::vector<std::string> readItems();

} // namespace loom::screen

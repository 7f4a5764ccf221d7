// SPDX-License-Identifier: MIT
// Everything round the board: header, paper, event line, tray, tool rail, the card of the chosen
// thing. One file each; this header lists their calls and what they remember.
#pragma once

#include "screen/art/picture.h"
#include "screen/bench_view.h"
#include "screen/view.h"

#include <string>

namespace loom::screen {

struct FurnitureUi {
    bool paperOut = false;   // tablet: the paper is pulled in over the board
    bool trayOpen = true;    // the drawer
    bool eventsOpen = false; // the whole list of happenings
    bool helpOpen = false;
    bool coursesOpen = false; // choosing another exercise
    float trayScroll = 0.0f, eventsScroll = 0.0f, paperScroll = 0.0f;
};

void drawHeader(const View& view, Items& items, FurnitureUi& ui, ImDrawList* list, Intents& out);
// The Job leaf: what to achieve, marks, feedback, hint, check, cautions.
void drawPaper(const View& view, Items& items, FurnitureUi& ui, ImDrawList* list, Intents& out);
// Under the board: the last happening or `notice` when there is one; opens the whole list.
void drawEvents(
    const View& view, Items& items, FurnitureUi& ui, const std::string& notice, ImDrawList* list);
void drawTray(const View& view,
              Items& items,
              FurnitureUi& ui,
              BenchUi& bench,
              art::PictureStore& pictures,
              ImDrawList* list,
              Intents& out);
void drawRail(const View& view,
              Items& items,
              FurnitureUi& ui,
              BenchUi& bench,
              art::PictureStore& pictures,
              ImDrawList* list,
              Intents& out);
// Readings and actions of the chosen part, cable or terminal, beside it on the board.
void drawCard(const View& view, Items& items, BenchUi& bench, ImDrawList* list, Intents& out);
void drawHelp(const View& view, Items& items, FurnitureUi& ui, ImDrawList* list);
void drawTooSmall(const View& view, ImDrawList* list);

} // namespace loom::screen

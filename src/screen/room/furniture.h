// SPDX-License-Identifier: MIT
// Everything round the board: header, paper, event line, tray, tool rail, the card of the chosen
// thing. One file each; this header lists their calls and what they remember.
#pragma once

#include "screen/art/picture.h"
#include "screen/board/board.h"
#include "screen/kit/scroll.h"
#include "screen/kit/view.h"
#include "screen/paper/paper_ui.h"

#include <map>
#include <string>

namespace loom::screen {

// How many events there were when what the event line says changed for another reason.
struct Told {
    Tool tool = Tool::BareHand;
    std::size_t events = 0; // when this tool was taken
    std::size_t undone = 0; // when something was undone last
};

struct FurnitureUi {
    bool paperOut = false;   // tablet: the paper is pulled in over the board
    bool trayOpen = true;    // the drawer
    bool eventsOpen = false; // the whole list of events
    bool helpOpen = false;
    bool coursesOpen = false;  // the leaf on which another exercise is chosen
    bool traceOpen = false;    // quantities against time
    std::string wantLeaf;      // a leaf of the paper that was asked for from elsewhere: "sheet"
    bool motionPaused = false; // what moves by itself stands still, as under reduced motion

    float trayScroll = 0.0f, eventsScroll = 0.0f, paperScroll = 0.0f, helpScroll = 0.0f;
    Grip trayGrip, eventsGrip, paperGrip, helpGrip;
    float paperSlide = 0.0f; // tablet: 0 away, 1 pulled in
    PaperUi paper;           // leaves, plan, sheet
    std::string planCable;   // label of the plan's chosen cable; empty: none
    std::string asking;      // what was pressed that clears the bench, until it is confirmed
    std::string leafShown;   // a change of exercise or leaf brings the paper to its top
    Told told;               // what the event line has left behind
    std::string trayPressed; // the slot on which a press in the tray began
    std::string lastSaid;    // feedback and hints, to show new ones
    std::map<std::string, int> bestMarks; // of this sitting, by exercise
};

// Whether a drawer, a leaf or a list is on its way, so that another frame is wanted.
bool furnitureMoves(const FurnitureUi& ui);

// Draw after the board, in this order; what lies over the board comes later: header, rail, tray,
// card, events, paper, help.
void drawHeader(const View& view, Items& items, FurnitureUi& ui, ImDrawList* list, Intents& out);
// Takes back the last step, when there is one.
void askUndo(const View& view, FurnitureUi& ui, Intents& out);
// The paper with its leaves: Job, Plan, Sheet, Power-up, All jobs.
void drawPaper(const View& view,
               Items& items,
               FurnitureUi& ui,
               BenchUi& bench,
               ImDrawList* list,
               Intents& out);
// The layout while the paper is pulled wide: what is on the board's side makes room for it.
Layout besidePaper(const Layout& layout, const FurnitureUi& ui);
// The strip on the paper tells of what is chosen, so that no card needs to.
bool paperTells(const FurnitureUi& ui);
// The point lies on the paper, so that two fingers there are not for the board.
bool onPaper(const View& view, const FurnitureUi& ui, ImVec2 at);
// Under the board: a refusal, what to do next, or the last event; opens the whole list.
void drawEvents(
    const View& view, Items& items, FurnitureUi& ui, const BenchUi& bench, ImDrawList* list);
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
// Closer, further, whole, still: a small group in the board's corner. Draw before the card.
void drawViewControls(
    const View& view, Items& items, FurnitureUi& ui, BenchUi& bench, ImDrawList* list);
// Readings and actions of the chosen part, cable or terminal, beside it on the board.
void drawCard(const View& view, Items& items, BenchUi& bench, ImDrawList* list, Intents& out);
void drawHelp(const View& view, Items& items, FurnitureUi& ui, ImDrawList* list);
void drawTooSmall(const View& view, ImDrawList* list);

} // namespace loom::screen

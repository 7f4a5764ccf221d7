// SPDX-License-Identifier: MIT
#include "screen/room/overlays.h"

#include "screen/board/board.h"
#include "screen/card/card.h"
#include "screen/closeup/closeup.h"
#include "screen/paper/paper.h"
#include "screen/room/fixtures.h"
#include "screen/room/wishes.h"
#include "screen/trace/panel.h"

namespace loom::screen {

namespace {

// Layers, from the lowest up.
enum Layer {
    NotDrawn,
    OnBoard,
    OnMeter,
    OnControls,
    OnTrace,
    OnCard,
    OnHeader,
    OnEvents,
    OnTray,
    OnRail,
    OnPaperBeside, // beside the board it may be covered by the close-up
    OnCloseup,
    OnPaperOver, // pulled in over the board it lies on top
    OnHelp,
    LayerEnd
};

void drawPaperOn(Painting& p, Form form) {
    if (p.view.layout.form != form) return;
    View view = p.view; // two fingers on it are for it
    view.layout = p.board.layout;
    view.reducedMotion = p.board.reducedMotion;
    drawPaper(view, p.ui.items, p.ui.paper, p.ui.board, p.list, p.out);
}

} // namespace

const std::vector<Overlay>& overlays() {
    // name, isOpen, close, layer, draw, readItem
    static const std::vector<Overlay> all{
        {"meter on the move",
         [](const RoomUi& ui) { return ui.meter.moving; },
         [](RoomUi& ui) { // it goes back to where it was
             ui.meter.moving = false;
             ui.items.letGo();
         },
         NotDrawn,
         nullptr,
         nullptr},
        {"value in the close-up",
         [](const RoomUi& ui) { return ui.closeup.hand.has_value(); },
         [](RoomUi& ui) { ui.closeup.hand.reset(); },
         NotDrawn,
         nullptr,
         nullptr},
        {"hand",
         [](const RoomUi& ui) { return holdsSomething(ui.board); },
         [](RoomUi& ui) { letGo(ui.board); },
         NotDrawn,
         nullptr,
         nullptr},
        {"help",
         [](const RoomUi& ui) { return ui.help.open; },
         [](RoomUi& ui) { ui.help.open = false; },
         OnHelp,
         [](Painting& p) {
             if (p.ui.help.open) drawHelp(p.view, p.ui.items, p.ui.help, p.list, p.out.intents);
         },
         nullptr},
        {"all jobs",
         [](const RoomUi& ui) { return ui.paper.coursesOpen; },
         [](RoomUi& ui) { ui.paper.coursesOpen = false; },
         NotDrawn, // a leaf of the paper
         nullptr,
         nullptr},
        {"trace",
         [](const RoomUi& ui) { return ui.trace.open; },
         [](RoomUi& ui) { ui.trace.open = false; },
         OnTrace,
         [](Painting& p) { drawTrace(p.board, p.ui.items, p.ui.trace, p.list, p.out.intents); },
         "trace/sheet"},
        {"events",
         [](const RoomUi& ui) { return ui.events.open; },
         [](RoomUi& ui) { ui.events.open = false; },
         OnEvents,
         [](Painting& p) { drawEvents(p.board, p.ui.items, p.ui.events, p.ui.board, p.list); },
         nullptr},
        {"paper over the board",
         [](const RoomUi& ui) { return ui.paper.pulledIn; },
         [](RoomUi& ui) { ui.paper.pulledIn = false; },
         OnPaperOver,
         [](Painting& p) { drawPaperOn(p, Form::Tablet); },
         nullptr},
        {"paper pulled wide",
         [](const RoomUi& ui) { return ui.paper.plan.wide; },
         [](RoomUi& ui) { ui.paper.plan.wide = false; },
         OnPaperBeside,
         [](Painting& p) { drawPaperOn(p, Form::Wide); },
         nullptr},
        {"close-up",
         [](const RoomUi& ui) { return ui.closeup.open; },
         [](RoomUi& ui) { closeCloseup(ui.closeup); },
         OnCloseup,
         [](Painting& p) {
             p.moves |= drawCloseup(p.board, p.ui.items, p.ui.closeup, p.ui.board, p.list, p.out);
         },
         nullptr},
        {"card",
         [](const RoomUi& ui) { return ui.board.chosen.index() != 0; },
         [](RoomUi& ui) { ui.board.chosen = {}; },
         OnCard,
         [](Painting& p) {
             if (!paperDescribes(p.ui.paper))
                 drawCard(p.board, p.ui.items, p.ui.board, p.list, p.out);
         },
         "card/sheet"},
        {"tool",
         [](const RoomUi& ui) { return ui.board.tool != Tool::BareHand; },
         [](RoomUi& ui) { ui.board.tool = Tool::BareHand; },
         OnRail,
         [](Painting& p) {
             drawRail(p.view, p.ui.items, p.ui.board, p.ui.trace.open, p.pictures, p.list, p.out);
         },
         nullptr},
        {"board",
         nullptr,
         nullptr,
         OnBoard,
         [](Painting& p) {
             p.moves |= drawBoard(
                 p.board, p.ui.items, p.ui.board, p.ui.closeup.open, p.pictures, p.list, p.out);
         },
         nullptr},
        {"meter",
         nullptr,
         nullptr,
         OnMeter,
         [](Painting& p) {
             p.moves |=
                 drawMeter(p.board, p.ui.items, p.ui.meter, p.ui.board, p.pictures, p.list, p.out);
         },
         "meter/body"},
        {"view controls",
         nullptr,
         nullptr,
         OnControls,
         [](Painting& p) {
             drawViewControls(p.board, p.ui.items, p.ui.still, p.ui.board, p.list, p.out);
         },
         nullptr},
        {"header",
         nullptr,
         nullptr,
         OnHeader,
         [](Painting& p) { drawHeader(p.view, p.ui.items, p.list, p.out); },
         nullptr},
        {"tray",
         nullptr,
         nullptr,
         OnTray,
         [](Painting& p) {
             drawTray(p.board, p.ui.items, p.ui.tray, p.ui.board, p.pictures, p.list, p.out);
         },
         nullptr},
    };
    return all;
}

void drawOverlays(Painting& painting, Intents& out) {
    for (int layer = NotDrawn + 1; layer < LayerEnd; ++layer)
        for (const Overlay& overlay : overlays()) {
            if (overlay.layer != layer) continue;
            overlay.draw(painting);
            grant(painting.view, painting.ui, painting.out, out);
        }
}

const Overlay* frontOverlay(const RoomUi& ui) {
    for (const Overlay& overlay : overlays())
        if (overlay.isOpen && overlay.isOpen(ui)) return &overlay;
    return nullptr;
}

std::vector<std::string> readItems() {
    std::vector<std::string> out;
    for (const Overlay& overlay : overlays())
        if (overlay.readItem) out.push_back(overlay.readItem);
    return out;
}

} // namespace loom::screen

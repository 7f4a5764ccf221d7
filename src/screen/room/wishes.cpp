// SPDX-License-Identifier: MIT
#include "screen/room/wishes.h"

#include "screen/closeup/closeup.h"

namespace loom::screen {

namespace {

// One overload a wish: a forgotten one does not compile.
struct Grant {
    const attempt::Attempt& attempt;
    RoomUi& ui;
    Intents& out;

    void operator()(const PickUp& wish) const {
        pickUp(ui.board, wish.hand, wish.dragged);
        if (wish.at_px) ui.board.hand_px = *wish.at_px;
    }

    void operator()(const LetGo&) const { letGo(ui.board); }

    void operator()(const Choose& wish) const { ui.board.chosen = wish.chosen; }

    void operator()(const TakeTool& wish) const {
        letGo(ui.board);
        ui.board.tool = wish.tool;
    }

    void operator()(const TakeReel& wish) const {
        ui.board.reel = wish.reel;
        ui.board.notice.clear();
    }

    void operator()(const Notice& wish) const { ui.board.notice = wish.sentence; }

    void operator()(const LookAt& wish) const { ui.board.camera = wish.camera; }

    void operator()(const OpenCloseup& wish) const { openCloseup(ui.closeup, wish.of); }

    void operator()(const OpenCloseupAt& wish) const {
        openCloseupAt(ui.closeup, attempt.bench(), wish.terminal);
    }

    void operator()(const ShowSheet&) const { ui.paper.wantsSheet = true; }

    void operator()(const ToggleTrace&) const { ui.trace.open = !ui.trace.open; }

    void operator()(const ToggleHelp&) const {
        ui.help.open = !ui.help.open;
        if (ui.help.open && ui.items.focusVisible()) ui.items.setFocus("help/close");
    }

    void operator()(const UndoStep&) const {
        if (!attempt.canUndo()) return;
        out.push_back(Do{attempt::Undo{}});
        ui.events.since.undone = attempt.events().size();
    }
};

} // namespace

void grant(const View& view, RoomUi& ui, Asked& asked, Intents& out) {
    for (const Wish& wish : asked.wishes)
        std::visit(Grant{view.session->attempt(), ui, out}, wish);
    for (Intent& intent : asked.intents) {
        if (std::holds_alternative<Watch>(intent)) ui.trace.open = true; // to be seen
        out.push_back(std::move(intent));
    }
    asked = {};
}

} // namespace loom::screen

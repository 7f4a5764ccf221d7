// SPDX-License-Identifier: MIT
#include "screen/board/state.h"

namespace loom::screen {

void pickUp(BoardUi& ui, Hand hand, bool dragged) {
    ui.hand = std::move(hand);
    ui.carried = dragged;
    ui.byTap = !dragged;
    ui.chosen = {};
    ui.notice.clear();
    ui.press = {};
    ui.scene.takersKey = 0;
}

void letGo(BoardUi& ui) {
    ui.hand = std::monostate{};
    ui.carried = false;
    ui.press = {};
}

bool holdsSomething(const BoardUi& ui) {
    return !std::holds_alternative<std::monostate>(ui.hand);
}

} // namespace loom::screen

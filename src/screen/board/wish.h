// SPDX-License-Identifier: MIT
// What the screens ask of one another: plain data, granted by the room right after each screen is
// drawn (room/wishes.cpp). What they ask of the host is an Intent (kit/view.h).
#pragma once

#include "screen/board/state.h"

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace loom::screen {

// What a close-up is about: a cable's end, or a terminal that nothing is joined to.
struct CloseupOf {
    bench::CableId cable; // none: the terminal alone
    int end = 0;
    std::optional<bench::TerminalRef> terminal; // where the end is, or was when it came off
};

struct PickUp {
    Hand hand;
    bool dragged = false;          // the pointer is still down
    std::optional<ImVec2> at_px{}; // where the hand is then; nothing: where it was
};

struct LetGo {};

struct Choose {
    Chosen chosen;
};

struct TakeTool {
    Tool tool = Tool::BareHand;
}; // and let go of what is held

struct TakeReel {
    std::size_t reel = 0;
}; // index into the kit's reels

struct Notice {
    std::string sentence;
}; // under the board

struct LookAt {
    Camera camera;
}; // one that is not placed fits the board

struct OpenCloseup {
    CloseupOf of;
};

struct OpenCloseupAt {
    bench::TerminalRef terminal;
}; // of the end on it, the next one if it shows one of them already

struct ShowSheet {}; // of the paper

struct ToggleTrace {};

struct ToggleHelp {};

struct UndoStep {}; // the last one, when there is one

using Wish = std::variant<PickUp,
                          LetGo,
                          Choose,
                          TakeTool,
                          TakeReel,
                          Notice,
                          LookAt,
                          OpenCloseup,
                          OpenCloseupAt,
                          ShowSheet,
                          ToggleTrace,
                          ToggleHelp,
                          UndoStep>;

// What one screen asked for.
struct Asked {
    Intents intents;          // of the host
    std::vector<Wish> wishes; // of the room

    void push_back(Intent intent) { intents.push_back(std::move(intent)); }

    void push_back(Wish wish) { wishes.push_back(std::move(wish)); }
};

} // namespace loom::screen

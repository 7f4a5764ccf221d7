// SPDX-License-Identifier: MIT
// What the card says of the chosen thing, and what it offers to do. Plain data, worked out anew each
// frame; card.cpp draws it.
#pragma once

#include "screen/board/wish.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace loom::screen {

struct Fact {
    std::string label, value;
    double share = -1.0;  // 0..1 is shown as a gauge
    double tooMuch = 2.0; // of the gauge; over 1: never
    bool fault = false;
};

struct Action {
    std::string name; // of the item
    std::string label;
    std::variant<Intent, Wish> asks; // what it asks for
    bool away = false;               // the thing is gone after it
};

struct CardText {
    std::string item;   // which item on the board it is about
    std::string around; // which item that lies on, when it is part of one
    std::string title, second;
    std::vector<Fact> facts;
    std::vector<Action> actions;
    std::string fuseHeading; // over the fuses; empty: none
    std::vector<Action> fuses;
};

// Nothing (an empty title) when the thing is gone.
CardText cardOf(const attempt::Attempt& attempt, const Chosen& chosen);

// Adds what the job at hand and the lie of the cables offer for it.
void offerMore(const View& view, const BoardUi& ui, CardText& card);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The sheet of gestures, keys and cautions over everything else.
#pragma once

#include "screen/kit/scroll.h"
#include "screen/kit/view.h"

namespace loom::screen {

struct HelpUi {
    bool open = false;
    float scroll = 0.0f;
    Grip grip;
};

void drawHelp(const View& view, Items& items, HelpUi& ui, ImDrawList* list, Intents& out);

} // namespace loom::screen

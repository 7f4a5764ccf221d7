// SPDX-License-Identifier: MIT
// Grants what one screen asked of the others.
#pragma once

#include "screen/room/state.h"

namespace loom::screen {

// Empties `asked`: wishes are granted in their order, intents go on to the host.
void grant(const View& view, RoomUi& ui, Asked& asked, Intents& out);

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// The letters of the screen, cut from the embedded fonts at the sizes that view.h names.
#pragma once

#include "screen/kit/view.h"

namespace loom::host {

// Replaces Dear ImGui's fonts. unit: one design pixel in CSS pixels; ratio: device pixels for each
// CSS pixel. Call between frames; Dear ImGui's texture of them must be made again afterwards.
// All null when the program was built without its fonts.
screen::Fonts loadTypefaces(float unit, float ratio);

} // namespace loom::host

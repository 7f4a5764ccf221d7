// SPDX-License-Identifier: MIT
// Every part in each of its states, every sleeve, end and degree of heat: a living manual, drawn by
// the same functions as the bench, and the target of picture tests.
#pragma once

#include "screen/art/lettering.h"
#include "screen/art/picture.h"

namespace loom::art {

// Draws from the top left corner of area; returns the height it needed.
float drawGallery(
    ImDrawList* list, PictureStore& pictures, const FontSet& fonts, Box area, float time_s);

} // namespace loom::art

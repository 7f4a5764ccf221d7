// SPDX-License-Identifier: MIT
// Bitmaps to WebGL textures and back to nothing, as art::PictureStore asks.
#pragma once

#include <imgui.h>

namespace loom::host {

// rgba: width x height x 4 bytes, straight alpha. Linear filtering, clamped at the edges. Null when
// the graphics have no room for it.
ImTextureID uploadTexture(int width, int height, const unsigned char* rgba);
void discardTexture(ImTextureID texture);

} // namespace loom::host

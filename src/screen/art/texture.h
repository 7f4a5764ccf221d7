// SPDX-License-Identifier: MIT
// Bitmaps made by arithmetic: soft spot, birch, and what is done to a picture before it is shown.
// All are RGBA, 4 bytes a pixel, straight alpha, and come out the same every time.
#pragma once

#include <vector>

namespace loom::art {

struct TextureSize {
    int width = 0, height = 0;
};

// White, fading from the middle to nothing at the rim. Returns its side in pixels.
int makeSoftSpot(std::vector<unsigned char>& rgba);

// A birch board with its grain along x.
TextureSize makeBirch(std::vector<unsigned char>& rgba);

// The faint grain of moulded plastic and cast metal; also hides the steps of a gradient.
void addGrain(std::vector<unsigned char>& rgba);

// Turns a picture into its white outline, softened by about three times radius_px.
void blurOutline(std::vector<unsigned char>& rgba, int width, int height, int radius_px);

} // namespace loom::art

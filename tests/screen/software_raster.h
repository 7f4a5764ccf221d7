// SPDX-License-Identifier: MIT
// Draws an ImDrawList into a bitmap without a graphics card: for picture tests. Slow and exact
// enough: triangles with bilinear textures and straight alpha, pixel centres inside.
#pragma once

#include <imgui.h>
#include <memory>
#include <string>
#include <vector>

namespace loom::test {

struct Bitmap {
    int width = 0, height = 0;
    std::vector<unsigned char> rgba;

    Bitmap() = default;
    Bitmap(int w, int h, unsigned char r, unsigned char g, unsigned char b);

    const unsigned char* at(int x, int y) const {
        return &rgba[(static_cast<std::size_t>(y) * width + x) * 4];
    }
};

// Textures by id, to be given to the picture store and the font atlas.
class Textures {
public:
    ImTextureID add(int width, int height, const unsigned char* rgba);
    void remove(ImTextureID id);
    const Bitmap* find(ImTextureID id) const;
    int alive() const;

private:
    std::vector<std::unique_ptr<Bitmap>> bitmaps_; // id - 1 is the index
};

void raster(const ImDrawList& list, const Textures& textures, Bitmap& into);

// Binary portable pixmap. False when the file cannot be written.
bool writePixmap(const Bitmap& bitmap, const std::string& path);

} // namespace loom::test

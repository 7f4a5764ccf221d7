// SPDX-License-Identifier: MIT
// A studio for picture tests: fonts, the drawings of the repository, and a bitmap to draw into.
#pragma once

#include "screen/art/lettering.h"
#include "screen/art/picture.h"
#include "screen/software_raster.h"

#include <functional>
#include <map>
#include <string>

namespace loom::test {

class Studio {
public:
    Studio();
    ~Studio();
    Studio(const Studio&) = delete;
    Studio& operator=(const Studio&) = delete;

    // Draws on birch-coloured ground, again until no picture is shown coarser than it should be.
    Bitmap shoot(int width, int height, const std::function<void(ImDrawList*)>& draw);
    // The draw list of one frame, without a bitmap.
    ImDrawList* frame(const std::function<void(ImDrawList*)>& draw);

    art::PictureStore& pictures() { return *store_; }

    const art::FontSet& fonts() const { return fonts_; }

    const Textures& textures() const { return textures_; }

    // Names asked for that are not in assets/.
    const std::string& missing() const { return missing_; }

private:
    std::string_view read(const std::string& name);

    Textures textures_;
    std::map<std::string, std::string> files_;
    std::string missing_;
    art::FontSet fonts_;
    std::unique_ptr<art::PictureStore> store_;
};

// Share of the pixels (0..1) that differ between two bitmaps of one size by more than `by` in any
// channel, inside a box.
double changed(const Bitmap& a, const Bitmap& b, art::Box where, int by = 8);
// Mean of a channel (0 red, 1 green, 2 blue) inside a box.
double mean(const Bitmap& bitmap, art::Box where, int channel);

} // namespace loom::test

// SPDX-License-Identifier: MIT
#include "screen/art/texture.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace loom::art {

namespace {

// 0..1, the same for the same place.
float speckle(int x, int y) {
    std::uint32_t h =
        static_cast<std::uint32_t>(x) * 0x9e3779b1u ^ static_cast<std::uint32_t>(y) * 0x85ebca6bu;
    h ^= h >> 15;
    h *= 0x2c1b3c6du;
    h ^= h >> 12;
    h *= 0x297a2d39u;
    h ^= h >> 15;
    return static_cast<float>(h & 0xffffu) / 65535.0f;
}

// Smooth noise, 0..1, one bump a unit.
float cloud(float x, float y) {
    const float fx = std::floor(x), fy = std::floor(y);
    const int ix = static_cast<int>(fx), iy = static_cast<int>(fy);
    const float tx = x - fx, ty = y - fy;
    const float sx = tx * tx * (3.0f - 2.0f * tx), sy = ty * ty * (3.0f - 2.0f * ty);
    const float top = speckle(ix, iy) + (speckle(ix + 1, iy) - speckle(ix, iy)) * sx;
    const float low = speckle(ix, iy + 1) + (speckle(ix + 1, iy + 1) - speckle(ix, iy + 1)) * sx;
    return top + (low - top) * sy;
}

unsigned char byte(float value) {
    return static_cast<unsigned char>(std::min(std::max(value, 0.0f), 255.0f));
}

// How dark the wood is at a place in millimetres of board, about -1..1.
float woodTone(float x, float y) {
    // Growth rings cut flat: bands that wander and close into long ovals.
    const float wander =
        26.0f * cloud(x * 0.004f, y * 0.012f) + 7.0f * cloud(x * 0.013f, y * 0.03f);
    const float ring = std::sin((y + wander) * 0.34f);
    const float pale = cloud(x * 0.0022f + 40.0f, y * 0.009f) - 0.5f;
    const float fibre = cloud(x * 0.02f + 90.0f, y * 1.1f) - 0.5f;
    const float fine = cloud(x * 0.05f + 7.0f, y * 2.6f) - 0.5f;
    return 0.20f * ring * std::fabs(ring) + 0.8f * pale + 0.5f * fibre + 0.35f * fine;
}

} // namespace

int makeSoftSpot(std::vector<unsigned char>& rgba) {
    constexpr int kSide = 64;
    rgba.assign(kSide * kSide * 4, 255);
    for (int y = 0; y < kSide; ++y) {
        for (int x = 0; x < kSide; ++x) {
            const float dx = (static_cast<float>(x) + 0.5f) / (kSide / 2) - 1.0f;
            const float dy = (static_cast<float>(y) + 0.5f) / (kSide / 2) - 1.0f;
            const float rim = std::max(0.0f, 1.0f - (dx * dx + dy * dy));
            rgba[static_cast<std::size_t>(y * kSide + x) * 4 + 3] = byte(255.0f * rim * rim + 0.5f);
        }
    }
    return kSide;
}

TextureSize makeBirch(std::vector<unsigned char>& rgba) {
    const TextureSize size{960, 640};
    constexpr int kStride = 8; // the grain is long: in between is interpolated
    constexpr float kMm_per_px = 1.1f;
    rgba.assign(static_cast<std::size_t>(size.width) * size.height * 4, 255);
    for (int y = 0; y < size.height; ++y) {
        float here = woodTone(0.0f, static_cast<float>(y) * kMm_per_px);
        for (int x = 0; x < size.width; x += kStride) {
            const float next = woodTone(static_cast<float>(x + kStride) * kMm_per_px,
                                        static_cast<float>(y) * kMm_per_px);
            for (int i = 0; i < kStride; ++i) {
                const float t = here + (next - here) * static_cast<float>(i) / kStride;
                const float pore = speckle(x + i, y) - 0.5f;
                const float dark = 13.0f * t + 3.0f * pore;
                unsigned char* pixel =
                    &rgba[(static_cast<std::size_t>(y) * size.width + x + i) * 4];
                pixel[0] = byte(231.0f - 0.85f * dark);
                pixel[1] = byte(215.0f - dark);
                pixel[2] = byte(184.0f - 1.25f * dark);
            }
            here = next;
        }
    }
    return size;
}

void addGrain(std::vector<unsigned char>& rgba) {
    for (std::size_t i = 0; i + 3 < rgba.size(); i += 4) {
        if (rgba[i + 3] < 250) continue;
        const float grain = (speckle(static_cast<int>(i), 17) - 0.5f) * 5.0f;
        for (std::size_t c = 0; c < 3; ++c)
            rgba[i + c] = byte(static_cast<float>(rgba[i + c]) + grain + 0.5f);
    }
}

void blurOutline(std::vector<unsigned char>& rgba, int width, int height, int radius_px) {
    std::vector<float> from(static_cast<std::size_t>(width) * height), to(from.size());
    for (std::size_t i = 0; i < from.size(); ++i)
        from[i] = rgba[i * 4 + 3];
    // Three box blurs each way are close to a Gaussian.
    const float share = 1.0f / static_cast<float>(2 * radius_px + 1);
    for (int pass = 0; pass < 6; ++pass) {
        const bool along = pass % 2 == 0;
        const int length = along ? width : height, lines = along ? height : width;
        const std::size_t step = along ? 1 : static_cast<std::size_t>(width);
        for (int line = 0; line < lines; ++line) {
            const std::size_t first =
                along ? static_cast<std::size_t>(line) * width : static_cast<std::size_t>(line);
            float sum = 0.0f;
            for (int i = 0; i < length + radius_px; ++i) {
                if (i < length) sum += from[first + static_cast<std::size_t>(i) * step];
                const int gone = i - 2 * radius_px - 1, middle = i - radius_px;
                if (gone >= 0) sum -= from[first + static_cast<std::size_t>(gone) * step];
                if (middle >= 0) to[first + static_cast<std::size_t>(middle) * step] = sum * share;
            }
        }
        from.swap(to);
    }
    for (std::size_t i = 0; i < from.size(); ++i) {
        rgba[i * 4] = rgba[i * 4 + 1] = rgba[i * 4 + 2] = 255;
        rgba[i * 4 + 3] = byte(from[i] + 0.5f);
    }
}

} // namespace loom::art

// SPDX-License-Identifier: MIT
#include "screen/software_raster.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>

namespace loom::test {

namespace {

struct Colour {
    float c[4];
};

Colour sample(const Bitmap& texture, float u, float v) {
    const float x = std::min(std::max(u * static_cast<float>(texture.width) - 0.5f, 0.0f),
                             static_cast<float>(texture.width - 1));
    const float y = std::min(std::max(v * static_cast<float>(texture.height) - 0.5f, 0.0f),
                             static_cast<float>(texture.height - 1));
    const int x0 = static_cast<int>(x), y0 = static_cast<int>(y);
    const int x1 = std::min(x0 + 1, texture.width - 1), y1 = std::min(y0 + 1, texture.height - 1);
    const float tx = x - static_cast<float>(x0), ty = y - static_cast<float>(y0);
    const unsigned char* p[4] = {
        texture.at(x0, y0), texture.at(x1, y0), texture.at(x0, y1), texture.at(x1, y1)};
    Colour out{};
    for (int c = 0; c < 4; ++c) {
        const float top = p[0][c] + (static_cast<float>(p[1][c]) - p[0][c]) * tx;
        const float low = p[2][c] + (static_cast<float>(p[3][c]) - p[2][c]) * tx;
        out.c[c] = (top + (low - top) * ty) / 255.0f;
    }
    return out;
}

// Twice the signed area of a, b, p.
double side(const ImVec2& a, const ImVec2& b, double x, double y) {
    return (static_cast<double>(b.x) - a.x) * (y - a.y) -
           (static_cast<double>(b.y) - a.y) * (x - a.x);
}

// Pixels on a shared edge belong to one triangle only.
bool owns(const ImVec2& a, const ImVec2& b) {
    return a.y > b.y || (a.y == b.y && a.x < b.x);
}

void triangle(const ImDrawVert* v[3], const ImVec4& clip, const Bitmap& texture, Bitmap& into) {
    double area = side(v[0]->pos, v[1]->pos, v[2]->pos.x, v[2]->pos.y);
    if (area == 0.0) return;
    if (area < 0.0) {
        std::swap(v[1], v[2]);
        area = -area;
    }
    const auto low = [](float a, float b, float c) { return std::min(a, std::min(b, c)); };
    const auto high = [](float a, float b, float c) { return std::max(a, std::max(b, c)); };
    const int x0 =
        std::max({0,
                  static_cast<int>(std::floor(low(v[0]->pos.x, v[1]->pos.x, v[2]->pos.x))),
                  static_cast<int>(clip.x)});
    const int y0 =
        std::max({0,
                  static_cast<int>(std::floor(low(v[0]->pos.y, v[1]->pos.y, v[2]->pos.y))),
                  static_cast<int>(clip.y)});
    const int x1 = std::min({into.width - 1,
                             static_cast<int>(high(v[0]->pos.x, v[1]->pos.x, v[2]->pos.x)),
                             static_cast<int>(clip.z) - 1});
    const int y1 = std::min({into.height - 1,
                             static_cast<int>(high(v[0]->pos.y, v[1]->pos.y, v[2]->pos.y)),
                             static_cast<int>(clip.w) - 1});
    for (int y = y0; y <= y1; ++y) {
        for (int x = x0; x <= x1; ++x) {
            double w[3];
            bool inside = true;
            for (int i = 0; i < 3 && inside; ++i) {
                const ImVec2 &a = v[(i + 1) % 3]->pos, &b = v[(i + 2) % 3]->pos;
                w[i] = side(a, b, x + 0.5, y + 0.5);
                inside = w[i] > 0.0 || (w[i] == 0.0 && owns(a, b));
            }
            if (!inside) continue;
            float uv[2] = {0, 0}, tint[4] = {0, 0, 0, 0};
            for (int i = 0; i < 3; ++i) {
                const float share = static_cast<float>(w[i] / area);
                uv[0] += v[i]->uv.x * share;
                uv[1] += v[i]->uv.y * share;
                for (int c = 0; c < 4; ++c)
                    tint[c] += static_cast<float>((v[i]->col >> (8 * c)) & 255u) / 255.0f * share;
            }
            const Colour texel = sample(texture, uv[0], uv[1]);
            const float alpha = texel.c[3] * tint[3];
            unsigned char* pixel = &into.rgba[(static_cast<std::size_t>(y) * into.width + x) * 4];
            for (int c = 0; c < 3; ++c) {
                const float wanted = texel.c[c] * tint[c] * 255.0f;
                pixel[c] = static_cast<unsigned char>(
                    std::min(255.0f, pixel[c] + (wanted - pixel[c]) * alpha + 0.5f));
            }
        }
    }
}

} // namespace

Bitmap::Bitmap(int w, int h, unsigned char r, unsigned char g, unsigned char b)
    : width(w), height(h), rgba(static_cast<std::size_t>(w) * h * 4) {
    for (std::size_t i = 0; i < rgba.size(); i += 4) {
        rgba[i] = r;
        rgba[i + 1] = g;
        rgba[i + 2] = b;
        rgba[i + 3] = 255;
    }
}

ImTextureID Textures::add(int width, int height, const unsigned char* rgba) {
    auto bitmap = std::make_unique<Bitmap>();
    bitmap->width = width;
    bitmap->height = height;
    bitmap->rgba.assign(rgba, rgba + static_cast<std::size_t>(width) * height * 4);
    bitmaps_.push_back(std::move(bitmap));
    return reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(bitmaps_.size()));
}

void Textures::remove(ImTextureID id) {
    const auto index = static_cast<std::size_t>(reinterpret_cast<std::intptr_t>(id)) - 1;
    if (index < bitmaps_.size()) bitmaps_[index].reset();
}

const Bitmap* Textures::find(ImTextureID id) const {
    const auto index = static_cast<std::size_t>(reinterpret_cast<std::intptr_t>(id)) - 1;
    return index < bitmaps_.size() ? bitmaps_[index].get() : nullptr;
}

int Textures::alive() const {
    return static_cast<int>(std::count_if(
        bitmaps_.begin(), bitmaps_.end(), [](const auto& b) { return b != nullptr; }));
}

void raster(const ImDrawList& list, const Textures& textures, Bitmap& into) {
    for (const ImDrawCmd& command : list.CmdBuffer) {
        const Bitmap* texture = textures.find(command.TextureId);
        if (!texture || command.UserCallback) continue;
        for (unsigned i = 0; i + 2 < command.ElemCount; i += 3) {
            const ImDrawVert* corners[3];
            for (unsigned c = 0; c < 3; ++c)
                corners[c] = &list.VtxBuffer[static_cast<int>(
                    list.IdxBuffer[static_cast<int>(command.IdxOffset + i + c)] +
                    command.VtxOffset)];
            triangle(corners, command.ClipRect, *texture, into);
        }
    }
}

bool writePixmap(const Bitmap& bitmap, const std::string& path) {
    std::FILE* file = std::fopen(path.c_str(), "wb");
    if (!file) return false;
    std::fprintf(file, "P6\n%d %d\n255\n", bitmap.width, bitmap.height);
    for (std::size_t i = 0; i < bitmap.rgba.size(); i += 4)
        std::fwrite(&bitmap.rgba[i], 1, 3, file);
    return std::fclose(file) == 0;
}

} // namespace loom::test

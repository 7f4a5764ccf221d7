// SPDX-License-Identifier: MIT
#include "screen/art/picture.h"

#include "screen/art/palette.h"
#include "screen/art/texture.h"

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wsign-compare"
#pragma GCC diagnostic ignored "-Wunused-parameter"
#endif
#ifndef SDLCALL
#define SDLCALL // the package's copy marks one function with SDL's calling convention
#endif
#define NANOSVG_IMPLEMENTATION
#define NANOSVGRAST_IMPLEMENTATION
#include <nanosvg.h>
#include <nanosvgrast.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

namespace loom::art {

namespace {

constexpr float kStepRatio = 1.25f;    // from one zoom step to the next
constexpr int kGreatestSide_px = 2048; // of a bitmap; larger zooms are stretched
constexpr int kMadeEachFrame = 3;      // then coarser steps stand in, so zooming stays smooth
constexpr float kShadow_px_per_mm = 0.4f;
constexpr float kShadowMargin_mm = 16.0f;

float stepScale(int step) {
    return std::pow(kStepRatio, static_cast<float>(step));
}

int stepFor(float px_per_mm) {
    const float wanted = std::min(std::max(px_per_mm, 0.02f), 200.0f);
    return static_cast<int>(std::ceil(std::log(wanted) / std::log(kStepRatio) - 0.02f));
}

struct Corners {
    ImVec2 at[4];
};

// Corners of a box turned clockwise by quarter turns, starting with its own top left.
Corners turned(ImVec2 centre, float halfWidth, float halfHeight, int quarterTurns) {
    static const ImVec2 across[4] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
    const ImVec2 x = across[quarterTurns & 3], y = across[(quarterTurns + 1) & 3];
    const float sign[4][2] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
    Corners out;
    for (int i = 0; i < 4; ++i) {
        const float w = sign[i][0] * halfWidth, h = sign[i][1] * halfHeight;
        out.at[i] = ImVec2(centre.x + x.x * w + y.x * h, centre.y + x.y * w + y.y * h);
    }
    return out;
}

} // namespace

struct PictureStore::Sheet {
    NSVGimage* image = nullptr; // null: unknown or not readable
    std::vector<Made> made;
    Picture shadow;

    ~Sheet() {
        if (image) nsvgDelete(image);
    }
};

PictureStore::PictureStore(Source source, Upload upload, Discard discard)
    : source_(std::move(source)), upload_(std::move(upload)), discard_(std::move(discard)) {}

PictureStore::~PictureStore() {
    for (auto& [name, sheet] : sheets_) {
        for (Made& made : sheet->made)
            drop(made.picture);
        drop(sheet->shadow);
    }
    if (softSpot_) discard_(softSpot_);
    if (birch_) discard_(birch_);
}

void PictureStore::setPixelRatio(float ratio) {
    ratio_ = std::min(std::max(ratio, 0.5f), 4.0f);
}

PictureStore::Sheet* PictureStore::sheet(const char* name) {
    const auto found = sheets_.find(std::string_view(name));
    if (found != sheets_.end()) return found->second->image ? found->second.get() : nullptr;
    auto fresh = std::make_unique<Sheet>();
    std::string text(source_(name)); // the parser writes into it
    if (!text.empty()) fresh->image = nsvgParse(text.data(), "px", 96.0f);
    if (fresh->image && !(fresh->image->width > 0.0f && fresh->image->height > 0.0f)) {
        nsvgDelete(fresh->image);
        fresh->image = nullptr;
    }
    Sheet* made = fresh.get();
    sheets_.emplace(name, std::move(fresh));
    return made->image ? made : nullptr;
}

Picture PictureStore::rasterise(const Sheet& sheet, float px_per_mm, float margin_mm) {
    Picture picture;
    picture.width_mm = sheet.image->width;
    picture.height_mm = sheet.image->height;
    picture.margin_mm = margin_mm;
    const float longest = std::max(picture.width_mm, picture.height_mm) + 2.0f * margin_mm;
    const float scale = std::min(px_per_mm, static_cast<float>(kGreatestSide_px - 1) / longest);
    const float w_px = (picture.width_mm + 2.0f * margin_mm) * scale;
    const float h_px = (picture.height_mm + 2.0f * margin_mm) * scale;
    picture.width_px = std::max(1, static_cast<int>(std::ceil(w_px)));
    picture.height_px = std::max(1, static_cast<int>(std::ceil(h_px)));
    picture.uvMax = ImVec2(w_px / static_cast<float>(picture.width_px),
                           h_px / static_cast<float>(picture.height_px));
    rgba_.assign(static_cast<std::size_t>(picture.width_px) * picture.height_px * 4, 0);
    NSVGrasterizer* rasterizer = nsvgCreateRasterizer();
    if (!rasterizer) return picture;
    nsvgRasterize(rasterizer,
                  sheet.image,
                  margin_mm * scale,
                  margin_mm * scale,
                  scale,
                  rgba_.data(),
                  picture.width_px,
                  picture.height_px,
                  picture.width_px * 4);
    nsvgDeleteRasterizer(rasterizer);
    return picture;
}

void PictureStore::send(Picture& picture) {
    picture.texture = upload_(picture.width_px, picture.height_px, rgba_.data());
    memory_ += rgba_.size();
}

void PictureStore::drop(Picture& picture) {
    if (!picture.texture) return;
    discard_(picture.texture);
    memory_ -= static_cast<std::size_t>(picture.width_px) * picture.height_px * 4;
    picture = Picture{};
}

const Picture* PictureStore::at(Sheet& sheet, float px_per_m) {
    const int step = stepFor(px_per_m * ratio_ / 1000.0f);
    Made* nearest = nullptr;
    for (Made& made : sheet.made) {
        if (!nearest || std::abs(made.step - step) < std::abs(nearest->step - step))
            nearest = &made;
    }
    if (nearest && (nearest->step == step || madeThisFrame_ >= kMadeEachFrame)) {
        coarse_ = coarse_ || nearest->step != step;
        nearest->lastSeen = frame_;
        return &nearest->picture;
    }
    ++madeThisFrame_;
    const float scale = stepScale(step);
    Made made;
    made.step = step;
    made.lastSeen = frame_;
    made.picture = rasterise(sheet, scale, 2.0f / scale);
    addGrain(rgba_);
    send(made.picture);
    sheet.made.push_back(made);
    return &sheet.made.back().picture;
}

const Picture* PictureStore::shadowOf(Sheet& sheet) {
    if (!sheet.shadow.texture) {
        sheet.shadow = rasterise(sheet, kShadow_px_per_mm, kShadowMargin_mm);
        blurOutline(rgba_, sheet.shadow.width_px, sheet.shadow.height_px, 2);
        send(sheet.shadow);
    }
    return &sheet.shadow;
}

namespace {

void drawQuad(ImDrawList* list,
              const Picture& picture,
              ImVec2 centre,
              float px_per_m,
              int turns,
              ImU32 tint) {
    const float half = px_per_m / 2000.0f;
    const Corners c = turned(centre,
                             (picture.width_mm + 2.0f * picture.margin_mm) * half,
                             (picture.height_mm + 2.0f * picture.margin_mm) * half,
                             turns);
    const ImVec2 uv = picture.uvMax;
    list->AddImageQuad(picture.texture,
                       c.at[0],
                       c.at[1],
                       c.at[2],
                       c.at[3],
                       ImVec2(0, 0),
                       ImVec2(uv.x, 0),
                       uv,
                       ImVec2(0, uv.y),
                       tint);
}

} // namespace

bool PictureStore::draw(ImDrawList* list,
                        const char* name,
                        ImVec2 centre,
                        float px_per_m,
                        int quarterTurns,
                        ImU32 tint) {
    Sheet* known = sheet(name);
    if (!known || !(px_per_m > 0.0f)) return false;
    drawQuad(list, *at(*known, px_per_m), centre, px_per_m, quarterTurns, tint);
    return true;
}

bool PictureStore::drawFitted(
    ImDrawList* list, const char* name, ImVec2 centre, float side_px, ImU32 tint) {
    const ImVec2 size = size_mm(name);
    const float longest = std::max(size.x, size.y);
    return longest > 0.0f && draw(list, name, centre, side_px * 1000.0f / longest, 0, tint);
}

void PictureStore::drawShadow(ImDrawList* list,
                              const char* name,
                              ImVec2 centre,
                              float px_per_m,
                              int quarterTurns,
                              ImVec2 offset_px,
                              float alpha) {
    Sheet* known = sheet(name);
    if (!known || !(px_per_m > 0.0f)) return;
    drawQuad(list,
             *shadowOf(*known),
             ImVec2(centre.x + offset_px.x, centre.y + offset_px.y),
             px_per_m,
             quarterTurns,
             fade(tone::kShadow, alpha));
}

ImVec2 PictureStore::size_mm(const char* name) {
    const Sheet* known = sheet(name);
    return known ? ImVec2(known->image->width, known->image->height) : ImVec2(0, 0);
}

ImTextureID PictureStore::softSpot() {
    if (!softSpot_) {
        const int side = makeSoftSpot(rgba_);
        softSpot_ = upload_(side, side, rgba_.data());
    }
    return softSpot_;
}

ImTextureID PictureStore::birch() {
    if (!birch_) {
        const TextureSize size = makeBirch(rgba_);
        birch_ = upload_(size.width, size.height, rgba_.data());
    }
    return birch_;
}

void PictureStore::dropOldest() {
    Sheet* owner = nullptr;
    std::size_t index = 0;
    long oldest = frame_ - 1; // what was drawn in the last frame stays
    for (auto& [name, sheet] : sheets_) {
        for (std::size_t i = 0; i < sheet->made.size(); ++i) {
            if (sheet->made[i].lastSeen >= oldest) continue;
            oldest = sheet->made[i].lastSeen;
            owner = sheet.get();
            index = i;
        }
    }
    if (!owner) return;
    drop(owner->made[index].picture);
    owner->made.erase(owner->made.begin() + static_cast<std::ptrdiff_t>(index));
}

bool PictureStore::endFrame() {
    ++frame_;
    while (memory_ > budget_) {
        const std::size_t before = memory_;
        dropOldest();
        if (memory_ == before) break;
    }
    const bool wantsAnother = coarse_;
    coarse_ = false;
    madeThisFrame_ = 0;
    return wantsAnother;
}

} // namespace loom::art

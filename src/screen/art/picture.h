// SPDX-License-Identifier: MIT
// Pictures of still things, kept as SVG files under assets and turned into textures when first
// seen at a zoom step. Make one PictureStore with three functions, then call draw() each frame and
// endFrame() at its end. It knows neither files nor graphics interfaces.
#pragma once

#include <functional>
#include <imgui.h>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace loom::art {

struct Picture {
    ImTextureID texture = nullptr;
    int width_px = 0, height_px = 0;         // of the bitmap
    float width_mm = 0.0f, height_mm = 0.0f; // of the thing, from the file's viewBox
    ImVec2 uvMax{1, 1};                      // the part of the bitmap that is used
    float margin_mm = 0.0f;                  // bitmap border beyond the viewBox on every side
};

class PictureStore {
public:
    // The text of assets/<name>.svg, for example "parts/battery"; empty when there is none.
    using Source = std::function<std::string_view(const std::string& name)>;
    // rgba: width x height x 4 bytes, straight alpha. Linear filtering, clamped at the edges.
    using Upload = std::function<ImTextureID(int width, int height, const unsigned char* rgba)>;
    using Discard = std::function<void(ImTextureID)>;

    PictureStore(Source source, Upload upload, Discard discard);
    ~PictureStore();
    PictureStore(const PictureStore&) = delete;
    PictureStore& operator=(const PictureStore&) = delete;

    // Device pixels for each pixel of ImGui (1 on plain screens): pictures are made that much finer.
    void setPixelRatio(float ratio);

    // Draws a picture with its centre at a point, turned clockwise by quarter turns.
    // Returns false when the name is unknown or the file cannot be read: nothing is drawn.
    bool draw(ImDrawList* list,
              const char* name,
              ImVec2 centre,
              float px_per_m,
              int quarterTurns,
              ImU32 tint = IM_COL32_WHITE);
    // As draw(), scaled so that its longer side is side_px.
    bool drawFitted(ImDrawList* list,
                    const char* name,
                    ImVec2 centre,
                    float side_px,
                    ImU32 tint = IM_COL32_WHITE);
    // The soft shadow of the picture's outline, moved by offset.
    void drawShadow(ImDrawList* list,
                    const char* name,
                    ImVec2 centre,
                    float px_per_m,
                    int quarterTurns,
                    ImVec2 offset_px,
                    float alpha);

    // Size of the thing in mm; 0,0 when unknown.
    ImVec2 size_mm(const char* name);
    // A round white spot fading to nothing, for glows, smoke and soft shadows.
    ImTextureID softSpot();
    // Birch, generated once; repeats neither way.
    ImTextureID birch();

    // Call once a frame, after drawing: forgets zoom steps not seen lately when memory is short.
    // True when a picture was shown coarser than it should be, so another frame is wanted.
    bool endFrame();

    std::size_t memory_bytes() const { return memory_; }

    // Bytes of texture above which old zoom steps go.
    void setBudget(std::size_t bytes) { budget_ = bytes; }

private:
    struct Sheet; // a parsed file and its textures

    struct Made {
        Picture picture;
        int step = 0;
        long lastSeen = 0;
    };

    Sheet* sheet(const char* name);
    const Picture* at(Sheet& sheet, float px_per_m);
    const Picture* shadowOf(Sheet& sheet);
    Picture rasterise(const Sheet& sheet, float px_per_mm, float margin_mm);
    void send(Picture& picture);
    void drop(Picture& picture);
    void dropOldest();

    Source source_;
    Upload upload_;
    Discard discard_;
    std::map<std::string, std::unique_ptr<Sheet>, std::less<>> sheets_;
    std::vector<unsigned char> rgba_; // the bitmap in hand
    ImTextureID softSpot_ = nullptr, birch_ = nullptr;
    float ratio_ = 1.0f;
    long frame_ = 1;
    int madeThisFrame_ = 0;
    bool coarse_ = false;
    std::size_t memory_ = 0, budget_ = 48u << 20;
};

} // namespace loom::art

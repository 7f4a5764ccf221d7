// SPDX-License-Identifier: MIT
// Pictures of still things, kept as SVG files under assets and turned into textures when first
// seen at a zoom step. Make one PictureStore with three functions, then call draw() each frame and
// endFrame() at its end. It knows neither files nor graphics interfaces.
#pragma once

#include <functional>
#include <imgui.h>
#include <map>
#include <string>
#include <string_view>

namespace loom::art {

struct Picture {
    ImTextureID texture = nullptr;
    int width_px = 0, height_px = 0;         // of the bitmap
    float width_mm = 0.0f, height_mm = 0.0f; // of the thing, from the file's viewBox
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
    // The soft shadow of the picture's outline, moved by offset. blur 1 lies flat, 2 is lifted.
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

    // Forget every texture without discarding it: the graphics context was lost.
    void contextLost();

private:
    struct Key {
        std::string name;
        int step; // zoom step, or kShadowStep

        bool operator<(const Key& other) const {
            return step != other.step ? step < other.step : name < other.name;
        }
    };

    struct Entry {
        Picture picture;
        long lastSeen = 0;
    };
    struct Sheet; // a parsed file

    Sheet* sheet(const char* name);
    const Picture* at(const char* name, float px_per_m);
    const Picture* shadowOf(const char* name);
    const Picture* keep(const Key& key, Picture picture, const unsigned char* rgba);
    Picture rasterised(Sheet& sheet, int step, float scale, std::string& rgba);
    void drop(std::map<Key, Entry>::iterator entry);

    Source source_;
    Upload upload_;
    Discard discard_;
    std::map<std::string, Sheet*> sheets_;
    std::map<Key, Entry> entries_;
    ImTextureID softSpot_ = nullptr, birch_ = nullptr;
    float ratio_ = 1.0f;
    long frame_ = 1;
    int madeThisFrame_ = 0;
    bool coarse_ = false;
    std::size_t memory_ = 0, budget_ = 48u << 20;
};

} // namespace loom::art

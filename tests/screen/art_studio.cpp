// SPDX-License-Identifier: MIT
#include "screen/art_studio.h"

#include <cmath>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <sstream>

namespace loom::test {

namespace {

std::string contents(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream all;
    all << file.rdbuf();
    return all.str();
}

ImFont* load(const std::string& bytes, float size_px) {
    void* copy = ImGui::MemAlloc(bytes.size()); // the atlas frees it
    std::memcpy(copy, bytes.data(), bytes.size());
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(
        copy, static_cast<int>(bytes.size()), size_px);
}

template <class Visit> void eachPixel(const Bitmap& bitmap, art::Box where, const Visit& visit) {
    for (int y = std::max(0, static_cast<int>(where.min.y));
         y < std::min(bitmap.height, static_cast<int>(where.max.y));
         ++y)
        for (int x = std::max(0, static_cast<int>(where.min.x));
             x < std::min(bitmap.width, static_cast<int>(where.max.x));
             ++x)
            visit(x, y);
}

} // namespace

Studio::Studio() {
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = ImVec2(4096, 4096);
    const std::string folder = "/usr/share/fonts/truetype/open-sans/OpenSans-";
    const std::string regular = contents(folder + "Regular.ttf"),
                      bold = contents(folder + "Semibold.ttf");
    const float sizes[art::FontSet::kSizes] = {16.0f, 21.0f, 26.0f, 36.0f};
    for (int i = 0; i < art::FontSet::kSizes; ++i) {
        fonts_.regular[i] = load(regular, sizes[i]);
        fonts_.bold[i] = load(bold, sizes[i]);
    }
    unsigned char* pixels = nullptr;
    int width = 0, height = 0;
    io.Fonts->GetTexDataAsRGBA32(&pixels, &width, &height);
    io.Fonts->SetTexID(textures_.add(width, height, pixels));
    store_ = std::make_unique<art::PictureStore>(
        [this](const std::string& name) { return read(name); },
        [this](int w, int h, const unsigned char* rgba) { return textures_.add(w, h, rgba); },
        [this](ImTextureID id) { textures_.remove(id); });
}

Studio::~Studio() {
    store_.reset();
    ImGui::DestroyContext();
}

std::string_view Studio::read(const std::string& name) {
    auto found = files_.find(name);
    if (found == files_.end()) {
        found =
            files_.emplace(name, contents(std::string(LOOM_SOURCE_DIR "/assets/") + name + ".svg"))
                .first;
        if (found->second.empty()) missing_ += name + " ";
    }
    return found->second;
}

ImDrawList* Studio::frame(const std::function<void(ImDrawList*)>& draw) {
    ImGui::NewFrame();
    ImDrawList* list = ImGui::GetBackgroundDrawList();
    draw(list);
    ImGui::EndFrame();
    return list;
}

Bitmap Studio::shoot(int width, int height, const std::function<void(ImDrawList*)>& draw) {
    ImDrawList* list = nullptr;
    do
        list = frame(draw);
    while (store_->endFrame());
    Bitmap bitmap(width, height, 0xe6, 0xd6, 0xb6);
    raster(*list, textures_, bitmap);
    return bitmap;
}

double changed(const Bitmap& a, const Bitmap& b, art::Box where, int by) {
    int different = 0, all = 0;
    eachPixel(a, where, [&](int x, int y) {
        ++all;
        for (int c = 0; c < 3; ++c)
            if (std::abs(a.at(x, y)[c] - b.at(x, y)[c]) > by) {
                ++different;
                break;
            }
    });
    return all > 0 ? static_cast<double>(different) / all : 0.0;
}

double mean(const Bitmap& bitmap, art::Box where, int channel) {
    double sum = 0.0;
    int all = 0;
    eachPixel(bitmap, where, [&](int x, int y) {
        sum += bitmap.at(x, y)[channel];
        ++all;
    });
    return all > 0 ? sum / all : 0.0;
}

} // namespace loom::test

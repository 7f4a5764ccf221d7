// SPDX-License-Identifier: MIT
#include "host/typefaces.h"

#include "assets/embedded.h"

namespace loom::host {

namespace {

// What assets/CMakeLists.txt leaves in the files.
const ImWchar everyLetter[] = {
    0x20,   0x7e,   0xa0,   0x17f,  0x2c6,  0x2c6,  0x2dc,  0x2dc,  0x394,  0x394,  0x3a9,
    0x3a9,  0x3bc,  0x3bc,  0x1e80, 0x1e85, 0x1ef2, 0x1ef3, 0x2010, 0x2027, 0x202f, 0x203a,
    0x20ac, 0x20ac, 0x2122, 0x2126, 0x2190, 0x2193, 0x2212, 0x2212, 0x221e, 0x221e, 0x2248,
    0x2248, 0x2260, 0x2265, 0x25cf, 0x25cf, 0x2713, 0x2713, 0};
// Legends on parts are short and in no language.
const ImWchar legendLetters[] = {0x20, 0x7e, 0xa0, 0xff, 0x3a9, 0x3a9, 0x2212, 0x2212, 0};

struct Face {
    const char* path;
    float size_px; // CSS pixels of the em
    float density; // times the screen's: more for what is drawn larger than it is loaded
    const ImWchar* letters;
};

ImFont* load(const Face& face, float unit, float ratio) {
    const Embedded* file = findEmbedded(face.path);
    if (file == nullptr) return nullptr;
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    config.RasterizerDensity = ratio * face.density;
    config.OversampleH = config.RasterizerDensity < 1.5f ? 2 : 1;
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(file->bytes),
                                                      static_cast<int>(file->size),
                                                      face.size_px * unit * screen::kLinePerEm,
                                                      &config,
                                                      face.letters);
}

} // namespace

screen::Fonts loadTypefaces(float unit, float ratio) {
    const char* regular = "fonts/OpenSans-Regular.ttf";
    const char* semibold = "fonts/OpenSans-Semibold.ttf";
    ImGui::GetIO().Fonts->Clear();
    screen::Fonts fonts;
    fonts.body = load({regular, 16, 1, everyLetter}, unit, ratio);
    fonts.bold = load({semibold, 16, 1, everyLetter}, unit, ratio);
    fonts.title = load({semibold, 19, 1, everyLetter}, unit, ratio);
    fonts.large = load({semibold, 24, 1, everyLetter}, unit, ratio);
    fonts.legend = load({semibold, 13, 2, legendLetters}, unit, ratio);
    return fonts;
}

} // namespace loom::host

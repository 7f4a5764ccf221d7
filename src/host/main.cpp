// The program of the page: opens the canvas and draws frames. First proof of the tool chain only.
#include <SDL.h>
#include <SDL_opengles2.h>
#include <emscripten.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>

#include "assets/embedded.h"

namespace {
SDL_Window* window = nullptr;

void drawFrame() {
    SDL_Event event;
    while (SDL_PollEvent(&event)) ImGui_ImplSDL2_ProcessEvent(&event);
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplSDL2_NewFrame();
    ImGui::NewFrame();
    ImGui::GetForegroundDrawList()->AddText({40, 40}, 0xffdcedf3, "Loomwright: 24 V, 1.5 mΩ ✓");
    ImGui::Render();
    int width = 0;
    int height = 0;
    SDL_GL_GetDrawableSize(window, &width, &height);
    glViewport(0, 0, width, height);
    glClearColor(0x22 / 255.f, 0x38 / 255.f, 0x3a / 255.f, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    SDL_GL_SwapWindow(window);
    EM_ASM({
        if (!performance.getEntriesByName('loom-first-frame').length)
            performance.mark('loom-first-frame');
    });
}
} // namespace

extern "C" EMSCRIPTEN_KEEPALIVE const char* loom_probe() {
    return R"({"settled": true, "framesWanted": 0, "rects": {}, "bench": {}})";
}

int main() {
    SDL_SetHint(SDL_HINT_EMSCRIPTEN_KEYBOARD_ELEMENT, "#canvas");
    SDL_Init(SDL_INIT_VIDEO);
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 2);
    window = SDL_CreateWindow("Loomwright", 0, 0, 1280, 720,
                              SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
    SDL_GLContext context = SDL_GL_CreateContext(window);
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    static const ImWchar range[] = {0x20, 0x2713, 0};
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    const Embedded* font = findEmbedded("fonts/OpenSans-Regular.ttf");
    ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(font->bytes),
                                               static_cast<int>(font->size), 24, &config, range);
    ImGui_ImplSDL2_InitForOpenGL(window, context);
    ImGui_ImplOpenGL3_Init("#version 100");
    emscripten_set_main_loop(drawFrame, 0, 0);
}

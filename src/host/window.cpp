// SPDX-License-Identifier: MIT
#include "host/window.h"

#include <cmath>
#include <emscripten/html5.h>

namespace loom::host {

namespace {

struct Size {
    int width, height;
    float ratio;
};

Size canvasSize() {
    double width = 0.0, height = 0.0;
    emscripten_get_element_css_size("#canvas", &width, &height);
    return {static_cast<int>(width),
            static_cast<int>(height),
            static_cast<float>(emscripten_get_device_pixel_ratio())};
}

} // namespace

bool openWindow(Window& window) {
    // Keys belong to the canvas, not to the whole page; fingers are handled in pointer.cpp.
    SDL_SetHint(SDL_HINT_EMSCRIPTEN_KEYBOARD_ELEMENT, "#canvas");
    SDL_SetHint(SDL_HINT_TOUCH_MOUSE_EVENTS, "0");
    if (SDL_Init(SDL_INIT_VIDEO) != 0) return false;
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 2);
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
    SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0);
    SDL_GL_SetAttribute(SDL_GL_ALPHA_SIZE, 0);
    const Size size = canvasSize();
    window.window =
        SDL_CreateWindow("Loomwright",
                         0,
                         0,
                         size.width,
                         size.height,
                         SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
    if (window.window == nullptr) return false;
    window.context = SDL_GL_CreateContext(window.window);
    if (window.context == nullptr) return false;
    fit(window);
    return true;
}

bool fit(Window& window) {
    const Size size = canvasSize();
    int wide = 0, high = 0, wide_px = 0, high_px = 0;
    SDL_GetWindowSize(window.window, &wide, &high);
    SDL_GL_GetDrawableSize(window.window, &wide_px, &high_px);
    const bool drawnAsShown = wide == size.width && high == size.height &&
                              wide_px == static_cast<int>(size.width * size.ratio) &&
                              high_px == static_cast<int>(size.height * size.ratio);
    if (!drawnAsShown && size.width > 0 && size.height > 0)
        SDL_SetWindowSize(window.window, size.width, size.height);
    const bool changed =
        window.width != size.width || window.height != size.height || window.ratio != size.ratio;
    window.width = size.width;
    window.height = size.height;
    window.ratio = size.ratio;
    return changed;
}

} // namespace loom::host

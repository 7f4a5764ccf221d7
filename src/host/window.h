// SPDX-License-Identifier: MIT
// The canvas as an SDL window with a WebGL 1 context. openWindow() once; fit() whenever the page
// may have given it another size.
#pragma once

#include <SDL.h>

namespace loom::host {

struct Window {
    SDL_Window* window = nullptr;
    SDL_GLContext context = nullptr;
    int width = 0, height = 0; // CSS pixels, which are Dear ImGui's
    float ratio = 1.0f;        // device pixels for each of them, at most 2
};

// False when the browser gives no window or no graphics; SDL_GetError() says why.
bool openWindow(Window& window);

// Takes on the canvas's present size. Returns whether it had another.
bool fit(Window& window);

} // namespace loom::host

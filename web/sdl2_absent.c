/* The Dear ImGui backend and SDL2 itself name these functions, but the page is built without game
   controllers, renderer, window surfaces and pictures as cursors. Each answers "there is none". */
#include <SDL.h>

SDL_GameController* SDL_GameControllerOpen(int index) {
    (void)index;
    return NULL;
}

void SDL_GameControllerClose(SDL_GameController* pad) {
    (void)pad;
}

Uint8 SDL_GameControllerGetButton(SDL_GameController* pad, SDL_GameControllerButton button) {
    (void)pad;
    (void)button;
    return 0;
}

Sint16 SDL_GameControllerGetAxis(SDL_GameController* pad, SDL_GameControllerAxis axis) {
    (void)pad;
    (void)axis;
    return 0;
}

int SDL_GetRendererOutputSize(SDL_Renderer* renderer, int* width, int* height) {
    (void)renderer;
    *width = *height = 0;
    return -1;
}

SDL_Surface* loom_no_cursor_picture(SDL_Surface* picture, Uint32 format, Uint32 flags) {
    (void)picture;
    (void)format;
    (void)flags;
    return NULL;
}

void* loom_no_entry_point(const char* name) {
    (void)name;
    return NULL;
}

int Emscripten_CreateWindowFramebuffer(
    void* device, SDL_Window* window, Uint32* format, void** pixels, int* pitch) {
    (void)device;
    (void)window;
    (void)format;
    (void)pixels;
    (void)pitch;
    return -1;
}

int Emscripten_UpdateWindowFramebuffer(
    void* device, SDL_Window* window, const SDL_Rect* rects, int count) {
    (void)device;
    (void)window;
    (void)rects;
    (void)count;
    return -1;
}

void Emscripten_DestroyWindowFramebuffer(void* device, SDL_Window* window) {
    (void)device;
    (void)window;
}

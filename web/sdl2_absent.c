/* The Dear ImGui backend names these functions of SDL2, but the page is built without SDL2's game
   controllers and renderer. Each answers "there is none". */
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

// SPDX-License-Identifier: MIT
// Starts the page: window, graphics, course, storage; then the loop draws a frame whenever one is
// wanted.
#include "assets/embedded.h"
#include "bench/file.h"
#include "host/app.h"
#include "host/page.h"
#include "host/textures.h"
#include "lesson/course.h"
#include "screen/sentences.h"

#include <emscripten.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>
#include <memory>

namespace loom::host {

namespace {

std::unique_ptr<App> theApp;

std::string_view drawing(const std::string& name) {
    const Embedded* file = findEmbedded(("assets/" + name + ".svg").c_str());
    if (file == nullptr) return {};
    return {reinterpret_cast<const char*>(file->bytes), file->size};
}

// What is built in can be read, or the program was put together wrongly and cannot go on.
template <class T> T builtIn(bench::Outcome<T> outcome) {
    if (!outcome) loom_give_up(screen::sentence(outcome.refusal()).c_str());
    return std::move(outcome.value());
}

lesson::Session openCourse() {
    const Embedded* file = findEmbedded("assets/benches/free.loom.json");
    const std::string_view freeBench =
        file == nullptr ? ""
                        : std::string_view(reinterpret_cast<const char*>(file->bytes), file->size);
    return {builtIn(lesson::builtInCourse()), builtIn(bench::fromJson(freeBench))};
}

bool openGraphics(App& app) {
    if (!openWindow(app.window)) return false;
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui_ImplSDL2_InitForOpenGL(app.window.window, app.window.context);
    ImGui_ImplOpenGL3_Init("#version 100");
    return true;
}

void turn() {
    drawFrame(*theApp);
}

} // namespace

App::App(lesson::Session course)
    : session(std::move(course)), pictures(drawing, uploadTexture, discardTexture) {}

App& app() {
    return *theApp;
}

double seconds() {
    return emscripten_get_now() * 1e-3;
}

} // namespace loom::host

int main() {
    using namespace loom::host;
    theApp = std::make_unique<App>(openCourse());
    if (!openGraphics(*theApp)) {
        loom_no_graphics();
        return 1;
    }
    Mirror::describeCanvas();
    loom_listen();
    openAtStart(*theApp);
    emscripten_set_main_loop(turn, 0, 0);
    return 0;
}

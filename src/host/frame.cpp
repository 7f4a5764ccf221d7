// SPDX-License-Identifier: MIT
// One turn of the loop: input, the model up to now, the screen, what the learner asked for, the
// graphics. The loop rests when no further frame is wanted.
#include "attempt/meter_reading.h"
#include "host/app.h"
#include "host/handover.h"
#include "host/page.h"
#include "host/typefaces.h"
#include "plan/print.h"
#include "screen/sentences.h"
#include "words/sentences.h"
#include "words/strings.h"

#include <GLES2/gl2.h>
#include <algorithm>
#include <cmath>
#include <emscripten.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>
#include <imgui_internal.h> // InputEventsQueue

namespace loom::host {

namespace {

constexpr double kModelBudget_s = 0.1; // of real time in one frame
constexpr float kLongestStep_s = 0.1f; // what an animation sees of a pause

void readInput(App& app) {
    SDL_Event event;
    while (SDL_PollEvent(&event))
        app.pointer.feed(
            event, static_cast<float>(app.window.width), static_cast<float>(app.window.height));
}

void loadFontsFor(App& app, float unit) {
    if (app.fonts.body != nullptr && app.fontUnit == unit && app.fontRatio == app.window.ratio)
        return;
    app.fonts = loadTypefaces(unit, app.window.ratio);
    app.fontUnit = unit;
    app.fontRatio = app.window.ratio;
    app.pictures.setPixelRatio(app.window.ratio);
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    ImGui_ImplOpenGL3_CreateFontsTexture();
}

void runModel(App& app) {
    const double start_s = seconds();
    std::int64_t due = app.clock.due(start_s, !app.session.attempt().quiet());
    for (; due > 0 && seconds() - start_s < kModelBudget_s; --due)
        app.session.advance(1);
    app.clock.drop(due);
}

// What is in the hand, for the yard: a cable gripped by its middle, or what is carried.
struct HandInYard {
    lesson::Session& session;
    bench::CableId& gripped;

    void release() {
        if (gripped) session.releaseCable();
        gripped = {};
    }

    void operator()(std::monostate) {
        release();
        session.carry({}, {});
    }

    void operator()(const screen::Carried& carried) {
        release();
        session.carry(carried.shown, carried.inHand);
    }

    void operator()(const screen::Pull& pull) {
        if (!gripped) session.gripCable(pull.cable, pull.taken_m);
        gripped = pull.cable;
        session.pullCable(pull.to_m);
    }
};

// The yard follows the hand and moves in real time, also while the circuit rests.
void moveYard(App& app) {
    const double now_s = seconds();
    const double passed_s = std::min(now_s - app.yardMoved_s, static_cast<double>(kLongestStep_s));
    app.yardMoved_s = now_s;
    HandInYard hand{app.session, app.gripped};
    std::visit(hand, app.shown.inHand);
    const bool empty = std::holds_alternative<std::monostate>(app.shown.inHand);
    if (app.reducedMotion && empty)
        app.session.settleYard();
    else
        app.session.moveYard(passed_s);
}

std::string savedWord(const App& app) {
    switch (app.autosave.lastTrouble()) {
    case Autosave::Trouble::Overtaken:
        return screen::words("saved/overtaken");
    case Autosave::Trouble::Failed:
        return screen::words("saved/failed");
    case Autosave::Trouble::None:
        break;
    }
    return app.autosave.keepsNothingHere() ? screen::words("saved/nowhere") : std::string();
}

const std::vector<screen::Language>& languages() {
    static const std::vector<screen::Language> all = [] {
        std::vector<screen::Language> found;
        for (const std::string& name : words::languages())
            found.push_back({name, words::languageTitle(name)});
        return found;
    }();
    return all;
}

screen::View viewOf(App& app, const screen::Layout& layout) {
    screen::View view;
    view.session = &app.session;
    view.yard = &app.session.yard();
    view.fonts = app.fonts;
    view.layout = layout;
    view.clock_s = seconds();
    view.pinch = app.pointer.takePinch();
    view.touch = app.pointer.isFinger();
    view.reducedMotion = app.reducedMotion;
    view.opened = app.opened;
    view.savedWord = savedWord(app);
    view.languages = &languages();
    return view;
}

// Draws the room into Dear ImGui's lists; returns what was asked for.
screen::Intents drawScreen(App& app) {
    const screen::Layout layout = screen::layOut(static_cast<float>(app.window.width),
                                                 static_cast<float>(app.window.height),
                                                 app.larger,
                                                 app.room.tray.open);
    loadFontsFor(app, layout.unit);
    app.pointer.settle(app.room);
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplSDL2_NewFrame();
    ImGui::GetIO().DeltaTime = std::min(ImGui::GetIO().DeltaTime, kLongestStep_s);
    ImGui::NewFrame();
    screen::Intents intents;
    app.shown = screen::drawRoom(viewOf(app, layout), app.room, app.pictures, intents);
    if (app.pointer.settle(app.room)) app.shown.inHand = {};
    ImGui::Render();
    return intents;
}

void ask(App& app, const attempt::Command& command) {
    if (const auto refused = app.session.ask(command))
        screen::showNotice(app.room, screen::sentence(*refused));
}

void print(App& app, const std::string& which) {
    const lesson::Exercise* exercise = app.session.exercise();
    if (!exercise || !exercise->plan) return;
    const plan::Say say = words::printed();
    const auto pages = plan::printedPages(which, {*exercise->plan, exercise->title, say});
    if (!pages) return;
    loom_print_clear();
    for (const std::string& page : pages.value())
        loom_print_page(page.c_str());
    loom_print_now();
}

// One overload an intent: a forgotten one does not compile.
struct Apply {
    App& app;

    void operator()(const screen::Do& intent) const { ask(app, intent.command); }

    void operator()(const screen::Begin& intent) const { begin(app, intent.exercise); }

    void operator()(const screen::SaveBench&) const { saveFile(app); }

    void operator()(const screen::OpenBench&) const { loom_files_choose(); }

    void operator()(const screen::HandOver& intent) const {
        intent.asLink ? handOverLink(app) : handOverFile(app);
    }

    void operator()(const screen::SaveText& intent) const {
        loom_files_save(intent.name.c_str(), intent.text.c_str());
    }

    void operator()(const screen::Watch& intent) const {
        if (!app.session.watch(intent.quantity))
            screen::showNotice(app.room, screen::words("trace/full"));
    }

    void operator()(const screen::Unwatch& intent) const { app.session.unwatch(intent.quantity); }

    void operator()(const screen::Print& intent) const { print(app, intent.which); }

    void operator()(const screen::SetLanguage& intent) const {
        if (!words::setLanguage(intent.language)) return;
        loom_keep_setting("language", intent.language.c_str());
        loom_language(intent.language.c_str());
    }
};

void apply(App& app, const screen::Intents& intents) {
    for (const screen::Intent& intent : intents)
        std::visit(Apply{app}, intent);
    if (!intents.empty()) wake(app);
    app.autosave.look(app.session.attempt());
}

void present(App& app) {
    int width = 0, height = 0;
    SDL_GL_GetDrawableSize(app.window.window, &width, &height);
    glViewport(0, 0, width, height);
    glClearColor(0x22 / 255.0f, 0x38 / 255.0f, 0x3a / 255.0f, 1.0f);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

std::string lastSentence(const App& app) {
    if (!app.room.board.notice.empty()) return app.room.board.notice;
    if (const std::string saving = savedWord(app); !saving.empty()) return saving;
    const auto& events = app.session.attempt().events();
    return events.empty() ? std::string() : screen::sentence(events.back());
}

void sound(App& app) {
    if (app.shown.sounds != app.sounding) loom_tone(app.shown.sounds ? 1 : 0);
    app.sounding = app.shown.sounds;
}

bool inputWaits() {
    return !ImGui::GetCurrentContext()->InputEventsQueue.empty();
}

void restOrGoOn(App& app) {
    app.moving = app.shown.moves || !app.session.yard().asleep() ||
                 attempt::isMeasuring(app.session.attempt()) || inputWaits() ||
                 !app.session.attempt().quiet();
    const bool resting = app.pace.framesWanted() == 0 && !app.moving;
    app.mirror.show(app.room.items, lastSentence(app), seconds(), resting);
    if (!resting || app.paused) return;
    app.paused = true;
    emscripten_pause_main_loop();
}

} // namespace

void drawFrame(App& app) {
    if (!app.ready) return;
    const double begin_s = seconds();
    readInput(app);
    fit(app.window);
    runModel(app);
    moveYard(app);
    const screen::Intents intents = drawScreen(app);
    apply(app, intents);
    sound(app);
    const double drawn_s = seconds();
    present(app);
    const double shown_s = seconds();
    SDL_GL_SwapWindow(app.window.window);
    app.pace.drawn((drawn_s - begin_s) * 1e3, (shown_s - drawn_s) * 1e3);
    if (app.pace.frames() == 1) loom_first_frame();
    restOrGoOn(app);
}

// A press and its release come in frames of their own.
void drawInputNow(App& app) {
    int frames = 4;
    do
        drawFrame(app);
    while (inputWaits() && --frames > 0);
}

void wake(App& app) {
    app.pace.wake();
    if (!app.paused) return;
    app.paused = false;
    app.clock.rest(seconds());
    emscripten_resume_main_loop();
}

} // namespace loom::host

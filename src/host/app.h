// SPDX-License-Identifier: MIT
// The program of the page as one value: what is open, what is shown, what is under way. main.cpp
// makes it; frame.cpp draws it; documents.cpp opens, saves and switches what is on the bench.
#pragma once

#include "host/autosave.h"
#include "host/clock.h"
#include "host/mirror.h"
#include "host/pace.h"
#include "host/pointer.h"
#include "host/window.h"
#include "lesson/session.h"
#include "screen/room/room.h"

#include <optional>
#include <string>

namespace loom::host {

struct App {
    App(lesson::Session course);

    lesson::Session session;
    screen::RoomUi room;
    screen::Shown shown; // what the last frame came to
    art::PictureStore pictures;

    Window window;
    Pointer pointer;
    ModelClock clock;
    Pace pace;
    Autosave autosave;
    Mirror mirror;

    screen::Fonts fonts;
    float fontUnit = 0.0f, fontRatio = 0.0f; // what they were loaded for
    float larger = 1.0f;                     // ?large=: 1.3 on a stand
    bool reducedMotion = false;
    bool sounding = false; // the meter's tone

    double yardMoved_s = 0.0;   // when the yard was last moved
    bench::CableId gripped;     // by the hand in the yard
    int opened = 0;             // counts the documents put on the bench
    std::uint64_t nextSeed = 0; // chooses what the next exercise hides

    bool ready = false;  // a document is on the bench: frames may be drawn
    bool moving = false; // the last frame wants another by itself
    bool paused = false; // the loop rests
};

// The one App. Only after main() has made it.
App& app();

double seconds(); // since the page was opened

// frame.cpp
void drawFrame(App& app);
void drawInputNow(App& app); // so many frames that all input so far is seen
void wake(App& app);         // some frames from now on

// documents.cpp
// Asks storage for what the address wants, or for what was open last; frames start when it answers.
void openAtStart(App& app);
// Storage's answer. An empty document: nothing was open; empty text: it holds none.
void documentRead(App& app, const std::string& document, const std::string& text);
// The exercise ("" the free bench) as it was left; the one on the bench from its beginning.
void begin(App& app, const std::string& exercise);
// A file of the learner's. One that cannot be read changes nothing but the notice.
void openFile(App& app, const std::string& name, const std::string& text);
void saveFile(const App& app);
// Another document is on the bench: the screen starts afresh, and frames may be drawn.
void showOpened(App& app);

} // namespace loom::host

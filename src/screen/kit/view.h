// SPDX-License-Identifier: MIT
// What the screen is given to draw and what it may ask for in return. Plain data; the host applies
// the intents after the frame.
#pragma once

#include "attempt/command.h"
#include "attempt/trace.h"
#include "imgui.h"
#include "lesson/session.h"
#include "screen/kit/items.h"
#include "screen/kit/layout.h"
#include "yard/yard.h"

#include <string>
#include <variant>
#include <vector>

namespace loom::screen {

// Dear ImGui measures a font by its line, ascent to descent; CSS (and everything said about sizes
// here) by its em. To get letters of s CSS pixels, load and draw at s * kLinePerEm.
// Source: the hhea table of Open Sans: ascent 2189, descent 600, of 2048 units per em.
inline constexpr float kLinePerEm = 2789.0f / 2048.0f;

// Fonts at their sizes in CSS pixels (times the layout's unit), each loaded at size * kLinePerEm.
struct Fonts {
    ImFont* body = nullptr;   // 16
    ImFont* bold = nullptr;   // 16 semibold
    ImFont* title = nullptr;  // 19 semibold
    ImFont* large = nullptr;  // 24 semibold
    ImFont* legend = nullptr; // 13 semibold: legends drawn on parts only, scaled with the board
};

// Two fingers on the board since the last frame.
struct Pinch {
    bool active = false;
    ImVec2 centre{0, 0}, moved{0, 0};
    float scale = 1.0f;
};

// What lies over the board and the rest, and takes what is pressed or scrolled there.
enum class Over { Nothing, Paper, Help };

struct Language {
    std::string name, title; // "en", "English"
};

struct View {
    const lesson::Session* session = nullptr;
    const yard::Yard* yard = nullptr; // where cables lie; without one they are as first laid
    Fonts fonts;
    Layout layout;
    double clock_s = 0.0; // for animation only
    Pinch pinch;
    bool touch = false; // the last pointer was a finger
    bool reducedMotion = false;
    Over over = Over::Nothing; // the room says
    int opened = 0;            // counts the documents put on the bench: another one starts afresh
    std::string savedWord;     // "" or a sentence about saving that concerns the learner
    const std::vector<Language>* languages = nullptr; // to choose from, when there are several
};

struct Do {
    attempt::Command command;
};

struct Begin {
    std::string exercise;
}; // "" the free bench; from its beginning

struct SaveBench {}; // download *.loom.json

struct OpenBench {}; // choose a file

struct SaveText {
    std::string name, text;
}; // download a file of text

struct Watch {
    attempt::Quantity quantity;
}; // trace it

struct Unwatch {
    attempt::Quantity quantity;
};

struct HandOver {
    bool asLink = false;
}; // the attempt, to somebody else

struct Print {
    std::string which; // pages of plan/print.h: "plan", "sheet", "parts", "labels"
};

struct SetLanguage {
    std::string language; // from now on, and when the page is opened again
};

using Intent = std::variant<Do,
                            Begin,
                            SaveBench,
                            OpenBench,
                            HandOver,
                            SaveText,
                            Watch,
                            Unwatch,
                            Print,
                            SetLanguage>;
using Intents = std::vector<Intent>;

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// Everything on the screen that can be pressed, focused or asked about registers here each frame
// under a stable name. From this one list come pressing (on release, sliding off cancels), the
// keyboard's focus, the mirror for screen readers and the rectangles that browser tests aim at.
// Begin a frame with begin(), then add() in drawing order; later items lie on top.
#pragma once

#include "imgui.h"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace loom::screen {

// Parts of the screen between which Tab moves; arrows move within one.
enum class Zone { Header, Paper, Board, Events, Tray, Rail, Card, Sheet };

struct Rect {
    ImVec2 min{0, 0}, max{0, 0};

    float width() const { return max.x - min.x; }

    float height() const { return max.y - min.y; }

    ImVec2 centre() const { return {(min.x + max.x) * 0.5f, (min.y + max.y) * 0.5f}; }

    bool contains(ImVec2 p) const {
        return p.x >= min.x && p.x < max.x && p.y >= min.y && p.y < max.y;
    }
};

inline Rect rectAt(float x, float y, float w, float h) {
    return {{x, y}, {x + w, y + h}};
}

Rect shrunk(const Rect& r, float by);

struct Item {
    std::string name;  // stable, not translated: "tray/B1", "part/K1", "terminal/K1/coil a"
    std::string label; // spoken: "Relay K1, at rest"
    Zone zone = Zone::Board;
    Rect rect;
};

// What the pointer or the keyboard did to an item this frame.
struct Touch {
    bool hot = false;     // under the pointer (a mouse; not a lifted finger)
    bool down = false;    // pressed and not let go yet
    bool pressed = false; // went down this frame
    bool clicked = false; // let go on it, or Enter/Space while focused
    bool focused = false; // has the keyboard
};

class Items {
public:
    void begin(); // at the start of a frame, after ImGui::NewFrame
    // A plain pressable thing. Returns what happened to it.
    Touch add(std::string_view name, std::string_view label, Zone zone, const Rect& rect);
    // A thing whose pressing is handled by its owner (the board): for focus, mirror and tests only.
    // Returns whether it has the focus.
    bool note(std::string_view name, std::string_view label, Zone zone, const Rect& rect);
    void end(); // moves the focus by this frame's keys

    const std::vector<Item>& all() const { return list; }

    const Item* find(std::string_view name) const; // of the frame drawn last
    // Topmost pressable item of the last frame under the point; the board asks before it takes a press.
    const Item* over(ImVec2 p) const;

    const std::string& focused() const { return focus; }

    bool focusVisible() const { return showFocus; } // the keyboard was used last

    void setFocus(std::string_view name);

    void letGo() { active.clear(); }

    // Items that are read: what is laid over the board is placed clear of them.
    void keepClearOf(std::vector<std::string> names) { read = std::move(names); }

    bool isRead(std::string_view name) const;

    // The focused item has a use of its own for Left and Right, or Up and Down, this frame.
    void keepSideways() { sidewaysKept = true; }

    void keepUpright() { uprightKept = true; }

private:
    void moveFocus(ImVec2 direction);
    void moveZone(int step);
    bool holdsOther(std::string_view name) const;

    std::vector<Item> list, previous;
    std::vector<bool> pressable, previousPressable;
    std::vector<std::string> read;
    std::string active; // went down on this one
    std::string focus;
    bool showFocus = false;
    bool sidewaysKept = false, uprightKept = false;
    bool typedThisFrame = false; // Enter went to an item already
};

} // namespace loom::screen

// SPDX-License-Identifier: MIT
// What the page calls: exported functions, in the order of page.js, storage.js, files.js and mirror.js.
#include "bench/file.h"
#include "host/app.h"
#include "host/handover.h"
#include "host/page.h"
#include "host/string_argument.h"
#include "screen/sentences.h"

#include <SDL.h>
#include <cstdio>
#include <emscripten.h>
#include <utility>

using namespace loom;
using namespace loom::host;

namespace {

// Items that open a file, or may.
bool mayOpenFile(const std::string& item) {
    return item.rfind("paper/open", 0) == 0;
}

std::string document, file; // named by the call before the one with the text

std::string megabytes(double bytes) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f MB", bytes / (1u << 20));
    return text;
}

} // namespace

#define EXPORTED extern "C" EMSCRIPTEN_KEEPALIVE

// --- page.js

EXPORTED void loom_wake() {
    wake(app());
}

// Escape has nothing to let go of and nothing to close.
EXPORTED int loom_hands_free() {
    return screen::handsFree(app().room) ? 1 : 0;
}

EXPORTED void loom_keys_released() {
    SDL_ResetKeyboard();
}

EXPORTED int loom_may_open_file(float x, float y) {
    const screen::Item* item = app().room.items.over({x, y});
    return item != nullptr && mayOpenFile(item->name) ? 1 : 0;
}

EXPORTED int loom_focus_may_open_file() {
    const screen::Items& items = app().room.items;
    return items.focusVisible() && mayOpenFile(items.focused()) ? 1 : 0;
}

// Within the page's event: whatever it asks for is done before it returns.
EXPORTED void loom_turn_now() {
    wake(app());
    drawInputNow(app());
}

EXPORTED void loom_zoom(float x, float y, float factor) {
    app().pointer.zoom({x, y}, factor);
    wake(app());
}

EXPORTED void loom_touch_cancelled() {
    app().pointer.cancelTouch();
}

EXPORTED void loom_reduced_motion(int wanted) {
    app().reducedMotion = wanted != 0;
    wake(app());
}

// Drawn at once: the canvas is empty after a change of size, and the page is about to be painted.
EXPORTED void loom_resized() {
    wake(app());
    if (fit(app().window)) drawFrame(app());
}

EXPORTED void loom_visible(int visible) {
    if (!app().ready) return;
    if (visible != 0) {
        app().clock.rest(seconds());
        app().autosave.check();
        wake(app());
    } else {
        app().autosave.writeChanges(app().session.attempt());
    }
}

EXPORTED void loom_leaving() {
    if (app().ready) app().autosave.writeChanges(app().session.attempt(), true);
}

EXPORTED void loom_context_lost() {
    app().autosave.writeChanges(app().session.attempt());
    app().ready = false; // no further frame: there is nothing to draw on
}

// --- storage.js

EXPORTED void loom_no_storage() {
    app().autosave.unavailable();
}

EXPORTED void loom_document_named() {
    document = stringArgument();
}

EXPORTED void loom_document_read() {
    documentRead(app(), document, stringArgument());
}

EXPORTED void loom_save_due() {
    app().autosave.writeChanges(app().session.attempt());
}

EXPORTED void loom_saved(int mark) {
    app().autosave.saved(mark);
}

EXPORTED void loom_not_saved(int mark, int overtaken) {
    app().autosave.notSaved(mark, overtaken != 0);
    wake(app());
}

// --- files.js

// Whether it may be read.
EXPORTED int loom_file_named(double size_bytes) {
    file = stringArgument();
    if (size_bytes <= static_cast<double>(bench::kGreatestFile_bytes)) return 1;
    const bench::Refusal refusal{bench::Why::TooMany,
                                 file,
                                 megabytes(static_cast<double>(bench::kGreatestFile_bytes)),
                                 megabytes(size_bytes)};
    screen::showNotice(
        app().room,
        screen::words("open/file-refused", {{"file", file}, {"why", screen::sentence(refusal)}}));
    wake(app());
    return 0;
}

EXPORTED void loom_file_read(int works) {
    const std::string text = stringArgument();
    if (works != 0) {
        openFile(app(), file, text);
        return;
    }
    screen::showNotice(app().room, screen::words("open/file-unreadable", {{"file", file}}));
    wake(app());
}

// --- link.js

EXPORTED void loom_link_made(int how) {
    linkMade(app(), static_cast<LinkMade>(how));
}

EXPORTED void loom_link_read() {
    linkRead(app(), stringArgument());
}

// --- mirror.js

// As if the item had the keyboard and Enter were pressed.
EXPORTED void loom_act() {
    app().room.items.setFocus(stringArgument());
    ImGui::GetIO().AddKeyEvent(ImGuiKey_Enter, true);
    ImGui::GetIO().AddKeyEvent(ImGuiKey_Enter, false);
    loom_turn_now();
}

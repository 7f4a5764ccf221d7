// SPDX-License-Identifier: MIT
// The functions of page.js, storage.js, files.js, print.js, link.js and mirror.js, as C sees them. What they call in
// turn is exported where it is defined; look for EMSCRIPTEN_KEEPALIVE. Strings are UTF-8 and are
// copied before the call returns.
#pragma once

extern "C" {
// page.js
void loom_listen();
void loom_address(const char* name); // the answer is the string argument
void loom_setting(const char* name); // the answer is the string argument
void loom_keep_setting(const char* name, const char* text);
void loom_language(const char* name); // the page is in it from now on
void loom_first_frame();
void loom_no_graphics(); // the page says what that means
[[noreturn]] void loom_give_up(const char* text);

// storage.js
void loom_storage_open(const char* document);
void loom_storage_read(const char* document);
void loom_storage_point(const char* document);
void loom_storage_write(const char* document, const char* text, int mark, int leaving);
void loom_storage_soon(int delay_ms);
void loom_storage_set_aside(const char* document);
void loom_storage_check(const char* document, int mark);

// files.js
void loom_files_choose();
void loom_files_save(const char* name, const char* text);

// print.js
void loom_print_clear(); // pages of an earlier time
void loom_print_page(const char* svg);
void loom_print_now(); // what was put in since

// link.js
void loom_link_make(const char* text);
void loom_link_look();

// tone.js
void loom_tone(int on); // the meter's tone, until it is off again

// mirror.js
void loom_mirror_show(const char* items);
void loom_mirror_say(const char* text);
void loom_mirror_describe(const char* what, const char* how);
}

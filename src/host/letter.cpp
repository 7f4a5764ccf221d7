// SPDX-License-Identifier: MIT
#include "host/letter.h"

#include <emscripten.h>

namespace loom::host {

namespace {
std::string letter;
}

std::string takeLetter() {
    std::string taken;
    taken.swap(letter);
    return taken;
}

} // namespace loom::host

// Room for so many bytes and a zero behind them.
extern "C" EMSCRIPTEN_KEEPALIVE char* loom_letter(int length) {
    loom::host::letter.assign(static_cast<std::size_t>(length), '\0');
    return loom::host::letter.data();
}

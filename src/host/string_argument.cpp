// SPDX-License-Identifier: MIT
#include "host/string_argument.h"

#include <emscripten.h>

namespace loom::host {

namespace {
std::string argument;
}

std::string stringArgument() {
    std::string taken;
    taken.swap(argument);
    return taken;
}

} // namespace loom::host

// Room for so many bytes and a zero behind them.
extern "C" EMSCRIPTEN_KEEPALIVE char* loom_string_argument(int length) {
    loom::host::argument.assign(static_cast<std::size_t>(length), '\0');
    return loom::host::argument.data();
}

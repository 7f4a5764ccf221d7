// SPDX-License-Identifier: MIT
#include "desk/said.h"

namespace loom::desk {

Said sayNot(ExitCode code, const bench::Refusal& refusal) {
    return {code,
            "",
            "loomwright: " + refusal.place + ": expected " + refusal.expected + ", found " +
                refusal.found + "\n"};
}

} // namespace loom::desk

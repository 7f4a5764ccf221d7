// SPDX-License-Identifier: MIT
// The program `loomwright`; what it does is in desk.h.
#include "desk/desk.h"

#include <cstdio>

int main(int count, char** words) {
    const std::vector<std::string> arguments(words + (count > 0), words + count);
    const loom::desk::Said said = loom::desk::run(arguments);
    std::fwrite(said.out.data(), 1, said.out.size(), stdout);
    std::fwrite(said.err.data(), 1, said.err.size(), stderr);
    const bool written = std::fflush(stdout) == 0;
    return written ? said.exitCode : loom::desk::Unreadable;
}

// SPDX-License-Identifier: MIT
// The command `loomwright` as a function: run(arguments) does one command and says what to print.
// It reads the files it is given, writes none, and needs no window.
#pragma once

#include "desk/said.h"

#include <string>
#include <vector>

namespace loom::desk {

// `arguments` without the program's name. An ExitCode of said.h comes with the text.
Said run(const std::vector<std::string>& arguments);

} // namespace loom::desk

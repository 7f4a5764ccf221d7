// SPDX-License-Identifier: MIT
// A record read from a file and run again.
#pragma once

#include "attempt/record_file.h"

#include <string>

namespace loom::desk {

// A refusal's place begins with the file's name.
bench::Outcome<attempt::Attempt> replayFile(const std::string& path);

} // namespace loom::desk

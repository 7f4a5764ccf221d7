// SPDX-License-Identifier: MIT
// A record read from a file and run again.
#pragma once

#include "attempt/record_file.h"

#include <string>

namespace loom::desk {

// Not run yet. A refusal's place begins with the file's name, here and below.
bench::Outcome<attempt::Record> readRecord(const std::string& path);
bench::Outcome<attempt::Attempt> replayFile(const std::string& path);

} // namespace loom::desk

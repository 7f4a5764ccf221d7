// SPDX-License-Identifier: MIT
// A whole file as text. Start with readTextFile().
#pragma once

#include "bench/refusal.h"

#include <cstddef>
#include <string>

namespace loom::desk {

bool fileExists(const std::string& path);

// Refused, with the path as place, when it cannot be read or is longer than greatest_bytes.
bench::Outcome<std::string> readTextFile(const std::string& path, std::size_t greatest_bytes);

} // namespace loom::desk

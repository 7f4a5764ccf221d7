// SPDX-License-Identifier: MIT
// The bench as a file: *.loom.json, JSON of our own with a schema (assets/bench.schema.json) and a
// version. Reading refuses what it does not know, with the place as a JSON pointer.
#pragma once

#include "bench/bench.h"
#include "bench/refusal.h"

#include <string>
#include <string_view>

namespace loom::bench {

inline constexpr int kFileVersion = 1;
inline constexpr std::size_t kGreatestFile_bytes = 2u << 20;

std::string toJson(const Bench& bench);
Outcome<Bench> fromJson(std::string_view text);

} // namespace loom::bench

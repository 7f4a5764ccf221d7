// SPDX-License-Identifier: MIT
// Benches for the tests of this room, and a comparison that sees every bit.
#pragma once

#include "bench/catalogue.h"
#include "bench/edit.h"
#include "bench/file.h"

#include <doctest/doctest.h>
#include <string>

namespace loom::bench {

// An empty board of 1.5 by 1 m with one or two of most parts, some blades, cables and reels.
Bench trayOnly();

// A file of the repository as text.
std::string repositoryFile(const std::string& path);
Bench pippin();

// Applies an edit that must succeed; the refusal is shown when it does not.
Bench done(const Bench& bench, const Edit& edit);
// Applies an edit that must be refused.
Refusal refused(const Bench& bench, const Edit& edit);

// Lays a kit part and says where its terminals are.
Bench laid(const Bench& bench, const std::string& ref, double x_m = 0.5, double y_m = 0.5);
TerminalRef terminal(const Bench& bench, const std::string& ref, const std::string& word);
PartId idOf(const Bench& bench, const std::string& ref);
const Part& part(const Bench& bench, const std::string& ref);

// Every field, doubles bit by bit.
bool identical(const Bench& left, const Bench& right);

} // namespace loom::bench

// SPDX-License-Identifier: MIT
// A terminal by name, so that it can be spoken of before its part is on the bench.
#pragma once

#include <string>

namespace loom::plan {

struct Spot {
    std::string ref, terminal; // "K1", "normally open"
};

} // namespace loom::plan

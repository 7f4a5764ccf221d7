// SPDX-License-Identifier: MIT
#include "host/pace.h"

#include <algorithm>

namespace loom::host {

void Pace::drawn(double own_ms, double graphics_ms) {
    own[static_cast<std::size_t>(count) % kKept] = own_ms;
    graphics[static_cast<std::size_t>(count) % kKept] = graphics_ms;
    ++count;
    wanted = std::max(0, wanted - 1);
}

double Pace::mean(const Costs& costs) const {
    const std::size_t n = std::min(kKept, static_cast<std::size_t>(count));
    double sum = 0.0;
    for (std::size_t i = 0; i < n; ++i)
        sum += costs[i];
    return n == 0 ? 0.0 : sum / static_cast<double>(n);
}

} // namespace loom::host

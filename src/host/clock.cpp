// SPDX-License-Identifier: MIT
#include "host/clock.h"

#include "attempt/command.h"

#include <cmath>

namespace loom::host {

namespace {
constexpr double kLongestFrame_s = 1.0; // software drawing of a large window takes half of it
}

void ModelClock::rest(double now_s) {
    last_s = now_s;
}

std::int64_t ModelClock::due(double now_s, bool running) {
    double passed_s = now_s - last_s;
    last_s = now_s;
    if (passed_s < 0.0) passed_s = 0.0;
    if (passed_s > kLongestFrame_s) {
        if (running) dropped_s += passed_s - kLongestFrame_s;
        passed_s = kLongestFrame_s;
    }
    carried_s += passed_s;
    const double slices = std::floor(carried_s / attempt::kSlice_s);
    carried_s -= slices * attempt::kSlice_s;
    return static_cast<std::int64_t>(slices);
}

void ModelClock::drop(std::int64_t slices) {
    dropped_s += static_cast<double>(slices) * attempt::kSlice_s;
}

} // namespace loom::host

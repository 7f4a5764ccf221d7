// SPDX-License-Identifier: MIT
#include "bench/edit.h"

#include "bench/edit_rules.h"
#include "bench/limits.h"

#include <algorithm>
#include <cmath>

namespace loom::bench {

Outcome<Bench> apply(const Bench& bench, const Edit& edit) {
    return std::visit([&](const auto& asked) { return edited(bench, asked); }, edit);
}

std::optional<Refusal> whyNotPoint(const std::string& place, Point point) {
    for (const double value : {point.x_m, point.y_m}) {
        if (!std::isfinite(value))
            return Refusal{Why::NotANumber, place, "a point on the board", inWords(value)};
    }
    return std::nullopt;
}

Point ontoBoard(const Bench& bench, Point point) {
    return {std::clamp(point.x_m, 0.0, bench.board_m.x_m),
            std::clamp(point.y_m, 0.0, bench.board_m.y_m)};
}

} // namespace loom::bench

// SPDX-License-Identifier: MIT
#include "screen/board/place.h"

#include "bench/catalogue.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace loom::screen {

namespace {

struct Size {
    double half_x, half_y;
};

Size halfSize(bench::PartKind kind, int quarterTurns, double gap_m) {
    const bench::PartSpec& spec = bench::spec(kind);
    const bool across = (quarterTurns & 1) != 0;
    return {((across ? spec.height_m : spec.width_m) + gap_m) * 0.5,
            ((across ? spec.width_m : spec.height_m) + gap_m) * 0.5};
}

struct Search {
    const bench::Bench& bench;
    bench::PartKind kind;
    int quarterTurns;
    bench::Point wish;
    bench::PartId itself;
    double gap_m;

    bench::Point inside(bench::Point p) const {
        const Size edge = halfSize(kind, quarterTurns, kLeastGap_m);
        return {
            std::clamp(p.x_m, edge.half_x, std::max(edge.half_x, bench.board_m.x_m - edge.half_x)),
            std::clamp(p.y_m, edge.half_y, std::max(edge.half_y, bench.board_m.y_m - edge.half_y))};
    }

    bool isFree(bench::Point at) const {
        const Size size = halfSize(kind, quarterTurns, gap_m);
        return std::none_of(bench.parts.begin(), bench.parts.end(), [&](const bench::Part& other) {
            if (other.id == itself) return false;
            const Size o = halfSize(other.kind, other.quarterTurns, gap_m);
            return std::fabs(other.at_m.x_m - at.x_m) < size.half_x + o.half_x &&
                   std::fabs(other.at_m.y_m - at.y_m) < size.half_y + o.half_y;
        });
    }

    // Rings of growing size round the wish, 16 directions, until the board is exhausted.
    std::optional<bench::Point> nearest() const {
        if (const bench::Point first = inside(wish); isFree(first)) return first;
        constexpr double kStep_m = 0.02;
        static constexpr double kCosine[16] = {1,
                                               0.92,
                                               0.71,
                                               0.38,
                                               0,
                                               -0.38,
                                               -0.71,
                                               -0.92,
                                               -1,
                                               -0.92,
                                               -0.71,
                                               -0.38,
                                               0,
                                               0.38,
                                               0.71,
                                               0.92};
        for (double r = kStep_m; r < bench.board_m.x_m; r += kStep_m)
            for (int k = 0; k < 16; ++k) {
                const bench::Point p =
                    inside({wish.x_m + r * kCosine[k], wish.y_m + r * kCosine[(k + 12) % 16]});
                if (isFree(p)) return p;
            }
        return std::nullopt;
    }
};

} // namespace

bench::Point freePlace(const bench::Bench& bench,
                       bench::PartKind kind,
                       int quarterTurns,
                       bench::Point wish,
                       bench::PartId itself,
                       double gap_m) {
    Search search{bench, kind, quarterTurns, wish, itself, gap_m};
    if (const auto roomy = search.nearest()) return *roomy;
    search.gap_m = kLeastGap_m;
    return search.nearest().value_or(search.inside(wish));
}

} // namespace loom::screen

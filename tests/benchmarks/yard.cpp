// SPDX-License-Identifier: MIT
// What a frame of the yard costs with Pippin's whole loom on the board, at 60 frames a second:
// yard_frame with every cable awake because every part is dragged about at once, the worst there
// can be; yard_frame_one with one end of one cable in the hand. Processor time.
#include "yard/yard.h"

#include "assets/embedded.h"
#include "bench/file.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <vector>

namespace {

using namespace loom;

constexpr int kFrames = 240;

bench::Bench pippin() {
    const Embedded* file = findEmbedded("assets/benches/pippin.loom.json");
    if (file == nullptr) std::exit(1);
    auto outcome = bench::fromJson({reinterpret_cast<const char*>(file->bytes), file->size});
    if (!outcome) std::exit(1);
    return outcome.value();
}

double spent_s() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

// Back and forth, 0.2 m to each side, four seconds for all of it.
double swing_m(int frame) {
    const int phase = frame % 120;
    return (phase < 60 ? phase - 30 : 90 - phase) * 0.2 / 30.0;
}

template <class Move> double frame_ms(const Move& move) {
    double best_ms = 1e9;
    for (int trial = 0; trial < 5; ++trial) {
        bench::Bench bench = pippin();
        const bench::Bench still = bench;
        yard::Yard yard(bench);
        const double start_s = spent_s();
        for (int frame = 0; frame < kFrames; ++frame) {
            move(still, bench, swing_m(frame));
            yard.follow(bench);
            yard.step(1.0 / 60);
        }
        best_ms = std::min(best_ms, 1e3 * (spent_s() - start_s) / kFrames);
    }
    return best_ms;
}

void everyPart(const bench::Bench& still, bench::Bench& bench, double by_m) {
    // Each part another way, so that no cable is only carried along.
    for (std::size_t i = 0; i < bench.parts.size(); ++i)
        (i % 2 ? bench.parts[i].at_m.x_m : bench.parts[i].at_m.y_m) =
            (i % 2 ? still.parts[i].at_m.x_m : still.parts[i].at_m.y_m) +
            (i % 4 < 2 ? by_m : -by_m);
}

void oneEnd(const bench::Bench& still, bench::Bench& bench, double by_m) {
    bench::CableEnd& end = bench.cables.front().ends[1];
    end.at.reset();
    const bench::Point from = bench::endAt(still, still.cables.front().ends[1]);
    end.loose_m = {from.x_m + by_m, from.y_m - 0.1};
}

} // namespace

int main() {
    std::printf("[{\"name\": \"yard_frame\", \"value\": %.4g, \"unit\": \"ms\", \"against\": 2},\n",
                frame_ms(everyPart));
    std::printf(" {\"name\": \"yard_frame_one\", \"value\": %.4g, \"unit\": \"ms\", \"against\": 2}"
                "]\n",
                frame_ms(oneEnd));
    return 0;
}

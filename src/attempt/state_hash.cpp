// SPDX-License-Identifier: MIT
#include "attempt/state_hash.h"

namespace loom::attempt {

void StateHash::add(const bench::Bench& bench) {
    add(bench.board_m);
    add(bench.parts);
    add(bench.cables);
    add(bench.screws);
    add(bench.ties);
    add(bench.meter.has_value());
    if (bench.meter) add(*bench.meter);
    add(bench.lastId);
}

} // namespace loom::attempt

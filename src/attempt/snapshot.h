// SPDX-License-Identifier: MIT
// What lies on a bench at one moment, for taking edits back. Start with snapshotOf(). A snapshot
// shares with an earlier one every part and cable that has not changed since, so that a long
// history costs a pointer or two for each thing and step. The ids handed out are not in it.
#pragma once

#include "bench/bench.h"

#include <memory>
#include <vector>

namespace loom::attempt {

struct Snapshot {
    std::vector<std::shared_ptr<const bench::Part>> parts;
    std::vector<std::shared_ptr<const bench::Cable>> cables;
    std::shared_ptr<const bench::Kit> kit; // removing a part can add a slot to the tray
    std::vector<bench::Screw> screws;
    std::vector<bench::Tie> ties;
};

// The bench as it lies, sharing what is equal in `earlier` (may be empty).
Snapshot snapshotOf(const bench::Bench& bench, const Snapshot& earlier);

// Lays everything as it was. Ids handed out since stay used: Bench::lastId does not go back. No hand
// undoes what the meter does or what lies against an axle: both stay as they are, but probes come
// off what is gone.
void restore(const Snapshot& snapshot, bench::Bench& bench);

// The same things in the same order with the same fields.
bool sameThings(const bench::Bench& left, const bench::Bench& right);

} // namespace loom::attempt

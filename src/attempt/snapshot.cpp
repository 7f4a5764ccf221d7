// SPDX-License-Identifier: MIT
#include "attempt/snapshot.h"

#include "bench/fields.h"

#include <algorithm>

namespace loom::attempt {

namespace {

// Things keep their order from one snapshot to the next, so the search goes on where it found the
// one before.
template <class Thing>
std::vector<std::shared_ptr<const Thing>>
shared(const std::vector<Thing>& things, const std::vector<std::shared_ptr<const Thing>>& earlier) {
    std::vector<std::shared_ptr<const Thing>> taken;
    taken.reserve(things.size());
    auto from = earlier.begin();
    for (const Thing& thing : things) {
        const auto known = std::find_if(
            from, earlier.end(), [&](const auto& other) { return other->id == thing.id; });
        if (known != earlier.end()) from = known + 1;
        const bool unchanged = known != earlier.end() && bench::same(**known, thing);
        taken.push_back(unchanged ? *known : std::make_shared<const Thing>(thing));
    }
    return taken;
}

template <class Thing>
void lay(const std::vector<std::shared_ptr<const Thing>>& kept, std::vector<Thing>& things) {
    things.clear();
    for (const auto& thing : kept)
        things.push_back(*thing);
}

} // namespace

bool sameThings(const bench::Bench& left, const bench::Bench& right) {
    return bench::same(left.parts, right.parts) && bench::same(left.cables, right.cables) &&
           bench::same(left.kit, right.kit) && bench::same(left.screws, right.screws) &&
           bench::same(left.ties, right.ties) && bench::same(left.meter, right.meter);
}

Snapshot snapshotOf(const bench::Bench& bench, const Snapshot& earlier) {
    const bool sameTray = earlier.kit && bench::same(*earlier.kit, bench.kit);
    return {shared(bench.parts, earlier.parts),
            shared(bench.cables, earlier.cables),
            sameTray ? earlier.kit : std::make_shared<const bench::Kit>(bench.kit),
            bench.screws,
            bench.ties};
}

void restore(const Snapshot& snapshot, bench::Bench& bench) {
    const std::vector<bench::Part> before = bench.parts;
    lay(snapshot.parts, bench.parts);
    for (bench::Part& part : bench.parts)
        for (const bench::Part& was : before)
            if (was.id == part.id) part.obstructed = was.obstructed;
    lay(snapshot.cables, bench.cables);
    bench.kit = *snapshot.kit;
    bench.screws = snapshot.screws;
    bench.ties = snapshot.ties;
    bench::dropLostProbes(bench);
}

} // namespace loom::attempt

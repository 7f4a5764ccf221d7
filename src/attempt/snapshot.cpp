// SPDX-License-Identifier: MIT
#include "attempt/snapshot.h"

#include <algorithm>
#include <tuple>

namespace loom::attempt {

namespace {

auto fields(const bench::Point& p) {
    return std::tie(p.x_m, p.y_m);
}

bool same(const bench::Point& l, const bench::Point& r) {
    return fields(l) == fields(r);
}

bool same(const bench::CableEnd& l, const bench::CableEnd& r) {
    return l.kind == r.kind && l.at == r.at && same(l.loose_m, r.loose_m);
}

auto fields(const bench::Part& p) {
    return std::tie(
        p.id, p.kind, p.ref, p.quarterTurns, p.rating, p.position, p.condition, p.charge);
}

auto fields(const bench::Cable& c) {
    return std::tie(c.id, c.label, c.length_m, c.area_m2, c.sleeve, c.condition);
}

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
        const bool unchanged = known != earlier.end() && attempt::same(**known, thing);
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

template <class Thing> bool sameAll(const std::vector<Thing>& l, const std::vector<Thing>& r) {
    return std::equal(l.begin(), l.end(), r.begin(), r.end(), [](const Thing& a, const Thing& b) {
        return attempt::same(a, b);
    });
}

} // namespace

bool same(const bench::Part& left, const bench::Part& right) {
    return fields(left) == fields(right) && same(left.at_m, right.at_m);
}

bool same(const bench::Cable& left, const bench::Cable& right) {
    return fields(left) == fields(right) && same(left.ends[0], right.ends[0]) &&
           same(left.ends[1], right.ends[1]);
}

bool sameThings(const bench::Bench& left, const bench::Bench& right) {
    return sameAll(left.parts, right.parts) && sameAll(left.cables, right.cables);
}

Snapshot snapshotOf(const bench::Bench& bench, const Snapshot& earlier) {
    return {shared(bench.parts, earlier.parts), shared(bench.cables, earlier.cables)};
}

void restore(const Snapshot& snapshot, bench::Bench& bench) {
    lay(snapshot.parts, bench.parts);
    lay(snapshot.cables, bench.cables);
}

} // namespace loom::attempt

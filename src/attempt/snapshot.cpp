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

auto fields(const bench::EndMake& m) {
    return std::tie(m.strip_m, m.twisted, m.pressed, m.pushed_m);
}

bool sameMake(const std::optional<bench::EndMake>& l, const std::optional<bench::EndMake>& r) {
    if (!l || !r) return l.has_value() == r.has_value();
    return fields(*l) == fields(*r);
}

bool same(const bench::CableEnd& l, const bench::CableEnd& r) {
    return l.kind == r.kind && l.at == r.at && same(l.loose_m, r.loose_m) && l.tugged == r.tugged &&
           sameMake(l.make, r.make);
}

bool sameScrew(const bench::Screw& l, const bench::Screw& r) {
    return l.at == r.at && l.torque_Nm == r.torque_Nm && l.broken == r.broken;
}

bool sameTie(const bench::Tie& l, const bench::Tie& r) {
    return l.id == r.id && l.cable == r.cable && l.along == r.along && l.other == r.other &&
           l.otherAlong == r.otherAlong && same(l.at_m, r.at_m);
}

bool sameTip(const bench::ProbeTip& l, const bench::ProbeTip& r) {
    return l.terminal == r.terminal && l.cable == r.cable && l.end == r.end;
}

bool sameMeter(const std::optional<bench::Meter>& l, const std::optional<bench::Meter>& r) {
    if (!l || !r) return l.has_value() == r.has_value();
    return same(l->at_m, r->at_m) && l->range == r->range && l->fuseOpen == r->fuseOpen &&
           sameTip(l->probes[0], r->probes[0]) && sameTip(l->probes[1], r->probes[1]);
}

auto fields(const bench::Part& p) {
    return std::tie(p.id,
                    p.kind,
                    p.ref,
                    p.quarterTurns,
                    p.rating,
                    p.position,
                    p.condition,
                    p.charge,
                    p.obstructed);
}

auto fields(const bench::Cable& c) {
    return std::tie(c.id, c.label, c.length_m, c.area_m2, c.sleeve, c.condition);
}

template <class Thing, class Same>
bool sameAll(const std::vector<Thing>& l, const std::vector<Thing>& r, Same same) {
    return std::equal(l.begin(), l.end(), r.begin(), r.end(), same);
}

bool sameSlot(const bench::PartSlot& l, const bench::PartSlot& r) {
    return l.kind == r.kind && l.ref == r.ref && l.rating == r.rating && l.charge == r.charge;
}

bool sameCableSlot(const bench::CableSlot& l, const bench::CableSlot& r) {
    return l.label == r.label && l.length_m == r.length_m && l.area_m2 == r.area_m2 &&
           l.sleeve == r.sleeve && l.ends == r.ends;
}

bool sameReel(const bench::Reel& l, const bench::Reel& r) {
    return l.area_m2 == r.area_m2 && l.sleeve == r.sleeve;
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

} // namespace

bool same(const bench::Part& left, const bench::Part& right) {
    return fields(left) == fields(right) && same(left.at_m, right.at_m);
}

bool same(const bench::Cable& left, const bench::Cable& right) {
    return fields(left) == fields(right) && same(left.ends[0], right.ends[0]) &&
           same(left.ends[1], right.ends[1]);
}

bool same(const bench::Kit& left, const bench::Kit& right) {
    return sameAll(left.parts, right.parts, sameSlot) && left.blades_A == right.blades_A &&
           sameAll(left.readyMade, right.readyMade, sameCableSlot) &&
           sameAll(left.reels, right.reels, sameReel) && left.handmade == right.handmade;
}

bool sameThings(const bench::Bench& left, const bench::Bench& right) {
    const auto equal = [](const auto& l, const auto& r) { return same(l, r); };
    return sameAll(left.parts, right.parts, equal) && sameAll(left.cables, right.cables, equal) &&
           same(left.kit, right.kit) && sameAll(left.screws, right.screws, sameScrew) &&
           sameAll(left.ties, right.ties, sameTie) && sameMeter(left.meter, right.meter);
}

Snapshot snapshotOf(const bench::Bench& bench, const Snapshot& earlier) {
    const bool sameTray = earlier.kit && same(*earlier.kit, bench.kit);
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

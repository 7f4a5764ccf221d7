// SPDX-License-Identifier: MIT
#include "yard/findings.h"

#include "bench/catalogue.h"
#include "yard/vec.h"

#include <algorithm>

namespace loom::yard {

namespace {

constexpr double kGreatestShift_m = 0.012; // of a battery that is knocked

bool stands(const bench::Part& part) {
    return bench::isA(part, bench::PartClass::Battery) && part.position == 0;
}

Finding against(bench::PartId motor, bench::CableId cable, bench::PartId part) {
    Finding finding;
    finding.kind = Finding::Kind::AxleObstructed;
    finding.part = motor;
    finding.byCable = cable;
    finding.byPart = part;
    return finding;
}

bool liesAgainst(const Wheel& wheel, const Rope& rope) {
    const std::vector<Point>& points = rope.strand.points_m;
    for (std::size_t i = 1; i < points.size(); ++i)
        if (touches(wheel, points[i - 1], points[i], rope.span.width_m)) return true;
    return false;
}

template <class Things, class Id> auto find(Things& things, Id id) {
    return std::find_if(
        things.begin(), things.end(), [&](const auto& thing) { return thing.id == id; });
}

} // namespace

Findings::Findings(const bench::Bench& bench) {
    follow(bench);
}

void Findings::follow(const bench::Bench& bench) {
    std::vector<Axle> now;
    for (const bench::Part& part : bench.parts) {
        if (!wheelOf(part)) continue;
        const auto known = std::find_if(
            axles.begin(), axles.end(), [&](const Axle& axle) { return axle.motor == part.id; });
        now.push_back(known == axles.end() ? Axle{part.id, part.obstructed} : *known);
    }
    axles = std::move(now);
    const std::vector<bench::Part> before = std::move(parts);
    parts = bench.parts;
    for (const bench::Part& part : parts) {
        const auto was = find(before, part.id);
        if (was != before.end() && apart_m(was->at_m, part.at_m) > 1e-9) knock(part, *was);
    }
}

// A battery is pushed only by what was beside it before: what is set down on it from above is not
// a knock.
void Findings::knock(const bench::Part& by, const bench::Part& before) {
    for (const bench::Part& battery : parts) {
        if (!stands(battery) || battery.id == by.id) continue;
        const Box box = boxOf(battery);
        if (wayOut(boxOf(before), box) || !wayOut(boxOf(by), box)) continue;
        const Point away = -1.0 * *wayOut(boxOf(by), box);
        Finding finding;
        finding.kind = Finding::Kind::BatteryShifted;
        finding.part = battery.id;
        finding.byPart = by.id;
        finding.to_m =
            battery.at_m + std::min(norm(away), kGreatestShift_m) * unit(away, {0.0, 0.0});
        found.push_back(finding);
    }
}

void Findings::look(const std::vector<Rope>& ropes, const InHand& inHand) {
    for (Axle& axle : axles) {
        const auto motor = find(parts, axle.motor);
        const auto wheel = wheelOf(*motor);
        const auto rope = std::find_if(ropes.begin(), ropes.end(), [&](const Rope& r) {
            return !r.awake && r.id != inHand.cable && liesAgainst(*wheel, r);
        });
        const auto part = std::find_if(parts.begin(), parts.end(), [&](const bench::Part& p) {
            return p.id != axle.motor && p.id != inHand.part && touches(*wheel, boxOf(p));
        });
        const bool obstructed = rope != ropes.end() || part != parts.end();
        if (obstructed == axle.obstructed) continue;
        axle.obstructed = obstructed;
        if (obstructed == motor->obstructed) continue; // undone: the bench says so already
        found.push_back(against(axle.motor,
                                rope != ropes.end() ? rope->id : bench::CableId{},
                                part != parts.end() ? part->id : bench::PartId{}));
        if (!obstructed) found.back().kind = Finding::Kind::AxleFree;
    }
}

std::vector<Finding> Findings::take() {
    std::vector<Finding> out;
    out.swap(found);
    return out;
}

} // namespace loom::yard

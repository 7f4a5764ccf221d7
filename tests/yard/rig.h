// SPDX-License-Identifier: MIT
// Benches for tests of the yard, and what is measured on a yard's strands.
#pragma once

#include "assets/embedded.h"
#include "bench/catalogue.h"
#include "bench/file.h"
#include "yard/yard.h"

#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <string>

namespace loom::test {

inline bench::Bench pippin() {
    const Embedded* file = findEmbedded("assets/benches/pippin.loom.json");
    REQUIRE(file != nullptr);
    auto outcome = bench::fromJson({reinterpret_cast<const char*>(file->bytes), file->size});
    REQUIRE(bool(outcome));
    return outcome.value();
}

// A bench to put things on by hand.
struct Rig {
    bench::Bench bench;

    bench::PartId lay(bench::PartKind kind, const char* ref, double x_m, double y_m) {
        bench::Part part;
        part.id = {++bench.lastId};
        part.kind = kind;
        part.ref = ref;
        part.at_m = {x_m, y_m};
        part.position = bench::spec(kind).restPosition;
        bench.parts.push_back(part);
        return part.id;
    }

    // Both ends loose.
    bench::CableId cable(bench::Point a, bench::Point b, double length_m, double area_m2 = 1e-6) {
        bench::Cable cable;
        cable.id = {++bench.lastId};
        cable.label = "W-" + std::to_string(cable.id.number);
        cable.length_m = length_m;
        cable.area_m2 = area_m2;
        cable.ends[0].loose_m = a;
        cable.ends[1].loose_m = b;
        bench.cables.push_back(cable);
        return cable.id;
    }

    bench::CableEnd& end(bench::CableId id, int which) {
        for (bench::Cable& each : bench.cables)
            if (each.id == id) return each.ends[static_cast<std::size_t>(which)];
        FAIL("no such cable");
        return bench.cables.front().ends[0];
    }

    bench::Part& part(const char* ref) {
        for (bench::Part& each : bench.parts)
            if (each.ref == ref) return each;
        FAIL("no such part");
        return bench.parts.front();
    }
};

inline double apart_m(bench::Point a, bench::Point b) {
    return std::hypot(a.x_m - b.x_m, a.y_m - b.y_m);
}

inline double length_m(const std::vector<bench::Point>& line) {
    double sum = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i)
        sum += apart_m(line[i - 1], line[i]);
    return sum;
}

// 1: as long as it should be.
inline double stretch(const yard::Yard& yard, bench::CableId cable) {
    double wish_m = 0.0;
    for (const double link_m : *yard.links(cable))
        wish_m += link_m;
    return length_m(*yard.strand(cable)) / wish_m;
}

inline double away_m(const std::vector<bench::Point>& line, bench::Point from) {
    double least = 1e9;
    for (const bench::Point& p : line)
        least = std::min(least, apart_m(p, from));
    return least;
}

// Runs until asleep; how long that took, at most 10 s.
inline double secondsToSleep(yard::Yard& yard) {
    int frames = 0;
    do
        yard.step(1.0 / 60);
    while (!yard.asleep() && ++frames < 600);
    return frames / 60.0;
}

// Moves an end in a straight line and lets the yard live meanwhile.
inline void
drag(yard::Yard& yard, Rig& rig, bench::CableId cable, int end, bench::Point to, int frames) {
    const bench::Point from = bench::endAt(rig.bench, rig.end(cable, end));
    rig.end(cable, end).at.reset();
    for (int i = 1; i <= frames; ++i) {
        const double share = static_cast<double>(i) / frames;
        rig.end(cable, end).loose_m = {from.x_m + share * (to.x_m - from.x_m),
                                       from.y_m + share * (to.y_m - from.y_m)};
        yard.follow(rig.bench, {{}, cable});
        yard.step(1.0 / 60);
    }
    yard.follow(rig.bench);
}

} // namespace loom::test

// The closed solution of a fuse's opening time against the fuse in a circuit, under a steady current.
#include "circuit/circuit.h"
#include "circuit/fuse_time.h"

#include <doctest/doctest.h>
#include <vector>

namespace {

using namespace loom::circuit;

Fuse fuseOf(FuseStyle style, double rating_A) {
    Fuse fuse;
    fuse.a = 0;
    fuse.b = 1;
    fuse.style = style;
    fuse.rating_A = rating_A;
    fuse.cold_ohm = 1e-3;
    return fuse;
}

// Seconds until it melts in a circuit; kCarriedForEver_s when it has not within an hour.
double meltsAfter_s(const Fuse& fuse, double current_A) {
    Netlist netlist;
    netlist.nodeCount = 2;
    netlist.elements.push_back({1, CurrentSource{1, 0, current_A}});
    netlist.elements.push_back({2, fuse});
    Circuit circuit(netlist);
    std::vector<Event> events;
    circuit.advance(3600.0, events);
    for (const Event& event : events)
        if (event.kind == EventKind::FuseMelted) return event.time_s;
    return kCarriedForEver_s;
}

TEST_CASE("a fuse opens when the closed solution says") {
    struct Row {
        FuseStyle style;
        double rating_A;
    };
    const Row rows[] = {{FuseStyle::Blade, 3},
                        {FuseStyle::Blade, 7.5},
                        {FuseStyle::Blade, 40},
                        {FuseStyle::Strip, 50},
                        {FuseStyle::Cartridge, 10}};
    for (const Row& row : rows)
        for (const double multiple : {1.21, 1.35, 2.0, 6.0, 20.0, 100.0}) {
            CAPTURE(row.rating_A);
            CAPTURE(multiple);
            const Fuse fuse = fuseOf(row.style, row.rating_A);
            const double in_s = meltsAfter_s(fuse, multiple * row.rating_A);
            // The circuit locates an event within 0.2 us.
            const double off_s = openingTime_s(fuse, multiple * row.rating_A) - in_s;
            CHECK((off_s < 0.0 ? -off_s : off_s) <= 1e-4 * in_s + 0.2e-6);
            CHECK(openingTime_s(fuse, -multiple * row.rating_A) ==
                  openingTime_s(fuse, multiple * row.rating_A));
        }
}

TEST_CASE("a fuse carries its rating and a fifth more for ever, and a melted one nothing") {
    Fuse fuse = fuseOf(FuseStyle::Blade, 7.5);
    CHECK(openingTime_s(fuse, 7.5) == kCarriedForEver_s);
    CHECK(openingTime_s(fuse, 1.19 * 7.5) == kCarriedForEver_s);
    CHECK(openingTime_s(fuse, 1.21 * 7.5) < 3600.0);
    CHECK(openingTime_s(fuse, 0.0) == kCarriedForEver_s);
    fuse.blown = true;
    CHECK(openingTime_s(fuse, 1.0) == 0.0);
}

} // namespace

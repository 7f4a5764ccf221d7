// SPDX-License-Identifier: MIT
// Pippin's wiring plan by hand, all 33 cables, for tests of its drawing and its paper.
#pragma once

#include "plan/plan.h"

#include <array>
#include <string>

namespace loom::test {

inline plan::Plan pippinPlan() {
    using bench::EndKind;
    using bench::PartKind;
    using bench::Sleeve;
    plan::Plan plan;
    const auto part = [&](PartKind kind, const char* ref, double x, double y, double rating = 0) {
        plan.parts.push_back({kind, ref, {x, y}, 0, rating});
    };
    part(PartKind::Battery, "B1", 0.150, 0.645);
    part(PartKind::Battery, "B2", 0.344, 0.645);
    part(PartKind::StripFuse, "F1", 0.274, 0.409, 50);
    part(PartKind::BladeHolder, "F2", 0.397, 0.291, 7.5);
    part(PartKind::BladeHolder, "F3", 0.768, 0.236, 3);
    part(PartKind::Isolator, "Q1", 0.159, 0.245);
    part(PartKind::Block, "X1", 0.591, 0.445);
    part(PartKind::Relay, "K1", 0.900, 0.518);
    part(PartKind::Relay, "K2", 1.094, 0.518);
    part(PartKind::Rocker, "S1", 0.574, 0.091);
    part(PartKind::Selector, "S2", 0.424, 0.091);
    part(PartKind::PushButton, "S3", 0.291, 0.091);
    part(PartKind::Toggle, "S4", 1.103, 0.091);
    part(PartKind::PushButton, "S5", 0.715, 0.091);
    part(PartKind::Headlamp, "E1", 0.979, 0.091);
    part(PartKind::Horn, "P1", 0.838, 0.091);
    part(PartKind::Motor, "M1", 0.918, 0.700);
    const auto cable = [&](const char* label,
                           plan::Spot from,
                           plan::Spot to,
                           double mm2,
                           Sleeve sleeve,
                           double length_m,
                           EndKind a,
                           EndKind b,
                           const char* note = "") {
        plan.cables.push_back({label, from, to, length_m, mm2 * 1e-6, sleeve, {a, b}, note});
    };
    const EndKind m6 = EndKind::RingM6, m8 = EndKind::RingM8, ferrule = EndKind::Ferrule,
                  bare = EndKind::Bare, spade = EndKind::Spade, piggy = EndKind::Piggyback;
    const Sleeve black = Sleeve::Black, red = Sleeve::Red, white = Sleeve::White,
                 grey = Sleeve::Grey, orange = Sleeve::Orange, violet = Sleeve::Violet,
                 green = Sleeve::Green, yellow = Sleeve::Yellow, blue = Sleeve::Blue;
    cable("P-01",
          {"B1", "plus"},
          {"B2", "minus"},
          10,
          black,
          0.30,
          m6,
          m6,
          "series link: fitted last");
    cable("P-02", {"B1", "minus"}, {"X1", "10 lower"}, 10, black, 0.70, m6, ferrule);
    cable("P-03", {"B2", "plus"}, {"F1", "in"}, 10, red, 0.25, m6, m6);
    cable("P-04", {"F1", "out"}, {"Q1", "in"}, 10, red, 0.40, m6, m8);
    cable("P-05", {"Q1", "out"}, {"X1", "1 lower"}, 10, red, 0.60, m8, ferrule);
    cable("P-06", {"X1", "1 lower"}, {"K1", "normally open"}, 6, red, 0.35, ferrule, m6);
    cable("P-07", {"K1", "normally open"}, {"K2", "normally open"}, 6, red, 0.15, m6, m6);
    cable("P-08", {"X1", "10 upper"}, {"K1", "normally closed"}, 6, black, 0.35, ferrule, m6);
    cable("P-09", {"K1", "normally closed"}, {"K2", "normally closed"}, 6, black, 0.15, m6, m6);
    cable("P-10", {"K1", "common"}, {"X1", "6 lower"}, 6, white, 0.35, m6, ferrule);
    cable("P-11", {"K2", "common"}, {"X1", "7 lower"}, 6, grey, 0.40, m6, ferrule);
    cable("P-12", {"X1", "6 lower"}, {"M1", "lead 1"}, 6, white, 0.90, ferrule, m6);
    cable("P-13", {"X1", "7 lower"}, {"M1", "lead 2"}, 6, grey, 0.90, ferrule, m6);
    cable("P-14", {"X1", "1 upper"}, {"F2", "in"}, 1, red, 0.10, bare, spade);
    cable("P-14", {"F2", "out"}, {"X1", "2 upper"}, 1, red, 0.10, spade, bare);
    cable("P-15", {"X1", "2 upper"}, {"S1", "in"}, 1, red, 1.10, bare, spade);
    cable("P-16", {"S1", "out"}, {"X1", "3 upper"}, 1, orange, 1.10, piggy, bare);
    cable("P-17", {"S1", "lamp return"}, {"X1", "9 upper"}, 0.75, black, 1.10, spade, bare);
    cable("P-18", {"X1", "3 upper"}, {"S3", "in"}, 1, orange, 1.00, bare, spade);
    cable("P-19", {"S3", "out"}, {"S2", "common"}, 1, orange, 0.20, spade, spade);
    cable("P-20", {"S2", "forward"}, {"X1", "4 upper"}, 1, violet, 1.10, spade, bare);
    cable("P-21", {"S2", "reverse"}, {"X1", "5 upper"}, 1, green, 1.10, spade, bare);
    cable("P-22", {"X1", "4 lower"}, {"K1", "coil a"}, 0.75, violet, 0.35, bare, piggy);
    cable("P-23", {"X1", "5 lower"}, {"K2", "coil a"}, 0.75, green, 0.45, bare, piggy);
    cable("P-24", {"K1", "coil b"}, {"K2", "coil b"}, 0.75, black, 0.20, piggy, piggy);
    cable("P-25", {"K2", "coil b"}, {"X1", "10 upper"}, 0.75, black, 0.45, spade, bare);
    cable("P-26", {"X1", "1 upper"}, {"F3", "in"}, 1, red, 0.30, bare, spade);
    cable("P-26", {"F3", "out"}, {"X1", "8 upper"}, 1, red, 0.10, spade, bare);
    cable("P-27", {"S4", "out"}, {"E1", "in"}, 1, yellow, 0.60, spade, spade);
    cable("P-28", {"E1", "out"}, {"X1", "9 upper"}, 1, black, 0.90, spade, bare);
    cable("P-29", {"S1", "out"}, {"S5", "in"}, 1, orange, 0.30, spade, spade);
    cable("P-30", {"S5", "out"}, {"P1", "in"}, 1, blue, 0.50, spade, spade);
    cable("P-31", {"P1", "out"}, {"X1", "9 lower"}, 1, black, 0.60, spade, bare);
    cable("P-32", {"X1", "9 lower"}, {"X1", "10 lower"}, 6, black, 0.10, ferrule, ferrule);
    cable("P-33", {"X1", "8 upper"}, {"S4", "in"}, 1, yellow, 0.90, bare, spade);
    return plan;
}

} // namespace loom::test

// SPDX-License-Identifier: MIT
// A fuse or a circuit breaker: a heat balance, not a threshold on current.
//
// Element x1 and body x2, temperature rises in units of the rise at which the element melts;
// n = I / rating:
//   c1 dx1/dt = n^2 (1 + 0.5 x1) - g1 (x1 - x2),   c2 dx2/dt = g1 (x1 - x2) - g2 x2.     c in s.
//   R = cold (1 + 0.5 x1). Melts when x1 reaches 1.
// From four figures a style: m, the largest multiple carried for ever; q [s], I2t / rating^2 of
// melting without loss; the body's share of the thermal resistance; the body's time constant T:
//   x1 = 1 at rest for n = m  =>  1/g1 + 1/g2 = 1/(1.5 m^2);   no loss  =>  c1 = 0.5 q / ln 1.5.
//               m     q       share  T        opens after, s, at 1.35  1.6   2    3.5   6 x
//   Blade      1.2   see q    0.4    15 s    (5 A)               11.6  1.19  0.41 0.095 0.030
//   Strip      1.2   9 s      0.6    200 s                       249   75    5.9  0.88  0.26
//   Cartridge  1.2   0.15 s   0.4    10 s                        7.0   0.18  0.06 0.014 0.004
//   Breaker    1.2   30 s     0.5    20 s                        54    25    12   2.8   0.87
// inside the windows of ISO 8820-3 type C (blade) and ISO 8820-5 (strip), and of UL 248-14 (cartridge:
// Littelfuse fuseology guide p. 12). The blade's from 1.35 to 3.5 times and the 20 and 40 A below are
// confirmed by the maker's sheet (Littelfuse ATOF 287 r2.7, as quoted in public repositories); its
// others, the strip's and the 5 A are from memory. The digits: tests/physics/published_fuses.cpp.
// q of a blade: melting I2t 26 A2s at 5 A, 520 at 20 A, 3300 at 40 A, over rating^2: 1.04, 1.30, 2.06 s.
// A breaker's element is its bimetal: a thermal breaker reset by hand and trip-free (type 3 of SAE J553);
// when it opens is from memory: within an hour at 1.35, some 5 to 30 s at 2, 0.4 to 2 s at 6 times.
// It stays as hot as it was when it is set again, so against an overload it trips sooner each time.
// Never opens at or below rating: x1 rests at 0.60. The melted fuse is a gap (gap.h).
// Left out: ambient temperature, melting's own heat, alloy diffusion over years.
// Tested: fuse_test, published_fuses.
#pragma once

#include "circuit/model.h"

namespace loom::circuit {

struct FusePart {
    Key key = 0;
    std::uint32_t branch = 0;
    std::uint32_t element = 0, body = 0; // states x1, x2
    double rating_A = 1.0, cold_ohm = 0.0;
    FuseStyle style = FuseStyle::Blade;
    double c1_s = 1.0, c2_s = 1.0, g1 = 1.0, g2 = 1.0;
    double stamped_ohm = 1.0;
    Gap gap;                        // closed while whole
    double overloadedSince_s = 0.0; // last time it carried no more than its rating
};

// The heat balance of a fuse of this style and rating, which must be within range; in no network yet.
FusePart coldFuse(const Fuse& spec);

struct Fuses : GapModel<Fuse, FusePart> {
    static bool valid(const Fuse& spec);
    static bool replaced(const Fuse& was, const Fuse& now);
    Entry add(const Fuse& spec, Key key, Builder& b);
    void restart(const double* y, const double* v);
    void stamp(Stage& s);
    void updateBranches(Stage& s);
    void updateTemperatures(Stage& s, const Models& models);
    void findCrossings(Crossings& first) const;
    bool applyEvents(Instant& now);
    void carryOver(const Carry& c);
    void read(const View& view, std::uint32_t index, Reading& r) const;
    bool active(const Activity& now) const;
};

} // namespace loom::circuit

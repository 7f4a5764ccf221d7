// SPDX-License-Identifier: MIT
#include "circuit/fuse_time.h"

#include "circuit/fuse.h"
#include "circuit/portable_math.h"

#include <cmath>

namespace loom::circuit {
namespace {

// x' = A x + b from x = 0, both components; A's eigenvalues are real, since its off-diagonal
// elements are positive.
//   c1 x1' = n^2 (1 + x1/2) - g1 (x1 - x2),  c2 x2' = g1 (x1 - x2) - g2 x2
struct Rise {
    double fast_per_s = 0.0, slow_per_s = 0.0; // eigenvalues, slow > fast
    double fast = 0.0, slow = 0.0; // shares of x1:  fast (e^(l t) - 1)/l + the same of slow

    Rise(const FusePart& f, double multiple) {
        const double heat = multiple * multiple;
        const double a = (0.5 * heat - f.g1) / f.c1_s, b = f.g1 / f.c1_s;
        const double c = f.g1 / f.c2_s, d = -(f.g1 + f.g2) / f.c2_s;
        const double middle = 0.5 * (a + d), spread = std::sqrt(0.25 * (a - d) * (a - d) + b * c);
        slow_per_s = middle + spread;
        fast_per_s = middle - spread;
        // x1' at 0 is heat/c1, x1'' at 0 is a times that.
        const double rate = heat / f.c1_s;
        slow = rate * (a - fast_per_s) / (slow_per_s - fast_per_s);
        fast = rate - slow;
    }

    double at(double t_s) const {
        return part(slow, slow_per_s, t_s) + part(fast, fast_per_s, t_s);
    }

    // What x1 tends to when both eigenvalues are negative.
    double end() const { return -slow / slow_per_s - fast / fast_per_s; }

private:
    static double part(double share, double per_s, double t_s) {
        const double x = per_s * t_s;
        // (e^x - 1)/per_s without the difference of near numbers: series to x^2 near 0.
        if (std::fabs(x) < 1e-5) return share * t_s * (1.0 + 0.5 * x);
        return share * (portableExp(x) - 1.0) / per_s;
    }
};

} // namespace

double openingTime_s(const Fuse& fuse, double current_A) {
    if (fuse.blown) return 0.0;
    const FusePart f = coldFuse(fuse);
    const double multiple = std::fabs(current_A) / fuse.rating_A;
    if (multiple <= 1.0) return kCarriedForEver_s;
    const Rise rise(f, multiple);
    if (rise.slow_per_s < 0.0 && rise.end() <= 1.0) return kCarriedForEver_s;
    // x1 only grows: double the time until it is over, then halve the span to one in a million.
    double over_s = 1e-6;
    while (rise.at(over_s) < 1.0) {
        over_s *= 2.0;
        if (over_s > kCarriedForEver_s) return kCarriedForEver_s;
    }
    double under_s = 0.5 * over_s;
    while (over_s - under_s > 1e-6 * over_s) {
        const double middle_s = 0.5 * (over_s + under_s);
        (rise.at(middle_s) < 1.0 ? under_s : over_s) = middle_s;
    }
    return over_s;
}

} // namespace loom::circuit

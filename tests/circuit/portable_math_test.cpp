// SPDX-License-Identifier: MIT
#include "circuit/portable_math.h"
#include "network_hand.h"

#include <doctest/doctest.h>

namespace loom::circuit {

TEST_CASE("own exp, log and pow are the library's to a few in the last digit") {
    double worstExp = 0.0, worstLog = 0.0, worstPow = 0.0;
    for (int k = -70000; k <= 70000; ++k) {
        const double x = k * 0.01;
        worstExp = std::fmax(worstExp, std::fabs(portableExp(x) / std::exp(x) - 1.0));
        const double y = std::exp(0.1 * x) * (1.0 + 1e-3 * (k % 97));
        worstLog = std::fmax(
            worstLog, std::fabs(portableLog(y) - std::log(y)) / (std::fabs(std::log(y)) + 1e-1));
        const double p = 0.23 + 0.001 * (k % 13);
        worstPow = std::fmax(worstPow,
                             std::fabs(portablePow(y, p) / std::pow(y, p) - 1.0) /
                                 (2.0 + std::fabs(p * std::log(y))));
    }
    CHECK(worstExp < 5e-16);
    CHECK(worstLog < 5e-16);
    CHECK(worstPow < 4e-16);
}

TEST_CASE("their ends are finite") {
    CHECK(portableExp(-1e300) == 0.0);
    CHECK(std::isfinite(portableExp(1e300)));
    CHECK(portableExp(0.0) == 1.0);
    CHECK(portableLog(1.0) == 0.0);
    CHECK(closeRel(portableExp(709.0), 8.218407461554972e307, 1e-14, 0.0)); // computed apart
}

} // namespace loom::circuit

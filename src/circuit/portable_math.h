// SPDX-License-Identifier: MIT
// Elementary functions that give the same bits on every target. Use these, never <cmath>'s exp, log
// or pow, wherever a result reaches the state of a circuit: C libraries differ in the last digit.
// Only + - * / and bit moves of IEEE 754 doubles are used, so any compiler that neither contracts
// nor reorders (-ffp-contract=off, no -ffast-math) agrees. sqrt, fabs and floor are exact anyway.
#pragma once

#include <cstdint>
#include <cstring>

namespace loom::circuit {

// 2^n for -1022 <= n <= 1023.
inline double powerOfTwo(int n) {
    const std::uint64_t bits = static_cast<std::uint64_t>(n + 1023) << 52;
    double x = 0.0;
    std::memcpy(&x, &bits, sizeof x);
    return x;
}

// e^x. Relative error below 4e-16 for -708 <= x <= 709; 0 below, e^709 above (never infinite).
//   x = n ln2 + r, |r| <= ln2/2; e^r by its Taylor series to r^13 (remainder r^14/14! < 5e-18).
// ln2 is split in two parts, the first with 21 zero bits at its end, so that n*first is exact.
inline double portableExp(double x) {
    constexpr double kLn2High = 6.93147180369123816490e-01, kLn2Low = 1.90821492927058770002e-10;
    constexpr double kPerLn2 = 1.44269504088896338700;
    if (!(x > -708.0)) return 0.0;
    if (x > 709.0) x = 709.0;
    const int n = static_cast<int>(x * kPerLn2 + (x < 0.0 ? -0.5 : 0.5));
    const double r = (x - n * kLn2High) - n * kLn2Low;
    double s = 1.0 / 6227020800.0;
    constexpr double kPerFactorial[] = {1.0 / 479001600.0,
                                        1.0 / 39916800.0,
                                        1.0 / 3628800.0,
                                        1.0 / 362880.0,
                                        1.0 / 40320.0,
                                        1.0 / 5040.0,
                                        1.0 / 720.0,
                                        1.0 / 120.0,
                                        1.0 / 24.0,
                                        1.0 / 6.0,
                                        0.5};
    for (double c : kPerFactorial)
        s = s * r + c;
    const double er = 1.0 + (r + r * r * s);
    return n > 1023 ? er * powerOfTwo(n - 1) * 2.0 : er * powerOfTwo(n);
}

// ln x for normal x > 0. Absolute error below 2e-16 near 1, relative error below 4e-16 elsewhere.
//   x = 2^n m, sqrt(1/2) <= m < sqrt 2; s = (m-1)/(m+1); ln m = 2 (s + s^3/3 + ... + s^21/21),
//   remainder below 2 s^23/23 < 1e-18 for |s| <= 0.1716.
inline double portableLog(double x) {
    constexpr double kLn2High = 6.93147180369123816490e-01, kLn2Low = 1.90821492927058770002e-10;
    std::uint64_t bits = 0;
    std::memcpy(&bits, &x, sizeof bits);
    int n = static_cast<int>(bits >> 52) - 1023;
    bits = (bits & 0x000FFFFFFFFFFFFFull) | 0x3FF0000000000000ull;
    double m = 1.0;
    std::memcpy(&m, &bits, sizeof m);
    if (m > 1.41421356237309504880) {
        m *= 0.5;
        ++n;
    }
    const double s = (m - 1.0) / (m + 1.0), q = s * s;
    double sum = 1.0 / 21.0;
    for (int k = 19; k >= 3; k -= 2)
        sum = sum * q + 1.0 / k;
    return n * kLn2High + (2.0 * s + (2.0 * s * q * sum + n * kLn2Low));
}

// x^p for x > 0. Relative error below (2 + |p ln x|) 4e-16.
inline double portablePow(double x, double p) {
    return portableExp(p * portableLog(x));
}

} // namespace loom::circuit

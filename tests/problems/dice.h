// SPDX-License-Identifier: MIT
// Numbers thrown from a seed, the same on every machine: splitmix64 (Steele, Lea, Flood, OOPSLA 2014,
// from memory). Only integer arithmetic and exact floating-point operations.
#pragma once

#include <cstdint>

namespace problems {

class Dice {
public:
    explicit Dice(std::uint64_t seed) : state(seed * 0x9E3779B97F4A7C15ull + 1) {}

    std::uint64_t bits() {
        std::uint64_t z = state += 0x9E3779B97F4A7C15ull;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ull;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBull;
        return z ^ (z >> 31);
    }

    std::uint32_t below(std::uint32_t n) { return std::uint32_t(bits() % n); }

    double unit() { return double(bits() >> 11) * 0x1p-53; } // 0 <= x < 1

    double between(double least, double greatest) { return least + (greatest - least) * unit(); }

    // Evenly over the decades: 10^a 1..10^b with steps of the digits 1 to 9.99.
    double decades(int least, int greatest) {
        double x = 1.0 + 9.0 * unit();
        int power = least + int(below(std::uint32_t(greatest - least)));
        for (; power > 0; --power)
            x *= 10.0;
        for (; power < 0; ++power)
            x /= 10.0;
        return x;
    }

    bool oneIn(std::uint32_t n) { return below(n) == 0; }

private:
    std::uint64_t state;
};

} // namespace problems

// SPDX-License-Identifier: MIT
// FNV-1a over values, field by field, never over raw memory: the same number for the same state
// natively and in the browser. Source: G. Fowler, L. C. Noll, K.-P. Vo,
// IETF draft-eastlake-fnv: 64-bit offset basis and prime.
#pragma once

#include "bench/bench.h"

#include <cstdint>
#include <string>

namespace loom::attempt {

class StateHash {
public:
    void add(std::uint64_t value);     // least byte first
    void add(double value);            // its bits; -0 as 0
    void add(const std::string& text); // length, then bytes
    void add(const bench::Part& part);
    void add(const bench::Cable& cable);
    void add(const bench::Screw& screw);
    void add(const bench::Tie& tie);
    void add(const bench::Meter& meter);
    void add(const bench::Bench& bench); // all but the kit, which follows from the rest

    std::uint64_t value() const { return hash; }

private:
    std::uint64_t hash = 14695981039346656037u;
};

} // namespace loom::attempt

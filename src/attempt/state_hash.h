// SPDX-License-Identifier: MIT
// The hash of a bench, field by field: the same number for the same state natively and in the browser.
#pragma once

#include "bench/bench.h"
#include "circuit/hash.h"

#include <string>

namespace loom::attempt {

class StateHash : public circuit::Hash {
public:
    using Hash::add;
    void add(const std::string& text); // length, then bytes
    void add(const bench::Part& part);
    void add(const bench::Cable& cable);
    void add(const bench::Screw& screw);
    void add(const bench::Tie& tie);
    void add(const bench::Meter& meter);
    void add(const bench::Bench& bench); // all but the kit, which follows from the rest
};

} // namespace loom::attempt

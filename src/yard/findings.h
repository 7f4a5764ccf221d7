// SPDX-License-Identifier: MIT
// What the yard tells by contact: what lies against a wheel, which battery was knocked.
#pragma once

#include "yard/obstacles.h"
#include "yard/rope.h"
#include "yard/yard.h"

#include <vector>

namespace loom::yard {

class Findings {
public:
    explicit Findings(const bench::Bench& bench);

    // The bench as it is now; batteries that a moved part ran into are found here.
    void follow(const bench::Bench& bench);
    // Compares what lies against the wheels with what was told. Ropes that move or are in the hand
    // lie against nothing yet.
    void look(const std::vector<Rope>& ropes, const InHand& inHand);

    std::vector<Finding> take();

private:
    struct Axle {
        bench::PartId motor;
        bool obstructed = false;
    };

    void knock(const bench::Part& by, const bench::Part& before);

    std::vector<bench::Part> parts;
    std::vector<Axle> axles;
    std::vector<Finding> found;
};

} // namespace loom::yard

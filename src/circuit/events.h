// SPDX-License-Identifier: MIT
// What models use to find and to apply their events: where within a step a quantity crosses its
// limit, where a spark ends, and what an instant changes.
#pragma once

#include "circuit/event.h"
#include "circuit/gap.h"
#include "circuit/step.h"

#include <cmath>

namespace loom::circuit {

class Models;

// Keeps the earliest crossing of several quantities. A quantity has not crossed while negative.
class Crossings {
public:
    Crossings(const Step& lookedAt, const Models& all) : step(lookedAt), models(all) {}

    template <class Quantity> void look(const Quantity& q) {
        if (!(q(1.0) >= 0.0)) return;
        double low = 0.0, high = theta < 1.0 ? theta : 1.0;
        if (q(low) >= 0.0) {
            theta = 0.0;
            return;
        }
        if (high < 1.0 && q(high) < 0.0) return; // later than what is known
        for (int k = 0; k < 60 && high - low > 1e-12; ++k) {
            const double mid = 0.5 * (low + high);
            (q(mid) >= 0.0 ? high : low) = mid;
        }
        theta = high;
    }

    // A state rises to a limit.
    void rise(std::uint32_t state, double limit) {
        if (step.end.y[state] >= limit)
            look([&](double th) { return step.state(state, th) - limit; });
    }

    // An arc loses the least current it needs.
    void arc(const Gap& gap, std::uint32_t branch) {
        if (gap.phase != GapPhase::Arcing) return;
        look([&](double th) { return kArcLeast_A - std::fabs(step.current(branch, th)); });
    }

    const Step& step;
    const Models& models;
    double theta = 2.0; // share of the step passed; above 1: none
};

// Where a spark or an arc that conducts at the beginning of a step has stopped before its end.
class Extinction {
public:
    explicit Extinction(const Step& lookedAt) : step(lookedAt) {}

    void gap(const Gap& gap, std::uint32_t branch) {
        if (!gap.closed()) look(step.begin.i[branch], step.middle.i[branch], step.end.i[branch]);
    }

    // Over the insulation of a winding, beside its own current.
    void winding(std::uint32_t branch, std::uint32_t current) {
        const auto spark = [&](const Solution& s) { return s.i[branch] - s.y[current]; };
        look(spark(step.begin), spark(step.middle), spark(step.end));
    }

    double least = 1.0; // share of the step just short of where the first comes to nothing

private:
    void look(double begin, double middle, double end) {
        if (begin == 0.0 || end != 0.0) return;
        const double theta = middle == 0.0 ? 0.25 : kMiddle * begin / (begin - middle);
        if (theta > 0.0 && 0.999 * theta < least) least = 0.999 * theta;
    }

    const Step& step;
};

// The instant at which events are applied: states y may be changed, the branches are as they were.
struct Instant {
    Models& models;
    double time_s;
    std::vector<double>& y;
    const Solution& at;
    std::vector<Event>& events;

    void add(EventKind kind, Key element, double first, double second = 0.0) {
        events.push_back({time_s, kind, element, first, second});
    }

    // True when the arc of a gap ends: the network jumps.
    bool endArc(Gap& gap, std::uint32_t branch) const {
        if (gap.phase != GapPhase::Arcing || std::fabs(at.i[branch]) >= kArcLeast_A) return false;
        gap.phase = GapPhase::Open;
        gap.side = 0;
        return true;
    }
};

} // namespace loom::circuit

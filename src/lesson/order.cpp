// SPDX-License-Identifier: MIT
#include "lesson/order.h"

#include "bench/catalogue.h"
#include "lesson/live_work.h"
#include "lesson/paths.h"
#include "lesson/retrace.h"

#include <algorithm>

namespace loom::lesson {
namespace {

// One end put on a terminal, and how the isolators stood then.
struct Joining {
    bench::CableId cable;
    int end = 0;
    bench::TerminalRef to;
    bool isolatorOn = false, keyIn = false;
};

using Joinings = std::vector<Joining>; // of one step

bool isAnyKeyIn(const bench::Bench& bench) {
    return std::any_of(bench.parts.begin(), bench.parts.end(), [&](const bench::Part& part) {
        return bench::isA(part, bench::PartClass::Isolator) && part.position >= bench::kIsolatorOff;
    });
}

bool wasThere(const bench::Bench& before, const bench::Cable& cable, int end) {
    const bench::Cable* old = bench::findCable(before, cable.id);
    return old && old->ends[end].at == cable.ends[end].at;
}

Joinings joinedBetween(const bench::Bench& before, const bench::Bench& after) {
    Joinings joinings;
    for (const bench::Cable& cable : after.cables) {
        for (int end = 0; end < 2; ++end) {
            const auto& at = cable.ends[end].at;
            if (!at || wasThere(before, cable, end)) continue;
            joinings.push_back(
                {cable.id, end, *at, bench::isAnyIsolatorOn(before), isAnyKeyIn(before)});
        }
    }
    return joinings;
}

// The joinings of the steps that still stand, step by step.
class Retraced {
public:
    explicit Retraced(const attempt::Record& record) : now(record.start) {
        retrace(record, [&](const Turn& turn) { take(turn); });
    }

    const bench::Bench& bench() const { return now; }

    // Of the ends as they are joined now, in order; those of the start are not among them.
    Joinings standing() const {
        Joinings kept;
        for (auto step = past.rbegin(); step != past.rend(); ++step)
            for (auto joining = step->rbegin(); joining != step->rend(); ++joining)
                if (stands(*joining) && !has(kept, *joining)) kept.push_back(*joining);
        std::reverse(kept.begin(), kept.end());
        return kept;
    }

private:
    bench::Bench now;
    std::vector<Joinings> past, future;

    void take(const Turn& turn) {
        if (turn.move == Turn::Move::Step) {
            past.push_back(joinedBetween(turn.before, turn.after));
            future.clear();
        } else if (turn.move == Turn::Move::Undone) {
            future.push_back(std::move(past.back()));
            past.pop_back();
        } else if (turn.move == Turn::Move::Redone) {
            past.push_back(std::move(future.back()));
            future.pop_back();
        }
        now = turn.after;
    }

    bool stands(const Joining& joining) const {
        const bench::Cable* cable = bench::findCable(now, joining.cable);
        return cable && cable->ends[joining.end].at == joining.to;
    }

    static bool has(const Joinings& joinings, const Joining& which) {
        return std::any_of(joinings.begin(), joinings.end(), [&](const Joining& other) {
            return other.cable == which.cable && other.end == which.end;
        });
    }
};

std::string labelOf(const bench::Bench& bench, bench::CableId id) {
    const bench::Cable* cable = bench::findCable(bench, id);
    return cable ? cable->label : std::string();
}

std::vector<plan::Spot> polesOf(const bench::Part& battery) {
    std::vector<plan::Spot> poles;
    for (const bench::TerminalSpec& terminal : bench::spec(battery.kind).terminals)
        poles.push_back({battery.ref, terminal.word});
    return poles;
}

std::vector<bench::Part> batteriesOn(const bench::Bench& bench) {
    std::vector<bench::Part> batteries;
    for (const bench::Part& part : bench.parts)
        if (bench::isA(part, bench::PartClass::Battery)) batteries.push_back(part);
    return batteries;
}

// Pairs of poles of two different batteries.
std::vector<std::pair<plan::Spot, plan::Spot>> polePairs(const bench::Bench& bench) {
    std::vector<std::pair<plan::Spot, plan::Spot>> pairs;
    const std::vector<bench::Part> batteries = batteriesOn(bench);
    for (std::size_t i = 0; i < batteries.size(); ++i)
        for (std::size_t j = i + 1; j < batteries.size(); ++j)
            for (const plan::Spot& a : polesOf(batteries[i]))
                for (const plan::Spot& b : polesOf(batteries[j]))
                    pairs.push_back({a, b});
    return pairs;
}

// Without this cable two batteries are apart that are joined with it.
bool completesLink(const bench::Bench& bench, bench::CableId cable) {
    const auto without = bench::apply(bench, bench::RemoveCable{cable});
    if (!without) return false;
    const auto pairs = polePairs(bench);
    return std::any_of(pairs.begin(), pairs.end(), [&](const auto& pair) {
        return joined(bench, pair.first, pair.second, Through::Cables) &&
               !joined(without.value(), pair.first, pair.second, Through::Cables);
    });
}

bool touchesBattery(const bench::Bench& bench, bench::CableId id) {
    const bench::Cable* cable = bench::findCable(bench, id);
    return cable &&
           std::any_of(cable->ends.begin(), cable->ends.end(), [&](const bench::CableEnd& end) {
               const bench::Part* part = end.at ? bench::findPart(bench, end.at->part) : nullptr;
               return part && bench::isA(*part, bench::PartClass::Battery);
           });
}

template <class Ends>
Kept lastOne(const bench::Bench& bench, const Joinings& joinings, Ends endsWell) {
    if (joinings.empty()) return {true, {}};
    const bench::CableId last = joinings.back().cable;
    return endsWell(bench, last) ? Kept{true, {}} : Kept{false, labelOf(bench, last)};
}

Kept noneWhile(const bench::Bench& bench, const Joinings& joinings, bool Joining::*wrong) {
    for (const Joining& joining : joinings)
        if (joining.*wrong) return {false, labelOf(bench, joining.cable)};
    return {true, {}};
}

} // namespace

Kept keeps(const attempt::Record& record, const Order& order) {
    if (order.rule == Order::Rule::DeadWhileWorking) {
        const std::string label = workedLive(record, order.common);
        return {label.empty(), label};
    }
    const Retraced retraced(record);
    const bench::Bench& bench = retraced.bench();
    const Joinings joinings = retraced.standing();
    switch (order.rule) {
    case Order::Rule::BatteryLast:
        return lastOne(bench, joinings, touchesBattery);
    case Order::Rule::LinkLast:
        return lastOne(bench, joinings, completesLink);
    case Order::Rule::IsolatorOffWhileJoining:
        return noneWhile(bench, joinings, &Joining::isolatorOn);
    case Order::Rule::KeyOutWhileJoining:
        return noneWhile(bench, joinings, &Joining::keyIn);
    case Order::Rule::DeadWhileWorking:
        break;
    }
    return {};
}

} // namespace loom::lesson

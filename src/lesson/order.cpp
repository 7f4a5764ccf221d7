// SPDX-License-Identifier: MIT
#include "lesson/order.h"

#include "bench/catalogue.h"
#include "bench/wiring.h"
#include "circuit/node_groups.h"
#include "lesson/paths.h"
#include "lesson/retrace.h"
#include "lesson/trial.h"

#include <algorithm>
#include <map>
#include <set>

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

// What is live on a bench: joined, by cables and what is closed, to a pole that is not the common one
// of batteries that could drive a current.
class Live {
public:
    Live(const bench::Bench& of, const plan::Spot& common)
        : bench(of), wiring(bench::wire(of)), groups(wiring.netlist.nodeCount),
          links(wiring.netlist.nodeCount) {
        for (const circuit::Element& element : wiring.netlist.elements)
            std::visit([&](const auto& part) { join(part); }, element.part);
        const auto at = find(bench, common);
        const auto node = at ? bench::nodeOf(bench, wiring, *at) : std::nullopt;
        for (const circuit::Element& element : wiring.netlist.elements) {
            const auto* battery = std::get_if<circuit::Battery>(&element.part);
            if (!battery || !isBroughtOut(battery->plus, true) ||
                !isBroughtOut(battery->minus, false))
                continue;
            for (const circuit::Node pole : {battery->plus, battery->minus})
                if (!node || groups.top(pole) != groups.top(*node)) live.insert(groups.top(pole));
        }
    }

    bool is(bench::TerminalRef terminal) {
        const auto node = bench::nodeOf(bench, wiring, terminal);
        return node && live.count(groups.top(*node)) > 0;
    }

    bool any() const { return !live.empty(); }

private:
    const bench::Bench& bench;
    bench::Wiring wiring;
    circuit::NodeGroups groups, links; // links: what cables alone join
    std::set<circuit::Node> live;

    template <class Element> void join(const Element&) {}

    void join(const circuit::Cable& cable) {
        if (cable.parted) return;
        groups.join(cable.a, cable.b);
        links.join(cable.a, cable.b);
    }

    void join(const circuit::Contact& contact) {
        if (contact.closed) groups.join(contact.a, contact.b);
    }

    void join(const circuit::Fuse& fuse) {
        if (!fuse.blown) groups.join(fuse.a, fuse.b);
    }

    // Up from a plus (down from a minus) through the batteries linked to it, something else is joined.
    bool isBroughtOut(circuit::Node pole, bool up) {
        std::set<circuit::Node> seen;
        std::vector<circuit::Node> waiting{pole};
        while (!waiting.empty()) {
            const circuit::Node top = links.top(waiting.back());
            waiting.pop_back();
            if (!seen.insert(top).second) continue;
            if (feedsSomething(top)) return true;
            for (const circuit::Element& element : wiring.netlist.elements) {
                const auto* battery = std::get_if<circuit::Battery>(&element.part);
                if (!battery) continue;
                const auto near = up ? battery->minus : battery->plus;
                const auto far = up ? battery->plus : battery->minus;
                if (links.top(near) == top) waiting.push_back(far);
            }
        }
        return false;
    }

    bool feedsSomething(circuit::Node top) {
        for (std::size_t p = 0; p < bench.parts.size(); ++p) {
            if (bench::isA(bench.parts[p], bench::PartClass::Battery)) continue;
            for (const circuit::Node node : wiring.nodes[p])
                if (links.top(node) == top) return true;
        }
        return false;
    }
};

// The last time each end was moved, was it live?
class Moves {
public:
    Moves(const attempt::Record& record, const plan::Spot& pole) : common(pole) {
        retrace(record, [&](const Turn& turn) { take(turn); });
    }

    // The label of a cable that was; empty for none.
    std::string wasLive() const {
        for (const auto& [end, label] : wrong)
            if (!label.empty()) return label;
        return {};
    }

private:
    using End = std::pair<std::uint32_t, int>;

    plan::Spot common;
    std::map<End, std::string> wrong; // what is said of the last move of each end
    std::vector<std::map<End, std::string>> past, future;

    void take(const Turn& turn) {
        if (turn.move == Turn::Move::Step) {
            past.push_back(wrong);
            future.clear();
            look(turn.before, turn.after);
        } else if (turn.move == Turn::Move::Undone) {
            future.push_back(std::exchange(wrong, past.back()));
            past.pop_back();
        } else if (turn.move == Turn::Move::Redone) {
            past.push_back(std::exchange(wrong, future.back()));
            future.pop_back();
        }
    }

    void look(const bench::Bench& before, const bench::Bench& after) {
        std::optional<Live> live;
        const auto isLive = [&](const std::optional<bench::TerminalRef>& at) {
            if (!at) return false;
            if (!live) live.emplace(before, common);
            return live->is(*at);
        };
        const auto moved = [&](const bench::Cable& cable, int end, const auto& from, const auto& to) {
            const std::size_t other = 1 - static_cast<std::size_t>(end);
            const bench::Cable* then = bench::findCable(before, cable.id);
            const bool hot = (!isBattery(before, from) && isLive(from)) ||
                             (!isBattery(after, to) && isLive(to)) ||
                             (then && !isBattery(before, from ? from : to) &&
                              isLive(then->ends[other].at));
            wrong[{cable.id.number, end}] = hot ? cable.label : std::string();
        };
        for (const bench::Cable& cable : after.cables)
            for (int end = 0; end < 2; ++end) {
                const bench::Cable* then = bench::findCable(before, cable.id);
                const std::optional<bench::TerminalRef> from =
                    then ? then->ends[end].at : std::nullopt;
                const auto& to = cable.ends[end].at;
                if (from != to) moved(cable, end, from, to);
            }
        for (const bench::Cable& cable : before.cables)
            if (!bench::findCable(after, cable.id))
                for (int end = 0; end < 2; ++end)
                    if (cable.ends[end].at)
                        moved(cable,
                              end,
                              cable.ends[end].at,
                              std::optional<bench::TerminalRef>());
        forgiveRemoved(after);
    }

    // A cable that has gone cannot be moved again: once all is dead, nothing is left to do.
    void forgiveRemoved(const bench::Bench& after) {
        const auto isGone = [&](const auto& entry) {
            return !entry.second.empty() &&
                   !bench::findCable(after, bench::CableId{entry.first.first});
        };
        if (std::none_of(wrong.begin(), wrong.end(), isGone) || Live(after, common).any()) return;
        for (auto entry = wrong.begin(); entry != wrong.end();)
            entry = isGone(*entry) ? wrong.erase(entry) : std::next(entry);
    }

    static bool isBattery(const bench::Bench& bench, const std::optional<bench::TerminalRef>& at) {
        const bench::Part* part = at ? bench::findPart(bench, at->part) : nullptr;
        return part && bench::isA(*part, bench::PartClass::Battery);
    }
};

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
        const std::string label = Moves(record, order.common).wasLive();
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

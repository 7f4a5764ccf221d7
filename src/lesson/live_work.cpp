// SPDX-License-Identifier: MIT
#include "lesson/live_work.h"

#include "bench/catalogue.h"
#include "lesson/paths.h"
#include "lesson/retrace.h"
#include "lesson/trial.h"

#include <algorithm>
#include <map>
#include <set>

namespace loom::lesson {
namespace {

using bench::PartClass;
using bench::TerminalRef;

// Terminals of a battery, in the catalogue.
constexpr std::uint8_t kPlus = 0, kMinus = 1;

// What is live on a bench: joined, by cables and what is closed, to a pole that is not the common one
// of batteries that could drive a current.
class Live {
public:
    Live(const bench::Bench& of, const plan::Spot& common)
        : bench(of), closed(of, Through::Closed), cables(of, Through::Cables) {
        const auto back = find(bench, common);
        for (const bench::Part& part : bench.parts) {
            if (!bench::isA(part, PartClass::Battery)) continue;
            const TerminalRef plus{part.id, kPlus}, minus{part.id, kMinus};
            if (!isBroughtOut(plus) || !isBroughtOut(minus)) continue;
            for (const TerminalRef pole : {plus, minus})
                if (!back || !closed.joined(pole, *back)) poles.push_back(pole);
        }
    }

    bool is(TerminalRef terminal) const {
        return std::any_of(poles.begin(), poles.end(), [&](TerminalRef pole) {
            return closed.joined(terminal, pole);
        });
    }

    bool any() const { return !poles.empty(); }

private:
    const bench::Bench& bench;
    Ways closed, cables;
    std::vector<TerminalRef> poles;

    // Something else is joined by cables to this pole, or to that of the same sign at the far end of
    // a chain of batteries that begins here.
    bool isBroughtOut(TerminalRef pole) const {
        std::set<bench::PartId> passed;
        std::vector<TerminalRef> waiting{pole};
        const std::uint8_t near = pole.terminal == kPlus ? kMinus : kPlus;
        while (!waiting.empty()) {
            const TerminalRef at = waiting.back();
            waiting.pop_back();
            if (feedsSomething(at)) return true;
            for (const bench::Part& part : bench.parts)
                if (bench::isA(part, PartClass::Battery) && cables.joined(at, {part.id, near}) &&
                    passed.insert(part.id).second)
                    waiting.push_back({part.id, pole.terminal});
        }
        return false;
    }

    bool feedsSomething(TerminalRef pole) const {
        for (const bench::Part& part : bench.parts) {
            if (bench::isA(part, PartClass::Battery)) continue;
            const std::size_t count = bench::spec(part.kind).terminals.size();
            for (std::size_t t = 0; t < count; ++t)
                if (cables.joined(pole, {part.id, static_cast<std::uint8_t>(t)})) return true;
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
        const auto moved =
            [&](const bench::Cable& cable, int end, const auto& from, const auto& to) {
                const std::size_t other = 1 - static_cast<std::size_t>(end);
                const bench::Cable* then = bench::findCable(before, cable.id);
                const bool hot =
                    (!isBattery(before, from) && isLive(from)) ||
                    (!isBattery(after, to) && isLive(to)) ||
                    (then && !isBattery(before, from ? from : to) && isLive(then->ends[other].at));
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
                        moved(cable, end, cable.ends[end].at, std::optional<bench::TerminalRef>());
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

} // namespace

std::string workedLive(const attempt::Record& record, const plan::Spot& common) {
    return Moves(record, common).wasLive();
}

} // namespace loom::lesson

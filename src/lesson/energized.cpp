// SPDX-License-Identifier: MIT
#include "lesson/energized.h"

#include "bench/catalogue.h"
#include "lesson/paths.h"

#include <algorithm>
#include <set>

namespace loom::lesson {
namespace {

using bench::PartClass;
using bench::TerminalRef;

// Terminals of the catalogue.
constexpr std::uint8_t kPlus = 0, kMinus = 1;
constexpr std::uint8_t kRockerOut = 1, kLampReturn = 2, kCoilA = 3, kCoilB = 4;

// A battery's plus is above another's minus when a chain of batteries leads from there up to it.
class Supply {
public:
    explicit Supply(const bench::Bench& of) : bench(of), ways(of, Through::Closed) {}

    // One of the two terminals is on a plus, the other on a minus under it.
    bool feeds(TerminalRef a, TerminalRef b) const { return isAbove(a, b) || isAbove(b, a); }

private:
    const bench::Bench& bench;
    Ways ways;

    bool isAbove(TerminalRef high, TerminalRef low) const {
        std::set<bench::PartId> reached;
        return climbs(low, high, reached);
    }

    // From a terminal up through the batteries whose minus it is on.
    bool climbs(TerminalRef from, TerminalRef to, std::set<bench::PartId>& reached) const {
        for (const bench::Part& part : bench.parts) {
            if (!isA(part, PartClass::Battery) || reached.count(part.id)) continue;
            if (!ways.joined(from, {part.id, kMinus})) continue;
            reached.insert(part.id);
            const TerminalRef top{part.id, kPlus};
            if (ways.joined(top, to) || climbs(top, to, reached)) return true;
        }
        return false;
    }
};

bool feedsAny(const bench::Bench& bench) {
    const Supply supply(bench);
    return std::any_of(bench.parts.begin(), bench.parts.end(), [&](const bench::Part& part) {
        if (isA(part, PartClass::Relay)) return supply.feeds({part.id, kCoilA}, {part.id, kCoilB});
        return isA(part, PartClass::Motor) && supply.feeds({part.id, 0}, {part.id, 1});
    });
}

} // namespace

bool isLampLit(const bench::Bench& bench, bench::PartId rocker) {
    return Supply(bench).feeds({rocker, kRockerOut}, {rocker, kLampReturn});
}

bool doesButtonRun(const bench::Bench& bench, bench::PartId button) {
    bench::Bench released = bench;
    for (bench::Part& part : released.parts)
        if (part.id == button) part.position = bench::spec(part.kind).restPosition;
    return feedsAny(bench) && !feedsAny(released);
}

} // namespace loom::lesson

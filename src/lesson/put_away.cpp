// SPDX-License-Identifier: MIT
#include "lesson/put_away.h"

#include "bench/catalogue.h"
#include "lesson/retrace.h"

#include <algorithm>

namespace loom::lesson {
namespace {

using bench::Bench;

bool isOnBattery(const Bench& bench, const bench::CableEnd& end) {
    const bench::Part* part = end.at ? bench::findPart(bench, end.at->part) : nullptr;
    return part && bench::isA(*part, bench::PartClass::Battery);
}

bool losesBattery(const Bench& before, const Bench& after) {
    for (const bench::Cable& cable : before.cables)
        for (std::size_t end = 0; end < 2; ++end) {
            if (!isOnBattery(before, cable.ends[end])) continue;
            const bench::Cable* now = bench::findCable(after, cable.id);
            if (!now || now->ends[end].at != cable.ends[end].at) return true;
        }
    return false;
}

// What was joined to a part that has gone since, or has been laid anew, lies loose.
void letGo(Bench& bench) {
    for (bench::Cable& cable : bench.cables)
        for (bench::CableEnd& end : cable.ends)
            if (end.at && !bench::findPart(bench, end.at->part)) end.at.reset();
    const auto gone = [&](const bench::Screw& screw) {
        return !bench::findPart(bench, screw.at.part);
    };
    bench.screws.erase(std::remove_if(bench.screws.begin(), bench.screws.end(), gone),
                       bench.screws.end());
}

// The ends that were on batteries and lie loose, or whose cable is back in the tray.
void putBack(const Bench& then, Bench& now) {
    for (const bench::Part& part : then.parts)
        if (bench::isA(part, bench::PartClass::Battery) && !bench::findPart(now, part.ref))
            now.parts.push_back(part);
    for (const bench::Cable& cable : then.cables) {
        const bool first = isOnBattery(then, cable.ends[0]);
        if (!first && !isOnBattery(then, cable.ends[1])) continue;
        const auto same = [&](const bench::Cable& other) { return other.id == cable.id; };
        const auto there = std::find_if(now.cables.begin(), now.cables.end(), same);
        if (there == now.cables.end()) {
            now.cables.push_back(cable);
            continue;
        }
        for (std::size_t end = 0; end < 2; ++end)
            if (isOnBattery(then, cable.ends[end]) && !there->ends[end].at)
                there->ends[end] = cable.ends[end];
    }
    for (const bench::Screw& screw : then.screws) {
        const bench::Part* part = bench::findPart(then, screw.at.part);
        const auto same = [&](const bench::Screw& other) { return other.at == screw.at; };
        if (part && bench::isA(*part, bench::PartClass::Battery) &&
            std::none_of(now.screws.begin(), now.screws.end(), same))
            now.screws.push_back(screw);
    }
}

} // namespace

std::optional<BeforePuttingAway> beforePuttingAway(const attempt::Record& record) {
    struct Moment {
        Bench bench;
        std::size_t entry = 0;
    };

    std::optional<Moment> moment;
    bool poweredUp = false;
    std::size_t entry = 0;
    Bench now = record.start;
    retrace(record, [&](const Turn& turn) {
        if (losesBattery(turn.after, turn.before)) {
            moment.reset(); // an end has come onto a battery
            poweredUp = false;
        }
        poweredUp = poweredUp || bench::isAnyIsolatorOn(turn.after);
        if (!moment && poweredUp && losesBattery(turn.before, turn.after))
            moment = Moment{turn.before, entry};
        now = turn.after;
        ++entry;
    });
    if (!moment) return std::nullopt;
    putBack(moment->bench, now);
    letGo(now);
    attempt::Record cut = record;
    cut.entries.resize(moment->entry);
    return BeforePuttingAway{std::move(now), std::move(cut)};
}

Bench judgedBench(const attempt::Record& record) {
    if (auto before = beforePuttingAway(record)) return std::move(before->bench);
    Bench last = record.start;
    retrace(record, [&](const Turn& turn) { last = turn.after; });
    return last;
}

} // namespace loom::lesson

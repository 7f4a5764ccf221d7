// SPDX-License-Identifier: MIT
#include "bench/bench.h"

#include "bench/catalogue.h"

#include <algorithm>
#include <cassert>

namespace loom::bench {

const Part* findPart(const Bench& bench, PartId id) {
    if (!id) return nullptr;
    const auto found = std::find_if(
        bench.parts.begin(), bench.parts.end(), [&](const Part& part) { return part.id == id; });
    return found == bench.parts.end() ? nullptr : &*found;
}

const Part* findPart(const Bench& bench, const std::string& ref) {
    const auto found = std::find_if(
        bench.parts.begin(), bench.parts.end(), [&](const Part& part) { return part.ref == ref; });
    return found == bench.parts.end() ? nullptr : &*found;
}

const Cable* findCable(const Bench& bench, CableId id) {
    if (!id) return nullptr;
    const auto found = std::find_if(bench.cables.begin(),
                                    bench.cables.end(),
                                    [&](const Cable& cable) { return cable.id == id; });
    return found == bench.cables.end() ? nullptr : &*found;
}

const Tie* findTie(const Bench& bench, std::uint32_t id) {
    const auto found = std::find_if(
        bench.ties.begin(), bench.ties.end(), [&](const Tie& tie) { return tie.id == id; });
    return found == bench.ties.end() ? nullptr : &*found;
}

bool isOut(const Bench& bench, const PartSlot& slot) {
    return findPart(bench, slot.ref) != nullptr;
}

// Slots may share a label (the two halves of an in-line fuse lead do): they empty in the kit's
// order, so a slot is out when more cables carry the label than slots before it do.
bool isOut(const Bench& bench, const CableSlot& slot) {
    const std::vector<CableSlot>& slots = bench.kit.readyMade;
    const auto own = std::find_if(
        slots.begin(), slots.end(), [&](const CableSlot& other) { return &other == &slot; });
    const auto before =
        own == slots.end() ? 0 : std::count_if(slots.begin(), own, [&](const CableSlot& other) {
            return other.label == slot.label;
        });
    const auto out = std::count_if(bench.cables.begin(),
                                   bench.cables.end(),
                                   [&](const Cable& cable) { return cable.label == slot.label; });
    return out > before;
}

std::vector<EndRef> endsAt(const Bench& bench, TerminalRef terminal) {
    std::vector<EndRef> ends;
    for (const Cable& cable : bench.cables) {
        for (int end = 0; end < 2; ++end) {
            if (cable.ends[end].at == terminal) ends.push_back({cable.id, end});
        }
    }
    return ends;
}

void dropLostProbes(Bench& bench) {
    if (!bench.meter) return;
    for (ProbeTip& tip : bench.meter->probes) {
        const bool noPart = tip.terminal && !findPart(bench, tip.terminal->part);
        const bool noCable = tip.cable && !findCable(bench, tip.cable);
        if (noPart || noCable) tip = {};
    }
}

// A quarter turn clockwise takes right to down: (x, y) -> (-y, x) with y down.
Point terminalAt(const Bench& bench, TerminalRef terminal) {
    const Part* part = findPart(bench, terminal.part);
    assert(part && terminal.terminal < spec(part->kind).terminals.size());
    const TerminalSpec& place = spec(part->kind).terminals[terminal.terminal];
    double x_m = place.x_m, y_m = place.y_m;
    for (int turn = 0; turn < part->quarterTurns; ++turn) {
        const double right_m = x_m;
        x_m = -y_m;
        y_m = right_m;
    }
    return {part->at_m.x_m + x_m, part->at_m.y_m + y_m};
}

Point endAt(const Bench& bench, const CableEnd& end) {
    return end.at ? terminalAt(bench, *end.at) : end.loose_m;
}

} // namespace loom::bench

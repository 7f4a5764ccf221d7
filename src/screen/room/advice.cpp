// SPDX-License-Identifier: MIT
#include "screen/room/advice.h"

#include "bench/catalogue.h"
#include "screen/sentences.h"

namespace loom::screen {
namespace {

std::string refOf(const bench::Bench& bench, bench::PartId id) {
    const bench::Part* part = bench::findPart(bench, id);
    return part ? part->ref : std::string();
}

std::string labelOf(const bench::Bench& bench, bench::CableId id) {
    const bench::Cable* cable = bench::findCable(bench, id);
    return cable ? cable->label : std::string();
}

struct InHand {
    const bench::Bench& bench;

    std::string operator()(std::monostate) const { return ""; }

    std::string operator()(const FromTray& held) const {
        return words("advice/part", {{"part", held.ref}});
    }

    std::string operator()(const PartInHand& held) const {
        return words("advice/part", {{"part", refOf(bench, held.part)}});
    }

    std::string operator()(const ReadyMade& held) const {
        return words("advice/cable", {{"cable", held.label}});
    }

    std::string operator()(const EndInHand& held) const {
        return words("advice/end", {{"cable", labelOf(bench, held.cable)}});
    }

    std::string operator()(const CableInHand&) const { return ""; }

    std::string operator()(const NewCable&) const { return words("advice/new-cable"); }

    std::string operator()(const FuseInHand& held) const {
        return words("advice/fuse", {{"rating", plainNumber(held.rating_A)}});
    }

    std::string operator()(const KeyInHand&) const { return words("advice/key"); }

    std::string operator()(const ProbeInHand&) const { return words("advice/probe"); }
};

} // namespace

std::string adviceForHand(const bench::Bench& bench, const BoardUi& ui) {
    return ui.carried ? "" : std::visit(InHand{bench}, ui.hand);
}

std::string adviceForTool(Tool tool) {
    switch (tool) {
    case Tool::Strip:
        return words("rail/strip-said");
    case Tool::Driver:
        return words("rail/driver-said");
    case Tool::Spanner:
        return words("rail/spanner-said");
    case Tool::Marker:
        return words("rail/marker-said");
    default:
        return "";
    }
}

std::string adviceForBench(const bench::Bench& bench) {
    if (bench.parts.empty()) return words("events/none");
    if (bench.parts.size() == 1) return words("advice/lay-more");
    if (bench.cables.empty()) return words(bench.kit.reels.empty() ? "advice/join" : "advice/wire");
    return words("advice/look");
}

} // namespace loom::screen

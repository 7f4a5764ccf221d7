// SPDX-License-Identifier: MIT
#include "screen/room/advice.h"

#include "bench/catalogue.h"
#include "screen/kit/part_words.h"
#include "screen/sentences.h"

namespace loom::screen {
namespace {

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

const bench::Cable* looseCable(const bench::Bench& bench) {
    for (const bench::Cable& cable : bench.cables)
        for (const bench::CableEnd& end : cable.ends)
            if (!end.at) return &cable;
    return nullptr;
}

bool hasPart(const bench::Bench& bench, bench::PartClass partClass) {
    for (const bench::Part& part : bench.parts)
        if (bench::isA(part, partClass)) return true;
    return false;
}

const bench::Part* isolatorOff(const bench::Bench& bench) {
    for (const bench::Part& part : bench.parts)
        if (bench::isA(part, bench::PartClass::Isolator) && part.position < bench::kIsolatorOn)
            return &part;
    return nullptr;
}

bool isLoad(bench::PartKind kind) {
    for (const auto load :
         {bench::PartClass::Lamp, bench::PartClass::Motor, bench::PartClass::Horn})
        if (bench::isA(kind, load)) return true;
    return false;
}

int endsOn(const bench::Bench& bench, bench::PartId part) {
    int ends = 0;
    for (const bench::Cable& cable : bench.cables)
        for (const bench::CableEnd& end : cable.ends)
            ends += end.at && end.at->part == part;
    return ends;
}

// A part waits for a cable, or every load is still in the tray: it is no time for the key.
bool isHalfWired(const bench::Bench& bench) {
    bool load = false, loadInTray = false;
    for (const bench::Part& part : bench.parts) {
        load = load || isLoad(part.kind);
        if (!bench::isA(part, bench::PartClass::Block) && endsOn(bench, part.id) < 2) return true;
    }
    for (const bench::PartSlot& slot : bench.kit.parts)
        loadInTray = loadInTray || (isLoad(slot.kind) && !bench::isOut(bench, slot));
    return loadInTray && !load;
}

// A switch or a button that is at rest.
bool canSwitchOn(const bench::Bench& bench) {
    for (const bench::Part& part : bench.parts)
        for (const auto kind :
             {bench::PartClass::Switch, bench::PartClass::LampSwitch, bench::PartClass::Button})
            if (bench::isA(part, kind) && part.position == bench::spec(part.kind).restPosition)
                return true;
    return false;
}

const bench::Part* darkLamp(const attempt::Attempt& attempt) {
    constexpr double kDark = 0.05; // of its rated light
    for (const bench::Part& part : attempt.bench().parts)
        if (bench::isA(part, bench::PartClass::Lamp) && attempt.reading(part.id).brightness < kDark)
            return &part;
    return nullptr;
}

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

Advice adviceForBench(const lesson::Session& session) {
    const attempt::Attempt& attempt = session.attempt();
    const bench::Bench& bench = attempt.bench();
    const auto of = [](const char* key, const std::string& name) {
        return Advice{words(key, {{"name", name}}), false};
    };
    if (isSolved(session)) return {words("advice/solved"), true};
    if (bench.parts.empty()) return {words("events/none")};
    if (bench.parts.size() == 1) return {words("advice/lay-more")};
    if (bench.cables.empty())
        return {words(bench.kit.reels.empty() ? "advice/join" : "advice/wire")};
    if (const bench::Cable* cable = looseCable(bench)) return of("advice/loose", cable->label);
    if (!hasPart(bench, bench::PartClass::Battery)) return {words("advice/no-battery")};
    const bench::Part* isolator = isolatorOff(bench);
    if (isolator && isHalfWired(bench))
        return {words(bench.kit.reels.empty() ? "advice/join" : "advice/wire")};
    if (isolator)
        return of(isolator->position == 0 ? "advice/key-out" : "advice/isolator-off",
                  isolator->ref);
    if (canSwitchOn(bench)) return {words("advice/look")};
    if (const bench::Part* lamp = darkLamp(attempt)) return of("advice/dark", lamp->ref);
    return {words("advice/tap")};
}

bool isSolved(const lesson::Session& session) {
    return session.verdict() && session.verdict()->solved() && !session.verdictIsStale();
}

} // namespace loom::screen

// SPDX-License-Identifier: MIT
#include "attempt/wear.h"

#include "bench/wiring.h"

namespace loom::attempt {

namespace {

using bench::CableCondition;
using bench::Condition;
using circuit::EventKind;

std::optional<Condition> partMark(EventKind kind) {
    switch (kind) {
    case EventKind::FuseMelted:
    case EventKind::LampFailed:
        return Condition::Open;
    case EventKind::ContactWelded:
        return Condition::Welded;
    default:
        return std::nullopt;
    }
}

std::optional<CableCondition> cableMark(EventKind kind) {
    switch (kind) {
    case EventKind::SleeveSoftened:
        return CableCondition::Softened;
    case EventKind::SleeveSmoking:
    case EventKind::SleeveBurning:
        return CableCondition::Charred;
    case EventKind::CableParted:
        return CableCondition::Parted;
    default:
        return std::nullopt;
    }
}

} // namespace

std::optional<bench::Edit> wearFrom(const circuit::Event& event, const bench::Bench& bench) {
    const auto strand = bench::strandOf(event.element);
    if (strand && event.kind == EventKind::CableParted) {
        const bench::Cable* cable = bench::findCable(bench, strand->cable);
        if (cable) return bench::WearEnd{strand->cable, strand->end};
    }
    const bool meterFuse = event.element == bench::meterKey(bench::MeterElement::Fuse);
    if (meterFuse && bench.meter && event.kind == EventKind::FuseMelted) return bench::WearMeter{};
    if (const bench::Part* part = bench::findPart(bench, bench::partOf(event.element))) {
        const auto mark = partMark(event.kind);
        if (mark) return bench::WearPart{part->id, *mark};
    }
    if (const bench::Cable* cable = bench::findCable(bench, bench::cableOf(event.element))) {
        const auto mark = cableMark(event.kind);
        if (mark && *mark > cable->condition) return bench::WearCable{cable->id, *mark};
    }
    return std::nullopt;
}

} // namespace loom::attempt

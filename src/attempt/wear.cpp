// SPDX-License-Identifier: MIT
#include "attempt/wear.h"

#include "bench/wiring.h"

namespace loom::attempt {

namespace {

using bench::CableCondition;
using bench::Condition;
using circuit::EventKind;
using circuit::Lasting;

std::optional<Condition> partMark(Lasting lasting) {
    if (lasting == Lasting::Opened) return Condition::Open;
    if (lasting == Lasting::Welded) return Condition::Welded;
    return std::nullopt;
}

std::optional<CableCondition> cableMark(Lasting lasting) {
    if (lasting == Lasting::Softened) return CableCondition::Softened;
    if (lasting == Lasting::Charred) return CableCondition::Charred;
    if (lasting == Lasting::Parted) return CableCondition::Parted;
    return std::nullopt;
}

} // namespace

std::optional<bench::Edit> wearFrom(const circuit::Event& event, const bench::Bench& bench) {
    const Lasting lasting = circuit::rowOf(event.kind).lasting;
    const auto strand = bench::strandOf(event.element);
    if (strand && event.kind == EventKind::CableParted) {
        const bench::Cable* cable = bench::findCable(bench, strand->cable);
        if (cable) return bench::WearEnd{strand->cable, strand->end};
    }
    const bool meterFuse = event.element == bench::meterKey(bench::MeterElement::Fuse);
    if (meterFuse && bench.meter && event.kind == EventKind::FuseMelted) return bench::WearMeter{};
    if (const bench::Part* part = bench::findPart(bench, bench::partOf(event.element))) {
        const auto mark = partMark(lasting);
        if (mark) return bench::WearPart{part->id, *mark};
    }
    if (const bench::Cable* cable = bench::findCable(bench, bench::cableOf(event.element))) {
        const auto mark = cableMark(lasting);
        if (mark && *mark > cable->condition) return bench::WearCable{cable->id, *mark};
    }
    return std::nullopt;
}

} // namespace loom::attempt

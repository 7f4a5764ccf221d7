// SPDX-License-Identifier: MIT
#include "bench/edit.h"

#include "bench/edit_rules.h"
#include "bench/limits.h"

#include <algorithm>
#include <cmath>

namespace loom::bench {

const EditRow& rowOf(const Edit& edit) {
    return std::visit([](const auto& asked) -> const EditRow& { return asked.kRow; }, edit);
}

Outcome<Bench> apply(const Bench& bench, const Edit& edit) {
    return std::visit([&](const auto& asked) { return edited(bench, asked); }, edit);
}

std::optional<Refusal> whyNotPoint(const Phrase& place, Point point) {
    for (const double value : {point.x_m, point.y_m}) {
        if (!std::isfinite(value))
            return Refusal{Why::NotANumber, place, phrase("a-point-on-the-board"), numeral(value)};
    }
    return std::nullopt;
}

Part* partIn(Bench& bench, PartId id) {
    return const_cast<Part*>(findPart(bench, id));
}

Refusal noSuchPart(PartId id) {
    return {Why::UnknownPart,
            phrase("part-n", {{"n", numeral(id.number)}}),
            phrase("a-part-on-the-bench"),
            phrase("none")};
}

Cable* cableIn(Bench& bench, CableId id) {
    return const_cast<Cable*>(findCable(bench, id));
}

Refusal noSuchCable(CableId id) {
    return {Why::UnknownCable,
            phrase("cable-n", {{"n", numeral(id.number)}}),
            phrase("a-cable-on-the-bench"),
            phrase("none")};
}

std::optional<Refusal> whyNotEnd(const Bench& bench, CableId id, int end) {
    const Cable* cable = findCable(bench, id);
    if (!cable) return noSuchCable(id);
    if (end == 0 || end == 1) return std::nullopt;
    return Refusal{Why::OutOfRange, cable->label, phrase("end-0-or-1"), numeral(end)};
}

bool isReadyMade(const Bench& bench, const std::string& label) {
    const std::vector<CableSlot>& slots = bench.kit.readyMade;
    return std::any_of(
        slots.begin(), slots.end(), [&](const CableSlot& slot) { return slot.label == label; });
}

Point ontoBoard(const Bench& bench, Point point) {
    return {std::clamp(point.x_m, 0.0, bench.board_m.x_m),
            std::clamp(point.y_m, 0.0, bench.board_m.y_m)};
}

} // namespace loom::bench

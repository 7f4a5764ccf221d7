// SPDX-License-Identifier: MIT
#include "attempt/part_kinds.h"

namespace loom::attempt {

PartKinds::PartKinds(const bench::Bench& start) : lastId(start.lastId) {
    for (const bench::PartSlot& slot : start.kit.parts)
        byRef.emplace(slot.ref, slot.kind);
    for (const bench::Part& part : start.parts) {
        byRef.emplace(part.ref, part.kind); // it gets a slot when it is removed
        byId.emplace(part.id, part.kind);
    }
}

void PartKinds::follow(const Command& command) {
    const auto* edit = std::get_if<bench::Edit>(&command);
    if (!edit) return;
    if (!bench::rowOf(*edit).takesId) return;
    ++lastId;
    const auto* laid = std::get_if<bench::LayPart>(edit);
    const auto kind = laid ? byRef.find(laid->ref) : byRef.end();
    if (kind != byRef.end()) byId.emplace(bench::PartId{lastId}, kind->second);
}

std::optional<bench::PartKind> PartKinds::kindOf(bench::PartId part) const {
    const auto found = byId.find(part);
    if (found == byId.end()) return std::nullopt;
    return found->second;
}

} // namespace loom::attempt

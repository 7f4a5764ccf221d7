// SPDX-License-Identifier: MIT
// What an element carries over when the network around it is changed.
#include "circuit/network.h"

#include <algorithm>

namespace loom::circuit {

void Network::carryOver(const Network& old, const Solution& then, double now_s) {
    std::vector<std::pair<Key, std::uint32_t>> byKey;
    for (std::uint32_t e = 0; e < old.where.size(); ++e)
        if (old.where[e].placed == Placed::Model)
            byKey.emplace_back(old.netlist.elements[e].key, e);
    std::sort(byKey.begin(), byKey.end());
    for (std::uint32_t e = 0; e < where.size(); ++e) {
        if (where[e].placed != Placed::Model) continue;
        const Key key = netlist.elements[e].key;
        const auto found = std::lower_bound(byKey.begin(), byKey.end(), std::make_pair(key, 0u));
        if (found == byKey.end() || found->first != key) continue;
        const Where& was = old.where[found->second];
        if (was.model != where[e].model) continue;
        const Part &older = old.netlist.elements[found->second].part,
                   &newer = netlist.elements[e].part;
        const Carry carry{
            old.models, then, models, states.value, now_s, was.entry.index, where[e].entry.index};
        models.at(was.model, [&](auto& model) {
            using Kind = std::decay_t<decltype(model)>;
            using Spec = typename Kind::Spec;
            if (!Kind::replaced(std::get<Spec>(older), std::get<Spec>(newer)))
                model.carryOver(carry);
        });
    }
    modelsChanged();
}

} // namespace loom::circuit

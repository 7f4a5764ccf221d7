// SPDX-License-Identifier: MIT
#include "circuit/check.h"

#include "circuit/models.h"

#include <algorithm>

namespace loom::circuit {

namespace {

bool valid(const Part& part) {
    return std::visit(
        [](const auto& spec) { return Models::For<std::decay_t<decltype(spec)>>::valid(spec); },
        part);
}

} // namespace

std::vector<Node> nodesOf(const Part& part) {
    return std::visit(
        [](const auto& spec) { return Models::For<std::decay_t<decltype(spec)>>::nodes(spec); },
        part);
}

std::vector<char> usable(const Netlist& netlist) {
    std::vector<char> fine(netlist.elements.size(), 1);
    std::vector<std::pair<Key, std::size_t>> names;
    for (std::size_t e = 0; e < netlist.elements.size(); ++e) {
        const Element& element = netlist.elements[e];
        names.emplace_back(element.key, e);
        fine[e] = element.key != 0 && valid(element.part);
        for (Node n : nodesOf(element.part))
            if (n >= netlist.nodeCount) fine[e] = 0;
    }
    std::sort(names.begin(), names.end());
    for (std::size_t k = 1; k < names.size(); ++k)
        if (names[k].first == names[k - 1].first) fine[names[k].second] = 0;
    return fine;
}

} // namespace loom::circuit

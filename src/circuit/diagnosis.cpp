// SPDX-License-Identifier: MIT
#include "circuit/diagnosis.h"

#include "circuit/check.h"

#include <algorithm>

namespace loom::circuit {

namespace {

bool feeds(const Part& part) {
    return std::visit(
        [](const auto& spec) { return Models::For<std::decay_t<decltype(spec)>>::feeds(spec); },
        part);
}

class Groups {
public:
    explicit Groups(std::uint32_t n) : root(n) {
        for (std::uint32_t k = 0; k < n; ++k)
            root[k] = k;
    }

    std::uint32_t find(std::uint32_t k) {
        while (root[k] != k)
            k = root[k] = root[root[k]];
        return k;
    }

    void join(std::uint32_t a, std::uint32_t b) {
        a = find(a);
        b = find(b);
        root[std::max(a, b)] = std::min(a, b);
    }

private:
    std::vector<std::uint32_t> root;
};

void explainFloating(const Network& net, std::vector<Diagnosis>& out) {
    const std::vector<std::uint32_t> island = net.islands();
    const std::vector<Element>& elements = net.netlist.elements;
    std::vector<char> fed(net.netlist.nodeCount, 0); // by island
    for (std::size_t e = 0; e < elements.size(); ++e)
        if (net.where[e].placed != Placed::Nowhere && feeds(elements[e].part))
            for (Node n : nodesOf(elements[e].part))
                fed[island[n]] = 1;
    Groups groups(net.netlist.nodeCount);
    std::vector<std::uint32_t> floating;
    for (std::uint32_t e = 0; e < elements.size(); ++e) {
        if (net.where[e].placed == Placed::Nowhere) continue;
        const std::vector<Node> nodes = nodesOf(elements[e].part);
        if (std::any_of(nodes.begin(), nodes.end(), [&](Node n) { return fed[island[n]] != 0; }))
            continue;
        floating.push_back(e);
        for (Node n : nodes)
            groups.join(nodes.front(), n);
    }
    std::vector<std::pair<std::uint32_t, Key>> sorted;
    for (std::uint32_t e : floating)
        sorted.emplace_back(groups.find(nodesOf(elements[e].part).front()), elements[e].key);
    std::sort(sorted.begin(), sorted.end());
    for (std::size_t k = 0; k < sorted.size(); ++k) {
        if (k == 0 || sorted[k].first != sorted[k - 1].first)
            out.push_back({DiagnosisKind::Floating, {}});
        out.back().elements.push_back(sorted[k].second);
    }
}

} // namespace

std::vector<Diagnosis> explain(const Network& net, bool unsettled) {
    std::vector<Diagnosis> out;
    Diagnosis bad{DiagnosisKind::BadValue, {}}, contradictory{DiagnosisKind::Contradictory, {}};
    for (std::size_t e = 0; e < net.where.size(); ++e)
        if (net.where[e].placed == Placed::Nowhere)
            bad.elements.push_back(net.netlist.elements[e].key);
    for (std::uint32_t e : net.joins.contradictory)
        contradictory.elements.push_back(net.netlist.elements[e].key);
    net.models.each([&](const auto& model) { model.contradicting(contradictory.elements); });
    if (!bad.elements.empty()) out.push_back(bad);
    if (!contradictory.elements.empty()) out.push_back(contradictory);
    explainFloating(net, out);
    if (unsettled) out.push_back({DiagnosisKind::DidNotSettle, {}});
    return out;
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
#include "circuit/findings.h"

#include "circuit/check.h"

#include <algorithm>

namespace loom::circuit {

namespace {

bool isSource(const Part& part) {
    if (const auto* p = std::get_if<Capacitor>(&part)) return p->initial_V != 0.0;
    if (const auto* p = std::get_if<Inductor>(&part)) return p->initial_A != 0.0;
    return std::holds_alternative<VoltageSource>(part) ||
           std::holds_alternative<CurrentSource>(part) || std::holds_alternative<Battery>(part);
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

void explainFloating(const Network& net, std::vector<Finding>& out) {
    const std::vector<std::uint32_t> island = net.islands();
    const std::vector<Element>& elements = net.netlist.elements;
    std::vector<char> fed(net.netlist.nodeCount, 0); // by island
    for (std::size_t e = 0; e < elements.size(); ++e)
        if (net.where[e].kind != Kind::Unusable && isSource(elements[e].part))
            for (Node n : nodesOf(elements[e].part))
                fed[island[n]] = 1;
    Groups groups(net.netlist.nodeCount);
    std::vector<std::uint32_t> floating;
    for (std::uint32_t e = 0; e < elements.size(); ++e) {
        if (net.where[e].kind == Kind::Unusable) continue;
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
            out.push_back({FindingKind::Floating, {}});
        out.back().elements.push_back(sorted[k].second);
    }
}

// A current source whose current has no way back.
void explainStranded(const Network& net, std::vector<Key>& out) {
    for (std::size_t e = 0; e < net.where.size(); ++e) {
        const Where& w = net.where[e];
        if (w.kind == Kind::Source && net.sources[w.part].side != 0)
            out.push_back(net.netlist.elements[e].key);
    }
}

} // namespace

std::vector<Finding> explain(const Network& net, bool unsettled) {
    std::vector<Finding> out;
    Finding bad{FindingKind::BadValue, {}}, contradictory{FindingKind::Contradictory, {}};
    for (std::size_t e = 0; e < net.where.size(); ++e)
        if (net.where[e].kind == Kind::Unusable)
            bad.elements.push_back(net.netlist.elements[e].key);
    for (std::uint32_t e : net.joins.contradictory)
        contradictory.elements.push_back(net.netlist.elements[e].key);
    explainStranded(net, contradictory.elements);
    if (!bad.elements.empty()) out.push_back(bad);
    if (!contradictory.elements.empty()) out.push_back(contradictory);
    explainFloating(net, out);
    if (unsettled) out.push_back({FindingKind::DidNotSettle, {}});
    return out;
}

} // namespace loom::circuit

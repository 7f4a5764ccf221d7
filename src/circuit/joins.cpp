// SPDX-License-Identifier: MIT
#include "circuit/joins.h"

#include <algorithm>
#include <cmath>

namespace loom::circuit {

namespace {

struct Adjacent {
    std::vector<std::uint32_t> start, edge; // edges of node n: edge[start[n] .. start[n+1])
};

Adjacent adjacency(std::uint32_t nodeCount, const std::vector<IdealEdge>& edges) {
    Adjacent adj;
    adj.start.assign(nodeCount + 1, 0);
    for (const IdealEdge& e : edges) {
        ++adj.start[e.a + 1];
        ++adj.start[e.b + 1];
    }
    for (std::uint32_t n = 0; n < nodeCount; ++n)
        adj.start[n + 1] += adj.start[n];
    adj.edge.resize(2 * edges.size());
    std::vector<std::uint32_t> fill(adj.start.begin(), adj.start.end() - 1);
    for (std::uint32_t k = 0; k < edges.size(); ++k) {
        adj.edge[fill[edges[k].a]++] = k;
        adj.edge[fill[edges[k].b]++] = k;
    }
    return adj;
}

// Depth-first search for bridges (Tarjan 1974): an edge is a bridge when nothing below it reaches
// above it by another edge. Iterative, because a chain may be thousands long.
class Bridges {
public:
    Bridges(std::uint32_t nodeCount, const std::vector<IdealEdge>& idealEdges)
        : edges(idealEdges), adj(adjacency(nodeCount, idealEdges)), entered(nodeCount, 0),
          low(nodeCount, 0), bridge(idealEdges.size(), 0) {
        for (std::uint32_t n = 0; n < nodeCount; ++n)
            if (entered[n] == 0 && adj.start[n] != adj.start[n + 1]) walk(n);
    }

    std::vector<char> take() { return std::move(bridge); }

private:
    struct Frame {
        Node node;
        std::uint32_t next, by; // next adjacent edge to look at; edge it was entered by
    };

    void walk(Node root) {
        constexpr std::uint32_t kNone = 0xFFFFFFFFu;
        std::vector<Frame> stack;
        const auto enter = [&](Node n, std::uint32_t by) {
            entered[n] = low[n] = ++clock;
            stack.push_back({n, adj.start[n], by});
        };
        enter(root, kNone);
        while (!stack.empty()) {
            Frame& top = stack.back();
            if (top.next == adj.start[top.node + 1]) {
                const Frame done = top;
                stack.pop_back();
                if (stack.empty()) break;
                const Node above = stack.back().node;
                low[above] = std::min(low[above], low[done.node]);
                if (low[done.node] > entered[above]) bridge[done.by] = 1;
                continue;
            }
            const std::uint32_t k = adj.edge[top.next++];
            const Node at = top.node, other = edges[k].a == at ? edges[k].b : edges[k].a;
            if (k == top.by || other == at) continue;
            if (entered[other] == 0)
                enter(other, k);
            else
                low[at] = std::min(low[at], entered[other]);
        }
    }

    const std::vector<IdealEdge>& edges;
    Adjacent adj;
    std::vector<std::uint32_t> entered, low;
    std::vector<char> bridge;
    std::uint32_t clock = 0;
};

// Voltage of every node against the root of its ideal group, over all ideal edges; an edge that
// does not fit belongs to a contradictory loop.
std::vector<std::uint32_t> misfits(std::uint32_t nodeCount,
                                   const std::vector<IdealEdge>& edges,
                                   const std::vector<char>& bridge) {
    const Adjacent adj = adjacency(nodeCount, edges);
    std::vector<char> seen(nodeCount, 0);
    std::vector<double> volts(nodeCount, 0.0);
    std::vector<Node> queue;
    std::vector<std::uint32_t> elements;
    for (Node root = 0; root < nodeCount; ++root) {
        if (seen[root] || adj.start[root] == adj.start[root + 1]) continue;
        // One search stays within loops (no bridges), so a misfit names its own loops only.
        queue.assign(1, root);
        seen[root] = 1;
        std::vector<std::uint32_t> group;
        bool misfit = false;
        for (std::size_t q = 0; q < queue.size(); ++q)
            for (std::uint32_t p = adj.start[queue[q]]; p < adj.start[queue[q] + 1]; ++p) {
                const IdealEdge& e = edges[adj.edge[p]];
                if (bridge[adj.edge[p]]) continue;
                group.push_back(e.element);
                const Node other = e.a == queue[q] ? e.b : e.a;
                const double v =
                    e.a == queue[q] ? volts[queue[q]] - e.emf_V : volts[queue[q]] + e.emf_V;
                if (!seen[other]) {
                    seen[other] = 1;
                    volts[other] = v;
                    queue.push_back(other);
                } else if (std::fabs(volts[other] - v) >
                           1e-9 * (std::fabs(v) + std::fabs(e.emf_V))) {
                    misfit = true;
                }
            }
        if (misfit) elements.insert(elements.end(), group.begin(), group.end());
    }
    std::sort(elements.begin(), elements.end());
    elements.erase(std::unique(elements.begin(), elements.end()), elements.end());
    return elements;
}

// Hangs every node on the root of its tree of bridges.
void hang(std::uint32_t nodeCount,
          const std::vector<IdealEdge>& edges,
          const std::vector<char>& bridge,
          Joins& joins) {
    constexpr std::uint32_t kUnseen = 0xFFFFFFFFu;
    const Adjacent adj = adjacency(nodeCount, edges);
    joins.unknown.assign(nodeCount, kUnseen);
    joins.offset_V.assign(nodeCount, 0.0);
    std::vector<Node> queue;
    for (Node root = 0; root < nodeCount; ++root) {
        if (joins.unknown[root] != kUnseen) continue;
        joins.unknown[root] = joins.unknowns++;
        queue.assign(1, root);
        for (std::size_t q = 0; q < queue.size(); ++q) {
            const Node at = queue[q];
            for (std::uint32_t p = adj.start[at]; p < adj.start[at + 1]; ++p) {
                const IdealEdge& e = edges[adj.edge[p]];
                const Node other = e.a == at ? e.b : e.a;
                if (!bridge[adj.edge[p]] || joins.unknown[other] != kUnseen) continue;
                joins.unknown[other] = joins.unknown[at];
                joins.offset_V[other] = joins.offset_V[at] + (e.a == at ? -e.emf_V : e.emf_V);
                joins.tree.push_back({e.element, at, other, e.a == at});
                queue.push_back(other);
            }
        }
    }
}

} // namespace

Joins joinIdeal(std::uint32_t nodeCount, const std::vector<IdealEdge>& edges) {
    Joins joins;
    const std::vector<char> bridge = Bridges(nodeCount, edges).take();
    hang(nodeCount, edges, bridge, joins);
    for (std::size_t k = 0; k < edges.size(); ++k)
        if (!bridge[k]) joins.resistive.push_back(edges[k]);
    joins.contradictory = misfits(nodeCount, edges, bridge);
    return joins;
}

} // namespace loom::circuit

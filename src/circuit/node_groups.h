// SPDX-License-Identifier: MIT
// Nodes in groups, which only grow: join(), then ask whether two have the same top().
// Disjoint sets with halved paths.
#pragma once

#include "circuit/netlist.h"

#include <cstddef>
#include <numeric>
#include <vector>

namespace loom::circuit {

class NodeGroups {
public:
    // Each node alone.
    explicit NodeGroups(std::size_t count) : above(count) {
        std::iota(above.begin(), above.end(), Node{0});
    }

    void join(Node a, Node b) { above[top(a)] = top(b); }

    // The one node that stands for its group until that grows.
    Node top(Node node) {
        while (above[node] != node)
            node = above[node] = above[above[node]];
        return node;
    }

    std::vector<Node> tops() {
        std::vector<Node> all(above.size());
        for (Node node = 0; node < all.size(); ++node)
            all[node] = top(node);
        return all;
    }

private:
    std::vector<Node> above;
};

} // namespace loom::circuit

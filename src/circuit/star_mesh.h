// SPDX-License-Identifier: MIT
// Solves a network of conductances: given the currents injected at its nodes, the node voltages.
// analyse() once a topology, then set conductances and factor() when one changed, then solve().
// It knows no elements, no sources and no time. Thousands of nodes are fine; nothing is allocated
// outside analyse().
//
// Method: elimination of one node after another by the star-mesh transformation.
//   Node k with conductances g_kj to its remaining neighbours, d = sum_j g_kj:
//     l_kj = g_kj / d,   g_ij += g_ki l_kj  for each pair of neighbours,   J_j += l_kj J_k,
//     and backwards  v_k = J_k / d + sum_j l_kj v_j.            g in S, J in A, v in V.
//   This is Gaussian elimination of the symmetric nodal matrix with the diagonal never formed.
//   Only positive numbers are added, so no digits cancel: every factor has a relative error of a
//   few rounding errors a node even with 0.4 mohm beside 10 Mohm, where the usual form loses half
//   its digits, and no pivoting is needed. Source: Grassmann, Taksar, Heyman, "Regenerative analysis
//   and steady state distributions for Markov chains", Oper. Res. 33 (1985); error analysis:
//   O'Cinneide, Numer. Math. 65 (1993) (both from memory).
//   A node left with d = 0 exactly ends its island: it becomes that island's 0 V. So floating
//   islands need no special case and no leak.
// Order: approximate minimum degree (Eigen). analyse() tells it; every other call counts nodes in
// that order, so that nothing is moved to and fro. Tested: star_mesh_test.
#pragma once

#include <cstdint>
#include <vector>

namespace loom::circuit {

struct MeshEdge {
    std::uint32_t a = 0, b = 0; // nodes; a == b has no slot
};

// place[k]: when node k is best eliminated, 0 first. A permutation of 0..nodeCount-1.
std::vector<std::uint32_t> eliminationPlaces(std::uint32_t nodeCount,
                                             const std::vector<MeshEdge>& edges);

class StarMesh {
public:
    // Lays out the factor for nodes numbered in the order of their elimination. Returns the slot of
    // each edge in conductances(), -1 for an edge from a node to itself. Edges between the same
    // nodes share a slot: add to it.
    std::vector<std::int32_t> analyse(std::uint32_t nodeCount, const std::vector<MeshEdge>& edges);

    // All slots, to be filled with values >= 0 before factor().
    std::vector<double>& conductances() { return g; }

    void factor();

    // Takes the currents flowing into each node, A; leaves the voltages there, V.
    void solve(double* x) const;

    std::size_t factorSize() const { return row.size(); }

private:
    void lay(const std::vector<std::vector<std::uint32_t>>& pattern);
    void eliminateDense(std::uint32_t k);

    struct Update { // work[into] += work[from] * l[by]
        std::uint32_t into, from, by;
    };

    std::uint32_t n = 0;
    std::uint32_t denseFrom = 0;            // from this column on all later nodes are neighbours
    std::vector<std::uint32_t> start;       // column k is [start[k], start[k+1])
    std::vector<std::uint32_t> row, column; // of each entry
    std::vector<std::uint32_t> updateStart; // by column
    std::vector<Update> updates;
    std::vector<double> g, work, l, perD;
};

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
// Solves a network of conductances and voltages in series with them for the node voltages.
// analyse() once a topology; set conductances() and factor() when one changed; set currents() and
// solve(). It knows no elements, no sources and no time. Thousands of nodes are fine; nothing is
// allocated outside analyse().
//
// Why not a library's sparse LU: on a bench 0.4 mohm lie beside 10 Mohm, and there its subtractions
// lose the digits of small currents, which this keeps; and it is as fast (tests/benchmarks/circuit.cpp
// holds a whole step against one refactor and solve of KLU). KLU and Eigen check it in tests/physics.
//
// Method: elimination of one node after another by the star-mesh transformation.
//   An edge k-j passes the current g (v_k - v_j) + t from k to j.  g >= 0 in S, t in A, v in V.
//   Node k, d = sum_j g_kj over its remaining neighbours, l_kj = g_kj / d:
//     v_k = sum_j l_kj v_j - (sum_j t_kj) / d,
//     and for each pair i, j of neighbours  g_ij += g_ki l_kj,  t_ij += l_ki t_kj - l_kj t_ki.
//   This is Gaussian elimination of the symmetric nodal matrix with its diagonal never formed, so
//   g only ever adds positive numbers: no digits cancel and no pivoting is needed, with 0.4 mohm
//   beside 10 Mohm as well. What rounding leaves in t_ij is in proportion to g_ij, that is, a
//   rounding of volts; as currents into nodes it would be a rounding of the greatest current, let
//   loose on the smallest conductance.
//   Source for g: Grassmann, Taksar, Heyman, "Regenerative analysis and steady state distributions
//   for Markov chains", Oper. Res. 33 (1985); O'Cinneide, Numer. Math. 65 (1993) on its errors (both
//   from memory). For t: Kirchhoff's law at k, substituted, by hand.
//   A node left with d = 0 exactly ends its island: it becomes that island's 0 V. So floating
//   islands need no special case and no leak.
//   Where all that is left is one full mesh (the dense tail), t is turned into currents into nodes,
//   which costs a square of its size each time instead of a cube.
// Order: minimum degree, sorted by level. Every call counts nodes in that order,
// so that nothing is moved to and fro. Tested: star_mesh_test.
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

    // All slots, to be filled with values >= 0 before factor(), which uses them up.
    std::vector<double>& conductances() { return g; }

    void factor();

    // t of every slot, A, counted from the edge's lower node to its higher; solve() uses them up.
    std::vector<double>& currents() { return t; }

    // Leaves the node voltages, V, in x.
    void solve(double* x);
    // The same with x holding currents forced into the nodes from outside, A, and no others.
    void solveForced(double* x) const;

private:
    // Columns that follow one another and have equally many entries. When the nodes were numbered by
    // eliminationPlaces(), hardly one in a run depends on another.
    struct Run {
        std::uint32_t begin, end, count;
    };

    void lay(const std::vector<std::vector<std::uint32_t>>& pattern);
    template <std::uint32_t Count>
    const std::uint32_t* factorRun(const Run& run, const std::uint32_t* to);
    template <std::uint32_t Count>
    const std::uint32_t* passRun(const Run& run, const std::uint32_t* to);
    template <std::uint32_t Count> void returnRun(const Run& run, double* x) const;
    void eliminateDense(std::uint32_t k);
    void solveTail(double* x) const;

    std::uint32_t n = 0;
    std::uint32_t denseFrom = 0;      // from this column on all later nodes are neighbours
    std::vector<std::uint32_t> start; // column k is [start[k], start[k+1])
    std::vector<std::uint32_t> row;   // of each entry
    std::vector<Run> runs;            // of the columns before the dense tail
    std::vector<std::uint32_t> into;  // where each pair of neighbours adds up, column by column
    std::vector<double> g, l, perD, t;
};

} // namespace loom::circuit

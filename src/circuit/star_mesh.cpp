// SPDX-License-Identifier: MIT
#include "circuit/star_mesh.h"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <algorithm>

namespace loom::circuit {

namespace {

using Pattern = std::vector<std::vector<std::uint32_t>>;

std::vector<std::uint32_t> minimumDegreeOrder(std::uint32_t n,
                                              const std::vector<StarMesh::Edge>& edges) {
    std::vector<Eigen::Triplet<double, int>> entries;
    entries.reserve(2 * edges.size() + n);
    for (std::uint32_t k = 0; k < n; ++k)
        entries.emplace_back(int(k), int(k), 1.0);
    for (const StarMesh::Edge& e : edges) {
        if (e.a == e.b) continue;
        entries.emplace_back(int(e.a), int(e.b), 1.0);
        entries.emplace_back(int(e.b), int(e.a), 1.0);
    }
    Eigen::SparseMatrix<double, Eigen::ColMajor, int> m(static_cast<int>(n), static_cast<int>(n));
    m.setFromTriplets(entries.begin(), entries.end());
    Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> p;
    Eigen::AMDOrdering<int>()(m, p);
    std::vector<std::uint32_t> order(n);
    for (std::uint32_t k = 0; k < n; ++k)
        order[k] = static_cast<std::uint32_t>(p.indices()[k]);
    return order;
}

// Neighbours of each eliminated node among the later ones, with what elimination adds: the pattern
// of a column passes on to the column of its first neighbour.
Pattern eliminationPattern(std::uint32_t n, Pattern column) {
    std::vector<std::vector<std::uint32_t>> children(n);
    std::vector<std::uint32_t> seenAt(n, n);
    for (std::uint32_t k = 0; k < n; ++k) {
        std::vector<std::uint32_t> merged;
        const auto take = [&](const std::vector<std::uint32_t>& rows) {
            for (std::uint32_t r : rows) {
                if (r <= k || seenAt[r] == k) continue;
                seenAt[r] = k;
                merged.push_back(r);
            }
        };
        take(column[k]);
        for (std::uint32_t child : children[k])
            take(column[child]);
        std::sort(merged.begin(), merged.end());
        if (!merged.empty()) children[merged.front()].push_back(k);
        column[k] = std::move(merged);
    }
    return column;
}

// The first column from which on filling all later columns completely costs little.
std::uint32_t denseTail(const Pattern& column) {
    const std::uint32_t n = static_cast<std::uint32_t>(column.size());
    std::uint32_t from = n;
    std::size_t filled = 0;
    for (std::uint32_t k = n; k-- > 0;) {
        filled += column[k].size();
        const std::size_t later = n - 1 - k, full = later * (later + 1) / 2;
        if (10 * filled < 7 * full) break;
        from = k;
    }
    return from;
}

} // namespace

std::vector<std::int32_t> StarMesh::analyse(std::uint32_t nodeCount,
                                            const std::vector<Edge>& edges) {
    n = nodeCount;
    order = minimumDegreeOrder(n, edges);
    std::vector<std::uint32_t> place(n);
    for (std::uint32_t k = 0; k < n; ++k)
        place[order[k]] = k;

    Pattern column(n);
    for (const Edge& e : edges)
        if (e.a != e.b) {
            const auto [low, high] = std::minmax(place[e.a], place[e.b]);
            column[low].push_back(high);
        }
    column = eliminationPattern(n, std::move(column));
    denseFrom = denseTail(column);
    for (std::uint32_t k = denseFrom; k < n; ++k) {
        column[k].clear();
        for (std::uint32_t r = k + 1; r < n; ++r)
            column[k].push_back(r);
    }
    lay(column);

    std::vector<std::int32_t> slots(edges.size(), -1);
    for (std::size_t e = 0; e < edges.size(); ++e) {
        if (edges[e].a == edges[e].b) continue;
        const auto [low, high] = std::minmax(place[edges[e].a], place[edges[e].b]);
        const auto at =
            std::lower_bound(row.begin() + start[low], row.begin() + start[low + 1], high);
        slots[e] = static_cast<std::int32_t>(at - row.begin());
    }
    return slots;
}

void StarMesh::lay(const Pattern& column) {
    start.assign(n + 1, 0);
    row.clear();
    target.clear();
    for (std::uint32_t k = 0; k < n; ++k) {
        row.insert(row.end(), column[k].begin(), column[k].end());
        start[k + 1] = static_cast<std::uint32_t>(row.size());
    }
    for (std::uint32_t k = 0; k < denseFrom; ++k)
        for (std::uint32_t p = start[k]; p < start[k + 1]; ++p) {
            auto at = row.begin() + start[row[p]];
            const auto end = row.begin() + start[row[p] + 1];
            for (std::uint32_t q = p + 1; q < start[k + 1]; ++q) {
                at = std::lower_bound(at, end, row[q]);
                target.push_back(static_cast<std::uint32_t>(at - row.begin()));
            }
        }
    g.assign(row.size(), 0.0);
    work.assign(row.size(), 0.0);
    l.assign(row.size(), 0.0);
    perD.assign(n, 0.0);
    x.assign(n, 0.0);
}

void StarMesh::eliminateSparse(std::uint32_t k, const std::uint32_t*& at) {
    const std::uint32_t begin = start[k], end = start[k + 1];
    for (std::uint32_t p = begin; p < end; ++p) {
        const double gp = work[p];
        for (std::uint32_t q = p + 1; q < end; ++q)
            work[*at++] += gp * l[q];
    }
}

void StarMesh::eliminateDense(std::uint32_t k) {
    const std::uint32_t begin = start[k], end = start[k + 1];
    for (std::uint32_t p = begin; p < end; ++p) {
        const double gp = work[p];
        double* into = work.data() + start[row[p]];
        for (std::uint32_t q = p + 1; q < end; ++q)
            *into++ += gp * l[q];
    }
}

void StarMesh::factor() {
    std::copy(g.begin(), g.end(), work.begin());
    const std::uint32_t* at = target.data();
    for (std::uint32_t k = 0; k < n; ++k) {
        double d = 0.0;
        for (std::uint32_t p = start[k]; p < start[k + 1]; ++p)
            d += work[p];
        perD[k] = d > 0.0 ? 1.0 / d : 0.0;
        for (std::uint32_t p = start[k]; p < start[k + 1]; ++p)
            l[p] = work[p] * perD[k];
        if (k < denseFrom)
            eliminateSparse(k, at);
        else
            eliminateDense(k);
    }
}

void StarMesh::solve(const double* inject_A, double* volts_V) {
    for (std::uint32_t k = 0; k < n; ++k)
        x[k] = inject_A[order[k]];
    for (std::uint32_t k = 0; k < n; ++k) {
        const double xk = x[k];
        for (std::uint32_t p = start[k]; p < start[k + 1]; ++p)
            x[row[p]] += l[p] * xk;
    }
    for (std::uint32_t k = n; k-- > 0;) {
        double s = x[k] * perD[k];
        for (std::uint32_t p = start[k]; p < start[k + 1]; ++p)
            s += l[p] * x[row[p]];
        x[k] = s;
    }
    for (std::uint32_t k = 0; k < n; ++k)
        volts_V[order[k]] = x[k];
}

} // namespace loom::circuit

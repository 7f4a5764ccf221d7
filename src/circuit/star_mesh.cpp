// SPDX-License-Identifier: MIT
#include "circuit/star_mesh.h"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <algorithm>

namespace loom::circuit {

namespace {

using Pattern = std::vector<std::vector<std::uint32_t>>;

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

// The first column from which on filling all later columns completely costs little; none when what
// remains is small, because a tail is less exact (star_mesh.h).
std::uint32_t denseTail(const Pattern& column) {
    constexpr std::uint32_t kWorthWhile = 64;
    const std::uint32_t n = static_cast<std::uint32_t>(column.size());
    std::uint32_t from = n;
    std::size_t filled = 0;
    for (std::uint32_t k = n; k-- > 0;) {
        filled += column[k].size();
        const std::size_t later = n - 1 - k, full = later * (later + 1) / 2;
        if (10 * filled < 7 * full) break;
        from = k;
    }
    return n - from < kWorthWhile ? n : from;
}

} // namespace

std::vector<std::uint32_t> eliminationPlaces(std::uint32_t n, const std::vector<MeshEdge>& edges) {
    using Matrix = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;
    std::vector<Eigen::Triplet<double, int>> entries;
    entries.reserve(2 * edges.size() + n);
    for (std::uint32_t k = 0; k < n; ++k)
        entries.emplace_back(int(k), int(k), 1.0);
    for (const MeshEdge& e : edges) {
        if (e.a == e.b) continue;
        entries.emplace_back(int(e.a), int(e.b), 1.0);
        entries.emplace_back(int(e.b), int(e.a), 1.0);
    }
    Matrix m(static_cast<int>(n), static_cast<int>(n));
    m.setFromTriplets(entries.begin(), entries.end());
    Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> order;
    Eigen::AMDOrdering<int>()(m, order);
    std::vector<std::uint32_t> places(n);
    for (std::uint32_t k = 0; k < n; ++k)
        places[static_cast<std::uint32_t>(order.indices()[k])] = k;
    return places;
}

std::vector<std::int32_t> StarMesh::analyse(std::uint32_t nodeCount,
                                            const std::vector<MeshEdge>& edges) {
    n = nodeCount;
    Pattern pattern(n);
    for (const MeshEdge& e : edges)
        if (e.a != e.b) pattern[std::min(e.a, e.b)].push_back(std::max(e.a, e.b));
    pattern = eliminationPattern(n, std::move(pattern));
    denseFrom = denseTail(pattern);
    for (std::uint32_t k = denseFrom; k < n; ++k) {
        pattern[k].clear();
        for (std::uint32_t r = k + 1; r < n; ++r)
            pattern[k].push_back(r);
    }
    lay(pattern);

    std::vector<std::int32_t> slots(edges.size(), -1);
    for (std::size_t e = 0; e < edges.size(); ++e) {
        const auto [low, high] = std::minmax(edges[e].a, edges[e].b);
        if (low == high) continue;
        const auto at =
            std::lower_bound(row.begin() + start[low], row.begin() + start[low + 1], high);
        slots[e] = static_cast<std::int32_t>(at - row.begin());
    }
    return slots;
}

void StarMesh::lay(const Pattern& pattern) {
    start.assign(n + 1, 0);
    updateStart.assign(n + 1, 0);
    row.clear();
    column.clear();
    updates.clear();
    for (std::uint32_t k = 0; k < n; ++k) {
        row.insert(row.end(), pattern[k].begin(), pattern[k].end());
        column.insert(column.end(), pattern[k].size(), k);
        start[k + 1] = static_cast<std::uint32_t>(row.size());
    }
    for (std::uint32_t k = 0; k < n; ++k) {
        for (std::uint32_t p = start[k]; k < denseFrom && p < start[k + 1]; ++p) {
            auto at = row.begin() + start[row[p]];
            const auto end = row.begin() + start[row[p] + 1];
            for (std::uint32_t q = p + 1; q < start[k + 1]; ++q) {
                at = std::lower_bound(at, end, row[q]);
                updates.push_back({static_cast<std::uint32_t>(at - row.begin()), p, q});
            }
        }
        updateStart[k + 1] = static_cast<std::uint32_t>(updates.size());
    }
    g.assign(row.size(), 0.0);
    work.assign(row.size(), 0.0);
    l.assign(row.size(), 0.0);
    t.assign(row.size(), 0.0);
    perD.assign(n, 0.0);
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
    double* const w = work.data();
    double* const share = l.data();
    const Update* u = updates.data();
    for (std::uint32_t k = 0; k < n; ++k) {
        const std::uint32_t begin = start[k], end = start[k + 1];
        double d = 0.0;
        for (std::uint32_t p = begin; p < end; ++p)
            d += w[p];
        const double inverse = d > 0.0 ? 1.0 / d : 0.0;
        perD[k] = inverse;
        for (std::uint32_t p = begin; p < end; ++p)
            share[p] = w[p] * inverse;
        for (const Update* last = updates.data() + updateStart[k + 1]; u != last; ++u)
            w[u->into] += w[u->from] * share[u->by];
        if (k >= denseFrom) eliminateDense(k);
    }
}

void StarMesh::solve(double* x, bool forced) {
    const std::size_t entries = row.size(), sparse = start[denseFrom];
    const double* const share = l.data();
    double* const along = t.data();
    const std::uint32_t *const r = row.data(), *const c = column.data();
    for (const Update& u : updates)
        along[u.into] += share[u.from] * along[u.by] - share[u.by] * along[u.from];
    for (std::size_t e = 0; forced && e < sparse; ++e)
        x[r[e]] += share[e] * x[c[e]];
    for (std::size_t e = 0; e < sparse; ++e)
        x[c[e]] -= along[e];
    for (std::size_t e = sparse; e < entries; ++e) {
        x[c[e]] -= along[e];
        x[r[e]] += along[e];
    }
    for (std::size_t e = sparse; e < entries; ++e)
        x[r[e]] += share[e] * x[c[e]];
    for (std::uint32_t k = 0; k < n; ++k)
        x[k] *= perD[k];
    for (std::size_t e = entries; e-- > 0;)
        x[c[e]] += share[e] * x[r[e]];
}

} // namespace loom::circuit

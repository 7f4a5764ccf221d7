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

Pattern patternOf(std::uint32_t n, const std::vector<MeshEdge>& edges) {
    Pattern pattern(n);
    for (const MeshEdge& e : edges)
        if (e.a != e.b) pattern[std::min(e.a, e.b)].push_back(std::max(e.a, e.b));
    return eliminationPattern(n, std::move(pattern));
}

std::vector<std::uint32_t> minimumDegreePlaces(std::uint32_t n,
                                               const std::vector<MeshEdge>& edges) {
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

// The same elimination in another order: nodes of one level depend only on lower levels, so they
// come together, those with equally many neighbours side by side. Fill and factor are the same; what
// is gained is that runs of columns can be worked through without waiting for one another.
std::vector<std::uint32_t> byLevel(std::vector<MeshEdge> edges, std::vector<std::uint32_t> places) {
    const std::uint32_t n = static_cast<std::uint32_t>(places.size());
    for (MeshEdge& e : edges)
        e = {places[e.a], places[e.b]};
    const Pattern pattern = patternOf(n, edges);
    std::vector<std::uint32_t> level(n, 0), order(n), moved(n);
    for (std::uint32_t k = 0; k < n; ++k)
        if (!pattern[k].empty()) {
            std::uint32_t& parent = level[pattern[k].front()];
            parent = std::max(parent, level[k] + 1);
        }
    for (std::uint32_t k = 0; k < n; ++k)
        order[k] = k;
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        if (level[a] != level[b]) return level[a] < level[b];
        if (pattern[a].size() != pattern[b].size()) return pattern[a].size() < pattern[b].size();
        return a < b;
    });
    for (std::uint32_t k = 0; k < n; ++k)
        moved[order[k]] = k;
    for (std::uint32_t& place : places)
        place = moved[place];
    return places;
}

} // namespace

std::vector<std::uint32_t> eliminationPlaces(std::uint32_t n, const std::vector<MeshEdge>& edges) {
    return byLevel(edges, minimumDegreePlaces(n, edges));
}

std::vector<std::int32_t> StarMesh::analyse(std::uint32_t nodeCount,
                                            const std::vector<MeshEdge>& edges) {
    n = nodeCount;
    Pattern pattern = patternOf(n, edges);
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
    row.clear();
    into.clear();
    for (std::uint32_t k = 0; k < n; ++k) {
        row.insert(row.end(), pattern[k].begin(), pattern[k].end());
        start[k + 1] = static_cast<std::uint32_t>(row.size());
    }
    for (std::uint32_t k = 0; k < denseFrom; ++k)
        for (std::uint32_t p = start[k]; p < start[k + 1]; ++p) {
            auto at = row.begin() + start[row[p]];
            const auto end = row.begin() + start[row[p] + 1];
            for (std::uint32_t q = p + 1; q < start[k + 1]; ++q) {
                at = std::lower_bound(at, end, row[q]);
                into.push_back(static_cast<std::uint32_t>(at - row.begin()));
            }
        }
    runs.clear();
    for (std::uint32_t k = 0; k < denseFrom; ++k) {
        const std::uint32_t count = start[k + 1] - start[k];
        if (runs.empty() || runs.back().count != count) runs.push_back({k, k, count});
        runs.back().end = k + 1;
    }
    g.assign(row.size(), 0.0);
    l.assign(row.size(), 0.0);
    t.assign(row.size(), 0.0);
    perD.assign(n, 0.0);
}

void StarMesh::eliminateDense(std::uint32_t k) {
    const std::uint32_t begin = start[k], end = start[k + 1];
    for (std::uint32_t p = begin; p < end; ++p) {
        const double gp = g[p];
        double* to = g.data() + start[row[p]];
        for (std::uint32_t q = p + 1; q < end; ++q)
            *to++ += gp * l[q];
    }
}

void StarMesh::factorOne(const Run& run) {
    for (std::uint32_t k = run.begin; k < run.end; ++k) {
        const double only = g[start[k]];
        perD[k] = only > 0.0 ? 1.0 / only : 0.0;
        l[start[k]] = only > 0.0 ? 1.0 : 0.0;
    }
}

const std::uint32_t* StarMesh::factorTwo(const Run& run, const std::uint32_t* to) {
    double* const w = g.data();
    double* const share = l.data();
    std::uint32_t e = start[run.begin];
    for (std::uint32_t k = run.begin; k < run.end; ++k, e += 2) {
        const double g1 = w[e], g2 = w[e + 1], d = g1 + g2;
        const double inverse = d > 0.0 ? 1.0 / d : 0.0, l2 = g2 * inverse;
        perD[k] = inverse;
        share[e] = g1 * inverse;
        share[e + 1] = l2;
        w[*to++] += g1 * l2;
    }
    return to;
}

const std::uint32_t* StarMesh::factorMany(const Run& run, const std::uint32_t* to) {
    double* const w = g.data();
    double* const share = l.data();
    for (std::uint32_t k = run.begin; k < run.end; ++k) {
        const std::uint32_t begin = start[k], end = begin + run.count;
        double d = 0.0;
        for (std::uint32_t p = begin; p < end; ++p)
            d += w[p];
        const double inverse = d > 0.0 ? 1.0 / d : 0.0;
        perD[k] = inverse;
        for (std::uint32_t p = begin; p < end; ++p)
            share[p] = w[p] * inverse;
        for (std::uint32_t p = begin; p < end; ++p)
            for (std::uint32_t q = p + 1; q < end; ++q)
                w[*to++] += w[p] * share[q];
    }
    return to;
}

// Most nodes of a loom have one neighbour left when their turn comes, or two: those are written out.
void StarMesh::factor() {
    const std::uint32_t* to = into.data();
    for (const Run& run : runs) {
        if (run.count == 1)
            factorOne(run);
        else if (run.count == 2)
            to = factorTwo(run, to);
        else
            to = factorMany(run, to); // none: an island's last node
    }
    for (std::uint32_t k = denseFrom; k < n; ++k) {
        double d = 0.0;
        for (std::uint32_t p = start[k]; p < start[k + 1]; ++p)
            d += g[p];
        perD[k] = d > 0.0 ? 1.0 / d : 0.0;
        for (std::uint32_t p = start[k]; p < start[k + 1]; ++p)
            l[p] = g[p] * perD[k];
        eliminateDense(k);
    }
}

// The dense tail, x holding the currents into its nodes.
void StarMesh::solveTail(double* x) const {
    for (std::uint32_t k = denseFrom; k < n; ++k)
        for (std::uint32_t e = start[k]; e < start[k + 1]; ++e)
            x[row[e]] += l[e] * x[k];
    for (std::uint32_t k = n; k-- > denseFrom;) {
        double s = x[k] * perD[k];
        for (std::uint32_t e = start[k]; e < start[k + 1]; ++e)
            s += l[e] * x[row[e]];
        x[k] = s;
    }
}

// t of every edge that elimination makes.
void StarMesh::passOn() {
    const double* const share = l.data();
    double* const along = t.data();
    const std::uint32_t* to = into.data();
    for (const Run& run : runs) {
        if (run.count < 2) continue;
        std::uint32_t e = start[run.begin];
        if (run.count == 2) {
            for (std::uint32_t k = run.begin; k < run.end; ++k, e += 2)
                along[*to++] += share[e] * along[e + 1] - share[e + 1] * along[e];
            continue;
        }
        for (std::uint32_t k = run.begin; k < run.end; ++k, e += run.count)
            for (std::uint32_t p = e; p < e + run.count; ++p)
                for (std::uint32_t q = p + 1; q < e + run.count; ++q)
                    along[*to++] += share[p] * along[q] - share[q] * along[p];
    }
}

void StarMesh::solve(double* x) {
    passOn();
    const double* const share = l.data();
    const double* const along = t.data();
    const std::uint32_t* const r = row.data();
    std::fill(x + denseFrom, x + n, 0.0);
    for (std::uint32_t k = denseFrom; k < n; ++k)
        for (std::uint32_t e = start[k]; e < start[k + 1]; ++e) {
            x[k] -= along[e];
            x[r[e]] += along[e];
        }
    solveTail(x);
    for (auto run = runs.rbegin(); run != runs.rend(); ++run) {
        std::uint32_t e = start[run->end];
        if (run->count == 1) {
            for (std::uint32_t k = run->end; k-- > run->begin;) {
                --e;
                x[k] = share[e] * x[r[e]] - along[e] * perD[k];
            }
        } else if (run->count == 2) {
            for (std::uint32_t k = run->end; k-- > run->begin;) {
                e -= 2;
                x[k] = share[e] * x[r[e]] + share[e + 1] * x[r[e + 1]] -
                       (along[e] + along[e + 1]) * perD[k];
            }
        } else {
            for (std::uint32_t k = run->end; k-- > run->begin;) {
                e -= run->count;
                double sum = 0.0, s = 0.0;
                for (std::uint32_t p = e; p < e + run->count; ++p) {
                    sum += along[p];
                    s += share[p] * x[r[p]];
                }
                x[k] = s - sum * perD[k];
            }
        }
    }
}

void StarMesh::solveForced(double* x) const {
    for (std::uint32_t k = 0; k < denseFrom; ++k)
        for (std::uint32_t e = start[k]; e < start[k + 1]; ++e)
            x[row[e]] += l[e] * x[k];
    solveTail(x);
    for (std::uint32_t k = denseFrom; k-- > 0;) {
        double s = x[k] * perD[k];
        for (std::uint32_t e = start[k]; e < start[k + 1]; ++e)
            s += l[e] * x[row[e]];
        x[k] = s;
    }
}

} // namespace loom::circuit

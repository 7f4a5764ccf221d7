// SPDX-License-Identifier: MIT
#include "circuit/star_mesh.h"

#include <algorithm>
#include <set>
#include <tuple>

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

// Minimum degree: always the node with fewest neighbours left, which then become neighbours of one
// another. Of equals the one that waits for fewest others, so that a chain is halved and halved again
// and not eaten up from one end. (Eigen's approximate minimum degree fills half as much again on a
// loom, and its chains of dependence are long.)
class MinimumDegree {
public:
    MinimumDegree(std::uint32_t n, const std::vector<MeshEdge>& edges)
        : neighbours(n), level(n, 0), place(n, n), mark(n, n) {
        for (const MeshEdge& e : edges)
            if (e.a != e.b) {
                neighbours[e.a].push_back(e.b);
                neighbours[e.b].push_back(e.a);
            }
        for (std::uint32_t k = 0; k < n; ++k) {
            std::sort(neighbours[k].begin(), neighbours[k].end());
            neighbours[k].erase(std::unique(neighbours[k].begin(), neighbours[k].end()),
                                neighbours[k].end());
            queue.insert(rank(k));
        }
    }

    std::vector<std::uint32_t> places() {
        std::uint32_t next = 0;
        while (!queue.empty()) {
            const auto [degree, waits, k] = *queue.begin();
            if (degree + 1 == queue.size()) break; // all that is left is one full mesh
            queue.erase(queue.begin());
            place[k] = next++;
            eliminate(k);
        }
        for (const auto& left : queue)
            place[std::get<2>(left)] = next++;
        return place;
    }

private:
    using Rank = std::tuple<std::size_t, std::uint32_t, std::uint32_t>;

    Rank rank(std::uint32_t k) const { return {neighbours[k].size(), level[k], k}; }

    void eliminate(std::uint32_t k) {
        for (const std::uint32_t i : neighbours[k]) {
            queue.erase(rank(i));
            std::vector<std::uint32_t>& of = neighbours[i];
            for (const std::uint32_t j : of)
                mark[j] = i;
            mark[i] = i;
            for (const std::uint32_t j : neighbours[k])
                if (mark[j] != i) of.push_back(j);
            of.erase(std::find(of.begin(), of.end(), k));
            level[i] = std::max(level[i], level[k] + 1);
            queue.insert(rank(i));
        }
        neighbours[k].clear();
    }

    std::vector<std::vector<std::uint32_t>> neighbours;
    std::vector<std::uint32_t> level, place;
    std::vector<std::uint32_t> mark; // mark[j] == i: j is a neighbour of i
    std::set<Rank> queue;
};

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
    return byLevel(edges, MinimumDegree(n, edges).places());
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

// Each of these works through one run; Count is its number of entries a column, 0 for more than are
// written out. Most nodes of a loom have one to three neighbours left when their turn comes.
template <std::uint32_t Count>
const std::uint32_t* StarMesh::factorRun(const Run& run, const std::uint32_t* to) {
    const std::uint32_t count = Count == 0 ? run.count : Count;
    double* const w = g.data();
    double* const share = l.data();
    std::uint32_t e = start[run.begin];
    for (std::uint32_t k = run.begin; k < run.end; ++k, e += count) {
        double d = 0.0;
        for (std::uint32_t p = 0; p < count; ++p)
            d += w[e + p];
        const double inverse = d > 0.0 ? 1.0 / d : 0.0;
        perD[k] = inverse;
        for (std::uint32_t p = 0; p < count; ++p)
            share[e + p] = w[e + p] * inverse;
        for (std::uint32_t p = 0; p < count; ++p)
            for (std::uint32_t q = p + 1; q < count; ++q)
                w[*to++] += w[e + p] * share[e + q];
    }
    return to;
}

// t of every edge that elimination makes.
template <std::uint32_t Count>
const std::uint32_t* StarMesh::passRun(const Run& run, const std::uint32_t* to) {
    const std::uint32_t count = Count == 0 ? run.count : Count;
    const double* const share = l.data();
    double* const along = t.data();
    std::uint32_t e = start[run.begin];
    for (std::uint32_t k = run.begin; k < run.end; ++k, e += count)
        for (std::uint32_t p = e; p < e + count; ++p)
            for (std::uint32_t q = p + 1; q < e + count; ++q)
                along[*to++] += share[p] * along[q] - share[q] * along[p];
    return to;
}

// Voltages from those of later nodes.
template <std::uint32_t Count> void StarMesh::returnRun(const Run& run, double* x) const {
    const std::uint32_t count = Count == 0 ? run.count : Count;
    const double* const share = l.data();
    const double* const along = t.data();
    const std::uint32_t* const r = row.data();
    std::uint32_t e = start[run.end];
    for (std::uint32_t k = run.end; k-- > run.begin;) {
        e -= count;
        double sum = 0.0, s = 0.0;
        for (std::uint32_t p = e; p < e + count; ++p) {
            sum += along[p];
            s += share[p] * x[r[p]];
        }
        x[k] = s - sum * perD[k];
    }
}

void StarMesh::factor() {
    const std::uint32_t* to = into.data();
    for (const Run& run : runs)
        to = run.count == 1   ? factorRun<1>(run, to)
             : run.count == 2 ? factorRun<2>(run, to)
             : run.count == 3 ? factorRun<3>(run, to)
             : run.count == 4 ? factorRun<4>(run, to)
                              : factorRun<0>(run, to);
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

void StarMesh::solve(double* x) {
    const std::uint32_t* to = into.data();
    for (const Run& run : runs)
        to = run.count < 2    ? to
             : run.count == 2 ? passRun<2>(run, to)
             : run.count == 3 ? passRun<3>(run, to)
             : run.count == 4 ? passRun<4>(run, to)
                              : passRun<0>(run, to);
    std::fill(x + denseFrom, x + n, 0.0);
    for (std::uint32_t k = denseFrom; k < n; ++k)
        for (std::uint32_t e = start[k]; e < start[k + 1]; ++e) {
            x[k] -= t[e];
            x[row[e]] += t[e];
        }
    solveTail(x);
    for (auto run = runs.rbegin(); run != runs.rend(); ++run) {
        if (run->count == 1)
            returnRun<1>(*run, x);
        else if (run->count == 2)
            returnRun<2>(*run, x);
        else if (run->count == 3)
            returnRun<3>(*run, x);
        else if (run->count == 4)
            returnRun<4>(*run, x);
        else
            returnRun<0>(*run, x);
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

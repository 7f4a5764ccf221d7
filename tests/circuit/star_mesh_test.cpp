// SPDX-License-Identifier: MIT
#include "circuit/star_mesh.h"
#include "dense_answer.h"
#include "network_hand.h"

#include <doctest/doctest.h>

namespace loom::circuit {
namespace {

struct Conductance {
    std::uint32_t a, b;
    double siemens;
};

// Voltages against node 0 with 1 V in series with 1 ohm from the last node to node 0.
std::vector<double> solved(std::uint32_t n, std::vector<Conductance> list) {
    list.push_back({0, n - 1, 1.0});
    std::vector<MeshEdge> edges;
    for (const Conductance& c : list)
        edges.push_back({c.a, c.b});
    const std::vector<std::uint32_t> place = eliminationPlaces(n, edges);
    for (MeshEdge& e : edges)
        e = {place[e.a], place[e.b]};
    StarMesh mesh;
    const std::vector<std::int32_t> slots = mesh.analyse(n, edges);
    for (std::size_t k = 0; k < list.size(); ++k)
        if (slots[k] >= 0) mesh.conductances()[std::size_t(slots[k])] += list[k].siemens;
    mesh.factor();
    mesh.currents()[std::size_t(slots.back())] = edges.back().a < edges.back().b ? 1.0 : -1.0;
    std::vector<double> x(n, 0.0), volts(n);
    mesh.solve(x.data());
    for (std::uint32_t k = 0; k < n; ++k)
        volts[k] = x[place[k]] - x[place[0]];
    return volts;
}

void checkAgainstDense(std::uint32_t n, const std::vector<Conductance>& list, double relative) {
    std::vector<dense::Branch> branches{{int(n - 1), 0, 1.0, 1.0}};
    for (const Conductance& c : list)
        if (c.a != c.b) branches.push_back({int(c.a), int(c.b), 1.0 / c.siemens, 0.0});
    const dense::Answer answer = dense::solve(int(n), branches);
    const std::vector<double> volts = solved(n, list);
    // The floor is the rounding of a node's voltage: what two nodes differ by cannot be better.
    for (std::uint32_t k = 0; k < n; ++k)
        CHECK(closeRel(volts[k], double(answer.volts_V[k]), relative, 4e-15));
}

// Pseudo-random numbers that are the same everywhere.
struct Dice {
    std::uint64_t s = 0x9E3779B97F4A7C15ull;

    std::uint32_t below(std::uint32_t n) {
        s = s * 6364136223846793005ull + 1442695040888963407ull;
        return std::uint32_t((s >> 33) % n);
    }
};

} // namespace

TEST_CASE("a chain, a star and a grid") {
    std::vector<Conductance> chain, star, grid;
    for (std::uint32_t k = 0; k + 1 < 12; ++k) {
        chain.push_back({k, k + 1, 1.0 + k});
        star.push_back({11, k, 1.0 / (1 + k)});
    }
    for (std::uint32_t r = 0; r < 5; ++r)
        for (std::uint32_t c = 0; c < 5; ++c) {
            if (c + 1 < 5) grid.push_back({5 * r + c, 5 * r + c + 1, 1.0 + r});
            if (r + 1 < 5) grid.push_back({5 * r + c, 5 * r + c + 5, 0.1 + c});
        }
    checkAgainstDense(12, chain, 1e-12);
    checkAgainstDense(12, star, 1e-12);
    checkAgainstDense(25, grid, 1e-12);
}

TEST_CASE("a full mesh of 80 nodes, which ends in a dense tail") {
    // Between any two of n nodes all joined by g there is 2/(n g): symmetry puts the others at half.
    const std::uint32_t n = 80;
    std::vector<Conductance> full;
    for (std::uint32_t a = 0; a < n; ++a)
        for (std::uint32_t b = 0; b < a; ++b)
            full.push_back({a, b, 0.25});
    const std::vector<double> volts = solved(n, full);
    const double between_ohm = 2.0 / (n * 0.25), v = between_ohm / (between_ohm + 1.0);
    CHECK(closeRel(volts[n - 1], v, 1e-12, 0.0));
    for (std::uint32_t k = 1; k + 1 < n; ++k)
        CHECK(closeRel(volts[k], 0.5 * v, 1e-12, 0.0));
}

TEST_CASE("random meshes with conductances over twelve decades lose nothing") {
    Dice dice;
    for (int round = 0; round < 50; ++round) {
        const std::uint32_t n = 3 + dice.below(40);
        std::vector<Conductance> list;
        for (std::uint32_t k = 1; k < n; ++k) // connected
            list.push_back({k, dice.below(k), 0.0});
        for (std::uint32_t k = 0; k < n; ++k) // and more, some parallel, some from a node to itself
            list.push_back({dice.below(n), dice.below(n), 0.0});
        for (Conductance& c : list)
            c.siemens = std::pow(10.0, int(dice.below(13)) - 9) * (1 + dice.below(9));
        checkAgainstDense(n, list, 1e-9);
    }
}

TEST_CASE("every island gets its own zero, and nothing joins them") {
    StarMesh mesh;
    const std::vector<MeshEdge> edges{{0, 1}, {2, 3}, {3, 4}};
    const std::vector<std::int32_t> slots = mesh.analyse(6, edges); // node 5 joins nothing
    for (std::int32_t s : slots)
        mesh.conductances()[std::size_t(s)] += 2.0;
    mesh.factor();
    std::vector<double> x{1.0, -1.0, 3.0, 0.0, -3.0, 0.0};
    mesh.solveForced(x.data());
    CHECK(x[0] - x[1] == 0.5);
    CHECK(x[2] - x[3] == 1.5);
    CHECK(x[3] - x[4] == 1.5);
    CHECK(x[5] == 0.0);
}

} // namespace loom::circuit

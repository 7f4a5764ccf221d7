// SPDX-License-Identifier: MIT
// Solves a network of resistors and ideal sources a second time, written apart from the program:
// full modified nodal analysis with a current for every element, Gaussian elimination with partial
// pivoting, in long double. Slow and plain; it is the answer that tests compare with.
#pragma once

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace dense {

struct Branch {
    int a, b;
    double ohm, emf_V; // v_a - v_b = ohm i + emf
};

struct Answer {
    std::vector<long double> volts_V;   // node 0 is the reference
    std::vector<long double> current_A; // by branch, from a to b
};

inline Answer solve(int nodes, const std::vector<Branch>& branches) {
    const std::size_t n = std::size_t(nodes), size = n + branches.size();
    std::vector<std::vector<long double>> m(size, std::vector<long double>(size + 1, 0.0L));
    m[0][0] = 1.0L; // reference: v_0 = 0 in place of its current law
    for (std::size_t k = 0; k < branches.size(); ++k) {
        const Branch& br = branches[k];
        const std::size_t a = std::size_t(br.a), b = std::size_t(br.b), row = n + k;
        if (a != 0) m[a][row] += 1.0L;
        if (b != 0) m[b][row] -= 1.0L;
        m[row][a] += 1.0L;
        m[row][b] -= 1.0L;
        m[row][row] -= br.ohm;
        m[row][size] = br.emf_V;
    }
    for (std::size_t k = 0; k < size; ++k) {
        std::size_t pivot = k;
        for (std::size_t r = k + 1; r < size; ++r)
            if (std::fabs(m[r][k]) > std::fabs(m[pivot][k])) pivot = r;
        std::swap(m[k], m[pivot]);
        for (std::size_t r = k + 1; r < size; ++r) {
            const long double f = m[r][k] / m[k][k];
            if (f == 0.0L) continue;
            for (std::size_t c = k; c <= size; ++c)
                m[r][c] -= f * m[k][c];
        }
    }
    std::vector<long double> x(size);
    for (std::size_t k = size; k-- > 0;) {
        x[k] = m[k][size];
        for (std::size_t c = k + 1; c < size; ++c)
            x[k] -= m[k][c] * x[c];
        x[k] /= m[k][k];
    }
    return {{x.begin(), x.begin() + nodes}, {x.begin() + nodes, x.end()}};
}

} // namespace dense

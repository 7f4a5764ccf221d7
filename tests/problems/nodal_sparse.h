// SPDX-License-Identifier: MIT
// A second solver for larger networks of resistors and ideal sources: the nodal assembly of nodal.h,
// sparse, factored by KLU (Davis, Palamadai Natarajan, ACM TOMS 37 (2010)), with two refinements.
#pragma once

#include "problems/nodal.h"

#include <algorithm>
#include <klu.h>
#include <map>

namespace problems {

// Empty vectors when KLU finds the matrix singular.
inline Solution solveSparse(const std::vector<Branch>& branches) {
    const int nodes = nodesOf(branches), n = nodes + int(branches.size());
    std::map<std::pair<int, int>, double> entries; // by column, row
    Eigen::VectorXd rhs = Eigen::VectorXd::Zero(n);
    entries[{0, 0}] = 1.0;
    for (int k = 0; k < int(branches.size()); ++k) {
        const Branch& b = branches[std::size_t(k)];
        const int row = nodes + k;
        const double scale = b.ohm > 1.0 ? 1.0 / b.ohm : 1.0;
        if (b.a != 0) entries[{row, b.a}] += 1.0;
        if (b.b != 0) entries[{row, b.b}] -= 1.0;
        entries[{b.a, row}] += scale;
        entries[{b.b, row}] -= scale;
        entries[{row, row}] -= scale * b.ohm;
        rhs(row) = scale * b.emf_V;
    }
    std::vector<int> columnBegins(std::size_t(n) + 1, 0), rows;
    std::vector<double> values;
    for (const auto& [at, value] : entries) {
        rows.push_back(at.second);
        values.push_back(value);
        columnBegins[std::size_t(at.first) + 1] = int(rows.size());
    }
    for (std::size_t c = 1; c < columnBegins.size(); ++c)
        columnBegins[c] = std::max(columnBegins[c], columnBegins[c - 1]);

    klu_common common;
    klu_defaults(&common);
    klu_symbolic* symbolic = klu_analyze(n, columnBegins.data(), rows.data(), &common);
    klu_numeric* numeric =
        klu_factor(columnBegins.data(), rows.data(), values.data(), symbolic, &common);
    Eigen::VectorXd x = Eigen::VectorXd::Zero(n);
    for (int round = 0; numeric != nullptr && round < 3; ++round) {
        Eigen::VectorXd residual = rhs;
        for (int c = 0; c < n; ++c)
            for (int p = columnBegins[std::size_t(c)]; p < columnBegins[std::size_t(c) + 1]; ++p)
                residual(rows[std::size_t(p)]) -= values[std::size_t(p)] * x(c);
        klu_solve(symbolic, numeric, n, 1, residual.data(), &common);
        x += residual;
    }
    const bool solved = numeric != nullptr && common.status == KLU_OK;
    klu_free_numeric(&numeric, &common);
    klu_free_symbolic(&symbolic, &common);
    if (!solved) return {};
    return {x.head(nodes), x.tail(n - nodes)};
}

} // namespace problems

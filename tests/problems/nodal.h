// SPDX-License-Identifier: MIT
// An assembly of its own for networks of resistors and ideal sources: full modified nodal analysis,
// the current of every branch an unknown, solved dense by Eigen. Shares nothing with the program but
// the published law:
//   for each node but 0:  sum of currents leaving = 0;   for each branch:  v_a - v_b - R i = emf.
// A branch's equation is divided by its R where that is above 1 ohm, so that pivots stay comparable.
// Source: Kirchhoff's laws; Ho, Ruehli, Brennan, IEEE Trans. CAS 22 (1975), from memory.
#pragma once

#include "problems/networks.h"

#include <Eigen/Dense>

namespace problems {

struct Solution {
    Eigen::VectorXd volts_V;   // node 0 is the reference
    Eigen::VectorXd current_A; // by branch
};

inline Solution solveDense(const std::vector<Branch>& branches) {
    const Eigen::Index n = nodesOf(branches), m = Eigen::Index(branches.size());
    Eigen::MatrixXd a = Eigen::MatrixXd::Zero(n + m, n + m);
    Eigen::VectorXd rhs = Eigen::VectorXd::Zero(n + m);
    a(0, 0) = 1.0;
    for (Eigen::Index k = 0; k < m; ++k) {
        const Branch& br = branches[std::size_t(k)];
        if (br.a != 0) a(br.a, n + k) += 1.0;
        if (br.b != 0) a(br.b, n + k) -= 1.0;
        const double scale = br.ohm > 1.0 ? 1.0 / br.ohm : 1.0;
        a(n + k, br.a) += scale;
        a(n + k, br.b) -= scale;
        a(n + k, n + k) -= scale * br.ohm;
        rhs(n + k) = scale * br.emf_V;
    }
    const Eigen::PartialPivLU<Eigen::MatrixXd> lu(a);
    Eigen::VectorXd x = lu.solve(rhs);
    x += lu.solve(rhs - a * x); // one refinement
    return {x.head(n), x.tail(m)};
}

} // namespace problems

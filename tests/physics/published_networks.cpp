// SPDX-License-Identifier: MIT
// Rows N01-N29: the printed digits within 0.5 % or half of the last digit, and the
// recomputed values within 1e-6 (found: better than 1e-9) by an assembly of our own.
#include "problems/nodal.h"
#include "rig.h"

namespace loom::physics {
namespace {

using problems::Branch;
using problems::NetworkRow;
using problems::Printed;
using problems::Quantity;

Rig rigOf(const NetworkRow& row) {
    Rig rig;
    for (const Branch& b : row.branches)
        if (b.emf_V != 0.0)
            rig.volt(b.emf_V, Node(b.a), Node(b.b));
        else
            rig.ohm(b.ohm, Node(b.a), Node(b.b));
    rig.start();
    return rig;
}

double seen(const Rig& rig, const Printed& p) {
    const Reading r = rig.see(Key(p.branch) + 1);
    return p.quantity == Quantity::Amps    ? r.current_A
           : p.quantity == Quantity::Volts ? r.voltage_V
                                           : r.power_W;
}

} // namespace

TEST_CASE("worked networks: the digits printed") {
    for (const NetworkRow& row : problems::networks()) {
        CAPTURE(std::string(row.source));
        const Rig rig = rigOf(row);
        for (const Printed& p : row.printed) {
            CAPTURE(p.branch);
            const double floor = std::fmax(p.halfDigit - 0.005 * std::fabs(p.value), 0.0);
            CHECK_CLOSE(seen(rig, p), p.value, 0.005, floor);
        }
        CHECK(rig.circuit->diagnoses().empty());
    }
}

TEST_CASE("worked networks: every current and voltage against Kirchhoff's laws solved apart") {
    for (const NetworkRow& row : problems::networks()) {
        CAPTURE(std::string(row.source));
        const Rig rig = rigOf(row);
        const problems::Solution s = problems::solveDense(row.branches);
        const double greatest_A = s.current_A.cwiseAbs().maxCoeff();
        for (std::size_t k = 0; k < row.branches.size(); ++k) {
            CAPTURE(k);
            const Branch& b = row.branches[k];
            const Reading r = rig.see(Key(k) + 1);
            CHECK_CLOSE(r.current_A, s.current_A(Eigen::Index(k)), 1e-9, 1e-14 * greatest_A);
            CHECK_CLOSE(r.voltage_V, s.volts_V(b.a) - s.volts_V(b.b), 1e-9, 1e-13);
        }
    }
}

TEST_CASE("worked networks: power given is power taken") { // section 10: 1e-9
    for (const NetworkRow& row : problems::networks()) {
        CAPTURE(std::string(row.source));
        const Rig rig = rigOf(row);
        double sum_W = 0.0, taken_W = 0.0;
        for (std::size_t k = 0; k < row.branches.size(); ++k) {
            const double p = rig.see(Key(k) + 1).power_W;
            sum_W += p;
            taken_W += std::fmax(p, 0.0);
        }
        CHECK_CLOSE(sum_W, 0.0, 0.0, 1e-9 * taken_W);
    }
}

TEST_CASE("printed totals of several branches") {
    struct Row {
        const char* source;
        std::size_t network; // by the text it begins with
        const char* begins;
        double taken_W, halfDigit;
    };

    const Row rows[] = {{"N16 UP m58455: 130 W", 0, "N16", 130, 0.5},
                        {"N18 UP m58455: 1.09 W", 0, "N18", 1.09, 5e-3},
                        {"N20 UP m58455: 34 W", 0, "N20", 34, 0.5}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.source));
        for (const NetworkRow& network : problems::networks()) {
            if (std::string(network.source).rfind(row.begins, 0) != 0) continue;
            const Rig rig = rigOf(network);
            double taken_W = 0.0;
            for (std::size_t k = 0; k < network.branches.size(); ++k)
                if (network.branches[k].ohm > 0.0) taken_W += rig.see(Key(k) + 1).power_W;
            CHECK_CLOSE(taken_W, row.taken_W, 0.005, row.halfDigit - 0.005 * row.taken_W);
        }
    }
}

} // namespace loom::physics

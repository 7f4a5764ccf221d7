// SPDX-License-Identifier: MIT
// What the models of all elements share: branches, states, and one implicit stage of a time step.
// A model first stamps its branches (how current depends on voltage), then, when the node voltages
// are known, settles (currents, new states and their rates). It knows nothing of other elements.
//
// A stage of weight a [s] asks for states Y with  Y = base + a F(Y, v).  Each model solves its own
// states for a given branch voltage v, so a branch is always  i = g v + j, g >= 0.
#pragma once

#include <cstdint>
#include <vector>

namespace loom::circuit {

// Ideal joins, ideal sources in conflict and contacts without resistance take this instead of zero.
// Smaller changes nothing on a bench; it bounds the current of a contradiction.
constexpr double kConflict_ohm = 1e-6;

// Copper at 20 C is the reference of every temperature coefficient here.
constexpr double kReference_K = 293.15;
constexpr double kCopperPerK = 0.00393; // REFERENCE C13 (Industrial Power Engineering, Table 30.1)

// Resistance at temp_K over resistance at 20 C; never below a tenth, so that a guess far off
// during iteration cannot turn it negative.
inline double copperFactor(double temp_K) {
    const double f = 1.0 + kCopperPerK * (temp_K - kReference_K);
    return f > 0.1 ? f : 0.1;
}

struct Stage {
    double a_s = 0.0;
    double time_s = 0.0;
    double ambient_K = 293.15;
    const double* base = nullptr; // by state
    double* y = nullptr;          // by state: a guess at stamp, the answer after settle
    double* f = nullptr;          // by state: rate, after settle
    double* g = nullptr;          // by branch, S
    double* j = nullptr;          // by branch, A
    const double* v = nullptr;    // by branch: the last voltages found
    double* i = nullptr;          // by branch, after settle
    double disagreement = 0.0;    // settle raises it; above 1 the models want another round

    void disagree(double tolerances) {
        if (!(tolerances <= disagreement)) disagreement = tolerances;
    }
};

// How exactly a model's linearisation must meet its own law before a stage is accepted.
constexpr double kAgreeRelative = 1e-7, kAgree_A = 1e-9;

// All states of a circuit, one array. A state with absolute tolerance 0 is not error-controlled.
struct States {
    std::vector<double> value, absolute, relative;

    std::uint32_t add(double initial, double absoluteTolerance, double relativeTolerance) {
        value.push_back(initial);
        absolute.push_back(absoluteTolerance);
        relative.push_back(relativeTolerance);
        return static_cast<std::uint32_t>(value.size() - 1);
    }

    std::uint32_t addCurrent(double initial_A) { return add(initial_A, 1e-6, 1e-6); }

    std::uint32_t addTemperature(double initial_K) { return add(initial_K, 1e-3, 1e-6); }
};

} // namespace loom::circuit

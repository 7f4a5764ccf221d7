// SPDX-License-Identifier: MIT
// What the models of all elements share: branches, states, and one implicit stage of a time step.
// A model stamps its branches (how current depends on voltage); when the node voltages are known it
// updates them (currents, new states and their rates), in several iterations when it is not linear;
// once all agree, it updates its temperatures, which follow slowly. It knows nothing of other elements.
//
// A stage of weight a [s] asks for states Y with  Y = base + a F(Y, v).  Each model solves its own
// states for a given branch voltage v, so a branch is always  i = g v + j, g >= 0.
//
// Temperatures do not take part in the iterations: a resistance is stamped for the temperature expected
// at the stage, which the stepper extrapolates, and the temperature found afterwards is compared.
#pragma once

#include <cstdint>
#include <vector>

namespace loom::circuit {

// Ideal joins, ideal sources in conflict and contacts without resistance take this instead of zero.
// Smaller changes nothing on a bench; it bounds the current of a contradiction.
constexpr double kConflict_ohm = 1e-6;

// Copper at 20 C is the reference of every temperature coefficient here.
constexpr double kReference_K = 293.15;
constexpr double kCopperPerK =
    0.00393; // Industrial Power Engineering and Applications Handbook, Table 30.1

// Resistance at temp_K over resistance at 20 C; never below a tenth, so that a guess far off
// during iteration cannot turn it negative.
inline double copperFactor(double temp_K) {
    const double f = 1.0 + kCopperPerK * (temp_K - kReference_K);
    return f > 0.1 ? f : 0.1;
}

// A resistance stamped may differ by the first from the one that the temperature found calls for;
// a stamped one is kept, and with it the factor, until it is off by the second. Both at the usual
// tolerance of a step. Where there are capacitors none is kept: the voltage on them would jump with
// it, and a jump within a short step is a current, which holds the next step as short.
constexpr double kDriftRelative = 1e-5, kStaleRelative = 1e-6;

// How exactly a model's linearisation must meet its own law before a stage is accepted: within a
// step (at the usual tolerance), and at a restart, which is what a bench at rest shows.
constexpr double kAgreeRelative = 1e-5, kAgreeExactly = 1e-9, kAgree_A = 1e-9;

struct Stage {
    double a_s = 0.0;
    double time_s = 0.0;
    bool first = true;     // first iteration of this stage
    bool cautious = false; // one gap changes sides in an iteration, not all; diodes go half way
    bool flipped = false;  // one has
    double ambient_K = 293.15;
    double driftRelative = kDriftRelative, staleRelative = kStaleRelative;
    double agreeRelative = kAgreeRelative;
    const double* base = nullptr;       // by state
    double* y = nullptr;                // by state: expected at stamp, found after the updates
    double* f = nullptr;                // by state: rate, found after the updates
    double* g = nullptr;                // by branch, S; kept from stage to stage
    double* j = nullptr;                // by branch, A; kept
    const double* v = nullptr;          // by branch, V
    double* i = nullptr;                // by branch, A
    const double* factored_S = nullptr; // by branch: g in the factor at hand, negative for none
    double disagreement = 0.0;          // raised by branches: above 1 another iteration is wanted
    double drift = 0.0;                 // raised by temperatures: above 1 the step was too long

    void disagree(double tolerances) {
        if (!(tolerances <= disagreement)) disagreement = tolerances;
    }

    // A piecewise law finds itself on another piece. All changing at once may go round in circles; the
    // first alone, one an iteration, cannot (Murty's least-index rule for linear complementarity
    // problems, from memory).
    void changeSide(int& side, int found) {
        if (side == found) return;
        disagree(2.0);
        if (cautious && flipped) return;
        flipped = true;
        side = found;
    }

    // Whether a resistance stamped is too far off the one expected to be kept.
    bool stale(double stamped_ohm, double expected_ohm) const {
        const double off = expected_ohm - stamped_ohm, most = staleRelative * stamped_ohm;
        return !(off <= most && -off <= most);
    }

    // Resistance at the temperature found against the one stamped.
    void compare(double found_ohm, double stamped_ohm) {
        const double off =
            found_ohm > stamped_ohm ? found_ohm - stamped_ohm : stamped_ohm - found_ohm;
        const double allowed = driftRelative * stamped_ohm;
        if (!(off <= drift * allowed)) drift = off / allowed;
    }
};

// A slope this close to the one in the factor is not worth a new factor: the line still goes through
// the model's own point, and what is left is judged by the rule above.
constexpr double kSlopeRelative = 0.05;

inline double lazySlope_S(double factored_S, double found_S) {
    const double off = found_S - factored_S;
    return off <= kSlopeRelative * found_S && -off <= kSlopeRelative * found_S ? factored_S
                                                                               : found_S;
}

// A state that creeps up to a limit, so that the least error in it is a long time: it is taken from
// the third-order formula that the error of a step is measured with (stepper.h). rate_per_s: how fast
// it forgets, 1/s. Fuses and motors; cables have their own (cable.h).
struct Creeping {
    std::uint32_t state = 0;
    double rate_per_s = 0.0;
};

// Share of its error that a creeping state takes back after a step of h_s: all while that is short
// against 1/rate, none when it is long. |R(z)| < 1 on the whole negative axis then (found by trying;
// 0.02 would do).
constexpr double kHolds = 0.05;

inline double correctedShare(double h_s, double rate_per_s) {
    const double z = h_s * rate_per_s;
    return 1.0 / (1.0 + kHolds * z * z);
}

// The rates of a step at its begin, middle and end, by state, and their weights in its error.
struct StepRates {
    const double *begin, *middle, *end;
    double perBegin_s, perMiddle_s, perEnd_s;

    double error(std::size_t k) const {
        return perBegin_s * begin[k] + perMiddle_s * middle[k] + perEnd_s * end[k];
    }
};

// All states of a circuit, one array. kUncontrolled as tolerance leaves a state out of the control.
constexpr double kUncontrolled = 1e300;

struct States {
    std::vector<double> value, absolute, relative;
    std::size_t controlled = 0; // the first so many are
    std::vector<Creeping> creeping;

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

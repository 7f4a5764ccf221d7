// SPDX-License-Identifier: MIT
// A netlist turned into arrays of models by kind, their branches, and the solver of one implicit
// stage: given the base of every state, find node voltages, branch currents, states and rates.
// Build it from a Netlist; the stepper (stepper.h) drives it through time. Allocates only when built.
#pragma once

#include "circuit/builder.h"
#include "circuit/models.h"
#include "circuit/star_mesh.h"
#include "circuit/step.h"

namespace loom::circuit {

enum class Placed : std::uint8_t {
    Nowhere,  // bad values: an open circuit
    Tree,     // part of a tree of ideal elements: `entry.index` is its place in Joins::tree
    Constant, // a resistance or an ideal source with one: a branch that never changes
    Model     // in a model of its kind
};

struct Where {
    Placed placed = Placed::Nowhere;
    std::uint8_t model = 0; // its index in ModelList
    Entry entry;

    template <class M> bool isIn() const {
        return placed == Placed::Model && model == Models::indexOf<M>();
    }
};

class Network {
public:
    explicit Network(const Netlist& netlist, std::vector<Touch> touches = {});

    Solution emptySolution() const;

    // Solves one stage (stage.h) into p, whose y holds the states expected. agreed is false when the
    // models did not agree within the allowed iterations: the numbers are then the last one's.
    // drift above 1 says that a resistance stamped was too far off.
    struct Agreement {
        bool agreed = true;
        double drift = 0.0;
    };

    // exactly: to the last digits, as at a restart.
    Agreement
    stage(double a_s, double time_s, const double* base, Solution& p, bool exactly = false);

    // Starts the next stage from the states alone, so that what was solved before cannot show.
    // The branch voltages v are the guess to begin with.
    void forgetGuesses(const double* y, const double* v);

    // To be called when models were changed, before the next stage.
    void modelsChanged();

    // How many gaps and windings conduct across their opening or insulation.
    int sparks() const;

    // Copies what each element of an older network carries, states and currents at now_s, to the
    // same element here.
    void carryOver(const Network& old, const Solution& then, double now_s);

    // Share of the step, 0..1, at which the earliest watched quantity crosses its limit; above 1 for
    // none.
    double firstCrossing(const Step& step) const;

    // When a spark or an arc that conducts at the beginning of the step has stopped before its end: the
    // share of the step just short of where its current comes to nothing; otherwise 1. A step across
    // that point cannot be accurate.
    double extinction(const Step& step) const;

    // The next time at which something happens by itself (an armature arriving).
    double nextTimed_s() const;

    // Applies everything due at time_s, given states y (may be changed) and branch values there.
    // Appends events. True when a model changed so that the stepper must restart.
    bool applyEvents(double time_s,
                     std::vector<double>& y,
                     const Solution& at,
                     std::vector<Event>& events);

    // The least change of the branch currents that makes them meet Kirchhoff's law at every node
    // exactly, with the present factor: takes away what rounding of the voltages put in.
    void balance(std::vector<double>& current_A);

    // A branch that is a plain conductance now: i = g v.
    bool onlyResists(std::uint32_t branch) const {
        return branches.g[branch] > 0.0 &&
               (branch < firstMoving ? branches.j[branch] == 0.0 : silent[branch] != 0);
    }

    // Current through each element of a tree of ideal elements, by Kirchhoff's law.
    void recoverIdealCurrents(const std::vector<double>& branchCurrent_A,
                              std::vector<double>& treeCurrent_A) const;

    // For each node, which island it belongs to: nodes joined by anything that conducts now.
    std::vector<std::uint32_t> islands() const;

    Netlist netlist;
    std::vector<Where> where; // by element
    Joins joins;
    Branches branches;
    States states; // value: at the start, after carryOver() what was carried
    Models models;

    double tolerance = 1.0;                       // of a step over the usual one
    std::uint64_t iterations = 0, factorings = 0; // solutions so far, and those with a new factor

private:
    void place(const std::vector<char>& usable);
    void placeIdeal(Builder& b);
    void placeKind(Builder& b, Placing placing);
    void renumber();
    void layMesh();
    bool factorIsOld() const;
    void factor();
    void feedFixed();
    double offsetCurrent_A(std::uint32_t branch) const;
    void solveNodes(Solution& p);

    StarMesh mesh;
    std::uint32_t firstMoving = 0;        // branches before it have constant g and j
    std::vector<double> fixedConductance; // by slot
    std::vector<double> fixedCurrent;     // by slot, see StarMesh::currents
    std::vector<double> factored_S;       // by branch: g in the present factor
    std::vector<std::uint32_t> feeding;   // moving branches that may have j or an offset
    std::vector<char> silent;             // by branch: j is zero
    std::vector<double> residual_A;       // by unknown
};

} // namespace loom::circuit

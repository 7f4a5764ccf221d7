// SPDX-License-Identifier: MIT
// A netlist turned into arrays of models by kind, their branches, and the solver of one implicit
// stage: given the base of every state, find node voltages, branch currents, states and rates.
// Build it from a Netlist; the stepper (stepper.h) drives it through time. Allocates only when built.
#pragma once

#include "circuit/battery.h"
#include "circuit/cable.h"
#include "circuit/capacitor.h"
#include "circuit/coil.h"
#include "circuit/contact.h"
#include "circuit/current_source.h"
#include "circuit/diode.h"
#include "circuit/fuse.h"
#include "circuit/joins.h"
#include "circuit/lamp.h"
#include "circuit/motor.h"
#include "circuit/netlist.h"
#include "circuit/relay.h"
#include "circuit/star_mesh.h"

namespace loom::circuit {

enum class Kind : std::uint8_t {
    Unusable, // bad values: an open circuit
    Ideal,    // part of a tree of ideal elements: `part` is its place in Joins::tree
    Fixed,    // a resistance or an ideal source with one: constant branch
    Source,   // current source
    Capacitor,
    Inductor,
    Cable,
    Battery,
    Contact,
    Fuse,
    Relay,
    Diode,
    Lamp,
    Motor
};

struct Where {
    Kind kind = Kind::Unusable;
    std::uint32_t part = 0;   // index among its kind
    std::uint32_t branch = 0; // first branch
};

// Unknowns are numbered in the order of their elimination (star_mesh.h).
struct Branches {
    std::vector<std::uint32_t> a, b; // unknowns
    std::vector<Node> nodeA, nodeB;  // the netlist's nodes
    std::vector<std::int32_t> slot;  // of the star-mesh, -1 when a == b
    std::vector<double> offset_V;    // v = V[a] - V[b] + offset
    std::vector<double> g, j;

    std::size_t size() const { return a.size(); }
};

// What is known of a network at one time.
struct Point {
    std::vector<double> y, f;    // by state
    std::vector<double> v, i;    // by branch
    std::vector<double> volts_V; // by unknown
};

class Network {
public:
    // touches that name no cable of the netlist are left out.
    explicit Network(const Netlist& netlist, std::vector<Touch> touches = {});

    Point emptyPoint() const;

    // Solves one stage (stage.h) into p, whose y holds the states expected. agreed is false when the
    // models did not agree within the allowed rounds: the numbers are then the last round's.
    // drift above 1 says that a resistance stamped was too far off.
    struct Outcome {
        bool agreed = true;
        double drift = 0.0;
    };

    // exactly: to the last digits, as at a restart.
    Outcome stage(double a_s, double time_s, const double* base, Point& p, bool exactly = false);

    // Starts the next stage from the states alone, so that what was solved before cannot show.
    // The branch voltages v are the guess to begin with.
    void forgetGuesses(const double* y, const double* v);

    // To be called when models were changed, before the next stage.
    void modelsChanged();

    // How many gaps and windings conduct across their opening or insulation.
    int sparks() const;

    // Copies what each element of an older network carries, states and currents at now_s, to the
    // same element here.
    void inherit(const Network& old, const Point& at, double now_s);

    // The least change of the branch currents that makes them meet Kirchhoff's law at every node
    // exactly, with the present factor: takes away what rounding of the voltages put in.
    void balance(std::vector<double>& current_A);

    // The touches that outlast a change to another netlist: their cables were not replaced.
    std::vector<Touch> touchesIn(const Netlist& next) const;

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
    States states; // value: at the start, after inherit() what was carried

    std::vector<SourcePart> sources;
    std::vector<CapacitorPart> capacitors;
    std::vector<CoilPart> coils;
    Cables cables;
    std::vector<BatteryPart> batteries;
    std::vector<ContactPart> contacts;
    std::vector<FusePart> fuses;
    std::vector<RelayPart> relays;
    std::vector<DiodePart> diodes;
    std::vector<LampPart> lamps;
    std::vector<MotorPart> motors;
    // By index among its kind: the element.
    std::vector<std::uint32_t> cableOf, batteryOf, fuseOf, relayOf, lampOf, motorOf;

    std::vector<Touch> touches;
    bool outgrown = false; // a touch has been added that has no branch: to be built anew

    double tolerance = 1.0;                   // of a step over the usual one
    std::uint64_t rounds = 0, factorings = 0; // solutions so far, and those with a new factor

private:
    friend struct NetworkBuilder;
    friend class Inheritance;
    void stampAll(Stage& s);
    void settleAll(Stage& s);
    void warmAll(Stage& s);
    bool factorIsOld() const;
    void factor();
    void feedFixed();
    double offsetCurrent_A(std::uint32_t branch) const;
    void solveNodes(Point& p);

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

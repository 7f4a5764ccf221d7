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

struct Branches {
    std::vector<std::uint32_t> a, b; // unknowns
    std::vector<Node> nodeA, nodeB;  // the netlist's nodes
    std::vector<std::int32_t> slot;  // of the star-mesh, -1 when a == b
    std::vector<double> offset_V;    // v = V[a] - V[b] + offset
    std::vector<double> g, j, v, i;

    std::size_t size() const { return a.size(); }
};

class Network {
public:
    explicit Network(const Netlist& netlist);

    // Solves one stage (stage.h). y holds a guess and gets the answer. False when the models did
    // not agree within the allowed rounds; the numbers are then the last round's.
    bool stage(double a_s, double time_s, const double* base, double* y, double* f);

    // Starts the next stage's iteration from nothing, so that what was solved before cannot show.
    void forgetGuesses();

    // Copies what each element of an older network carries to the same element here.
    void inherit(const Network& old, const States& oldStates, double now_s);

    // Current from each element of a tree of ideal elements, by Kirchhoff's law: fills treeCurrent_A.
    void recoverIdealCurrents(const double* branchCurrent_A,
                              std::vector<double>& treeCurrent_A) const;

    // For each node, which island it belongs to: nodes joined by anything that conducts now.
    std::vector<std::uint32_t> islands() const;

    Netlist netlist;
    std::vector<Where> where; // by element
    Joins joins;
    Branches branches;
    States states; // value: at the start, after inherit() what was carried

    std::vector<CapacitorPart> capacitors;
    std::vector<CoilPart> coils;
    std::vector<CablePart> cables;
    std::vector<BatteryPart> batteries;
    std::vector<ContactPart> contacts;
    std::vector<FusePart> fuses;
    std::vector<RelayPart> relays;
    std::vector<DiodePart> diodes;
    std::vector<LampPart> lamps;
    std::vector<MotorPart> motors;
    // By index among its kind: the element.
    std::vector<std::uint32_t> coilOf, cableOf, batteryOf, contactOf, fuseOf, relayOf, lampOf,
        motorOf;

    std::vector<double> volts_V; // by unknown, last stage
    std::uint64_t factorings = 0;

private:
    friend struct NetworkBuilder;
    void inheritElement(const Network& old, const Where& was, const States& from, const Where& now);
    void inheritRelay(const Network& old, const RelayPart& o, const States& from, RelayPart& r);
    void stampAll(Stage& s);
    void settleAll(Stage& s);
    bool conductancesChanged();
    void solveNodes();

    StarMesh mesh;
    std::uint32_t firstMoving = 0;        // branches before it have constant g and j
    std::vector<double> fixedConductance; // by slot
    std::vector<double> fixedInject_A;    // by unknown
    std::vector<double> factored_S;       // by branch: g in the present factor
    std::vector<double> inject_A;
    double inheritedAt_s = 0.0;
};

} // namespace loom::circuit

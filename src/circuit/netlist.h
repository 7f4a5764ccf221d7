// SPDX-License-Identifier: MIT
// The electrical network as plain data: numbered nodes and elements between them.
// Fill a Netlist, hand it to Circuit (circuit.h). Nothing here computes. Every quantity is SI.
#pragma once

#include <cstdint>
#include <variant>
#include <vector>

namespace loom::circuit {

using Node = std::uint32_t; // 0 <= node < Netlist::nodeCount; no node is special
using Key = std::uint64_t;  // the caller's name of an element, unique in a netlist, never 0

// Ideal sources and plain components. Values out of range make the element an open circuit and
// are reported by Circuit::diagnoses().
struct Resistor {
    Node a = 0, b = 0;
    double resistance_ohm = 1.0; // >= 0
};

struct VoltageSource {
    Node plus = 0, minus = 0;
    double emf_V = 0.0;
};

struct CurrentSource {
    Node from = 0, to = 0; // the current leaves the source at `to`
    double current_A = 0.0;
};

struct Capacitor {
    Node a = 0, b = 0;
    double capacitance_F = 1e-6; // > 0
    double initial_V = 0.0;
};

struct Inductor {
    Node a = 0, b = 0;
    double inductance_H = 1e-3;  // > 0
    double resistance_ohm = 0.0; // >= 0, in series
    double initial_A = 0.0;
};

// A made end: contact resistance and the heat it gives. Common practice, no source: 0.5 mohm when
// well made (a sound joint has 1 mohm or less, from memory).
struct Joint {
    double resistance_ohm = 0.5e-3; // >= 0
    bool loose = false;             // a loose stud heats and its resistance grows
};

struct Cable {
    Node a = 0, b = 0;
    double length_m = 1.0; // > 0
    double area_m2 = 1e-6; // > 0, copper
    double sleeveLimit_K =
        343.15; // continuous limit of the sleeve; PVC 70 C (IEC 60364, from memory)
    Joint endA, endB;
    unsigned bundled = 0; // cables lying against this one along its length: they slow its cooling
    bool parted = false;  // burnt through earlier: an open circuit
    Key neighbour = 0;    // the cable that its copper touches when its sleeve burns; 0 for none
};

// Sealed lead-acid battery: open-circuit voltage from state of charge, internal resistance.
struct Battery {
    Node plus = 0, minus = 0;
    double full_V = 12.85;             // open circuit, full
    double low_V = 12.0;               // open circuit at 10 %
    double resistance_ohm = 12e-3;     // at 25 C, full
    double capacity_C = 24.0 * 3600.0; // 24 Ah at the 20 h rate
    double charge = 1.0;               // 0..1 at the start
    double temp_K = 298.15;
};

struct Contact {
    Node a = 0, b = 0;
    bool closed = false;
    double resistance_ohm = 0.4e-3; // closed
};

enum class FuseStyle { Blade, Strip, Cartridge, Breaker };

struct Fuse {
    Node a = 0, b = 0;
    FuseStyle style = FuseStyle::Blade;
    double rating_A = 7.5;   // > 0
    double cold_ohm = 11e-3; // > 0
    bool blown = false;      // open from the start; of a breaker: tripped, or opened by hand
};

struct Relay {
    Node coilA = 0, coilB = 0, common = 0, normallyOpen = 0, normallyClosed = 0;
    double coil_ohm = 320.0, coil_H = 0.6;
    double pullIn_V = 16.8, dropOut_V = 2.4; // across the cold coil; the model uses the current
    double contact_ohm = 3e-3;
    double contactRating_A = 70.0;
    bool welded = false; // the normally-open contact is welded shut
};

struct Diode {
    Node anode = 0, cathode = 0;
    double forward_V = 0.8; // at rated_A
    double rated_A = 1.0;
    double reverse_V = 400.0; // breaks down beyond it
};

struct Lamp {
    Node a = 0, b = 0;
    double rated_V = 24.0, rated_W = 21.0;
    double coldRatio = 0.1; // cold resistance over hot resistance
    bool broken = false;    // filament gone
};

struct Motor {
    Node a = 0, b = 0; // current from a to b drives forward
    double resistance_ohm = 0.30, inductance_H = 0.15e-3;
    double constant_Vs = 0.069; // V s/rad, the same number in N m/A
    double inertia_kg_m2 = 0.004;
    double friction_Nm = 0.10; // Coulomb
    double viscous_Nms = 0.0;
    double load_Nm = 0.0; // opposes motion like friction
    bool jammed = false;  // the axle cannot turn
};

using Part = std::variant<Resistor,
                          VoltageSource,
                          CurrentSource,
                          Capacitor,
                          Inductor,
                          Cable,
                          Battery,
                          Contact,
                          Fuse,
                          Relay,
                          Diode,
                          Lamp,
                          Motor>;

struct Element {
    Key key = 0;
    Part part;
};

struct Netlist {
    std::uint32_t nodeCount = 0;
    std::vector<Element> elements;
    double ambient_K = 293.15;
};

} // namespace loom::circuit

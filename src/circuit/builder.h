// SPDX-License-Identifier: MIT
// What a model is given to add an element to a network: branches between nodes, states, the other
// models. It is there only while a Network is built.
#pragma once

#include "circuit/joins.h"
#include "circuit/netlist.h"
#include "circuit/stage.h"

namespace loom::circuit {

class Models;

// Where an element went: its index among its kind, and its first branch.
struct Entry {
    std::uint32_t index = 0, branch = 0;
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

// Error allowed in a step of coils, inductors and capacitors, relative.
constexpr double kPlainRelative = 1e-6;

struct Builder {
    const Netlist& netlist;
    const std::vector<char>& usable; // by element
    const Joins& joins;
    Models& models;
    States& states;
    Branches& branches;

    std::uint32_t branch(Node a, Node b, double g = 0.0, double j = 0.0);

    // The usable element of that kind; nullptr when there is none of that key.
    template <class Spec> const Spec* find(Key key) const {
        for (std::size_t e = 0; e < netlist.elements.size(); ++e)
            if (netlist.elements[e].key == key && usable[e])
                return std::get_if<Spec>(&netlist.elements[e].part);
        return nullptr;
    }

    // So many temperatures, one after another, at ambient; returns the first.
    std::uint32_t temperatures(std::size_t count) {
        const auto first = static_cast<std::uint32_t>(states.value.size());
        for (std::size_t k = 0; k < count; ++k)
            states.addTemperature(netlist.ambient_K);
        return first;
    }
};

template <class Parts> std::uint32_t lastIndex(const Parts& parts) {
    return static_cast<std::uint32_t>(parts.size() - 1);
}

} // namespace loom::circuit

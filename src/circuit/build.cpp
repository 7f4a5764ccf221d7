// SPDX-License-Identifier: MIT
// How a Network is built from a Netlist.
#include "circuit/check.h"
#include "circuit/network.h"

namespace loom::circuit {

namespace {

std::vector<IdealEdge> idealEdges(const Netlist& netlist, const std::vector<char>& usable) {
    std::vector<IdealEdge> ideal;
    for (std::uint32_t e = 0; e < netlist.elements.size(); ++e) {
        if (!usable[e]) continue;
        std::visit(
            [&](const auto& spec) {
                using Kind = Models::For<std::decay_t<decltype(spec)>>;
                const std::optional<double> volts = Kind::ideal_V(spec);
                if (!volts) return;
                const std::vector<Node> nodes = Kind::nodes(spec);
                ideal.push_back({e, nodes[0], nodes[1], *volts});
            },
            netlist.elements[e].part);
    }
    return ideal;
}

// Adds the element to its model, when that is placed now.
struct Adding {
    Builder& b;
    Key key;
    Placing now;

    template <class Spec> Where operator()(const Spec& spec) const {
        using Kind = Models::For<Spec>;
        if constexpr (Kind::kPlacing != Placing::Ideal) {
            if (Kind::kPlacing != now) return {};
            const Entry entry = b.models.of<Kind>().add(spec, key, b);
            const bool constant = now == Placing::Constant;
            return {constant ? Placed::Constant : Placed::Model,
                    static_cast<std::uint8_t>(Models::indexOf<Kind>()),
                    entry};
        }
        return {};
    }
};

} // namespace

std::uint32_t Builder::branch(Node a, Node b, double g, double j) {
    branches.nodeA.push_back(a);
    branches.nodeB.push_back(b);
    branches.a.push_back(joins.unknown[a]);
    branches.b.push_back(joins.unknown[b]);
    branches.offset_V.push_back(joins.offset_V[a] - joins.offset_V[b]);
    branches.g.push_back(g);
    branches.j.push_back(j);
    return static_cast<std::uint32_t>(branches.size() - 1);
}

void Network::placeIdeal(Builder& b) {
    for (std::uint32_t k = 0; k < joins.tree.size(); ++k)
        where[joins.tree[k].element] = {Placed::Tree, 0, {k, 0}};
    for (const IdealEdge& e : joins.resistive) {
        const double g = 1.0 / kConflict_ohm;
        where[e.element] = {Placed::Constant, 0, {0, b.branch(e.a, e.b, g, -g * e.emf_V)}};
    }
}

void Network::placeKind(Builder& b, Placing placing) {
    for (std::uint32_t e = 0; e < netlist.elements.size(); ++e) {
        const Element& element = netlist.elements[e];
        if (b.usable[e] && where[e].placed == Placed::Nowhere)
            where[e] = std::visit(Adding{b, element.key, placing}, element.part);
    }
}

void Network::place(const std::vector<char>& usable) {
    Builder b{netlist, usable, joins, models, states, branches};
    placeIdeal(b);
    placeKind(b, Placing::Constant);
    models.everyKind([&](auto& model) { model.addConstant(b); });
    firstMoving = static_cast<std::uint32_t>(branches.size());
    placeKind(b, Placing::InRun);
    models.each([&](auto& model) { model.endRun(b); });
    placeKind(b, Placing::Moving);
    states.controlled = states.value.size();
    models.each([&](auto& model) { model.addUncontrolled(b); });
}

// Numbers the unknowns in the order of their elimination.
void Network::renumber() {
    Branches& br = branches;
    std::vector<MeshEdge> edges(br.size());
    for (std::size_t k = 0; k < br.size(); ++k)
        edges[k] = {br.a[k], br.b[k]};
    const std::vector<std::uint32_t> place = eliminationPlaces(joins.unknowns, edges);
    for (std::uint32_t& unknown : joins.unknown)
        unknown = place[unknown];
    for (std::size_t k = 0; k < br.size(); ++k) {
        br.a[k] = place[br.a[k]];
        br.b[k] = place[br.b[k]];
        edges[k] = {br.a[k], br.b[k]};
    }
    br.slot = mesh.analyse(joins.unknowns, edges);
}

void Network::layMesh() {
    Branches& br = branches;
    renumber();
    fixedConductance.assign(mesh.conductances().size(), 0.0);
    fixedCurrent.assign(mesh.conductances().size(), 0.0);

    residual_A.assign(joins.unknowns, 0.0);
    silent.assign(br.size(), 0);
    feeding.reserve(br.size());
    for (std::uint32_t k = 0; k < firstMoving; ++k)
        if (br.slot[k] >= 0) fixedConductance[br.slot[k]] += br.g[k];
    feedFixed();
    factored_S.assign(br.size(), -1.0); // no conductance is negative: factor at first
    mesh.conductances() = fixedConductance;
    mesh.factor();
}

Network::Network(const Netlist& from, std::vector<Touch> touching) : netlist(from) {
    models.of<Cables>().touches = std::move(touching);
    const std::vector<char> fine = usable(netlist);
    where.resize(netlist.elements.size());
    joins = joinIdeal(netlist.nodeCount, idealEdges(netlist, fine));
    place(fine);
    layMesh();
    modelsChanged();
}

} // namespace loom::circuit

// SPDX-License-Identifier: MIT
#include "lesson/isolation.h"

#include "bench/catalogue.h"
#include "bench/wiring.h"
#include "circuit/node_groups.h"
#include "lesson/trial.h"
#include "plan/plan.h"

#include <algorithm>
#include <functional>
#include <set>

namespace loom::lesson {
namespace {

using bench::Bench;
using bench::PartClass;
using circuit::Node;

// What may ever conduct, batteries apart, by the two nodes it joins.
struct Conducting {
    std::function<void(Node, Node)> join;

    template <class Element> void operator()(const Element& element) const {
        join(element.a, element.b);
    }

    void operator()(const circuit::Cable& cable) const {
        if (!cable.parted) join(cable.a, cable.b);
    }

    void operator()(const circuit::Battery&) const {}

    void operator()(const circuit::VoltageSource&) const {}

    void operator()(const circuit::CurrentSource&) const {}

    void operator()(const circuit::Diode& diode) const { join(diode.anode, diode.cathode); }

    void operator()(const circuit::Relay& relay) const {
        join(relay.common, relay.normallyOpen);
        join(relay.common, relay.normallyClosed);
        join(relay.coilA, relay.coilB);
    }
};

// What hangs together with a battery's pole through parts, but not through a battery, an isolator or
// the common return.
class Behind {
public:
    Behind(const Bench& of, const Isolated& asked)
        : bench(of), wanted(asked), wiring(bench::wire(of)), groups(wiring.netlist.nodeCount) {
        const auto at = find(bench, wanted.common);
        const auto common = at ? bench::nodeOf(bench, wiring, *at) : std::nullopt;
        circuit::NodeGroups cables(wiring.netlist.nodeCount);
        for (const circuit::Element& element : wiring.netlist.elements)
            if (const auto* cable = std::get_if<circuit::Cable>(&element.part))
                if (!cable->parted) cables.join(cable->a, cable->b);
        const auto isCommon = [&](Node node) {
            return common && cables.top(node) == cables.top(*common);
        };
        const Conducting conducting{[&](Node a, Node b) {
            if (isCommon(a) == isCommon(b)) groups.join(a, b);
        }};
        for (const circuit::Element& element : wiring.netlist.elements) {
            const bench::Part* part = bench::findPart(bench, bench::partOf(element.key));
            if (!part || !bench::isA(*part, PartClass::Isolator))
                std::visit(conducting, element.part);
        }
        for (const circuit::Element& element : wiring.netlist.elements)
            if (const auto* battery = std::get_if<circuit::Battery>(&element.part))
                for (const Node pole : {battery->plus, battery->minus})
                    if (!isCommon(pole)) live.insert(groups.top(pole));
    }

    std::optional<bench::Phrase> firstLive() {
        for (std::size_t p = 0; p < bench.parts.size(); ++p) {
            const bench::Part& part = bench.parts[p];
            if (bench::isA(part, PartClass::Battery)) continue;
            const bool isolator = bench::isA(part, PartClass::Isolator);
            if (!isolator && isBefore(part.ref)) continue;
            int sides = 0;
            for (std::size_t t = 0; t < wiring.nodes[p].size(); ++t) {
                if (!live.count(groups.top(wiring.nodes[p][t]))) continue;
                if (isolator && ++sides < 2) continue;
                return plan::placeName(bench, {part.id, static_cast<std::uint8_t>(t)});
            }
        }
        return looseLive();
    }

private:
    const Bench& bench;
    const Isolated& wanted;
    bench::Wiring wiring;
    circuit::NodeGroups groups;
    std::set<Node> live;

    bool isBefore(const std::string& ref) const {
        return std::find(wanted.before.begin(), wanted.before.end(), ref) != wanted.before.end();
    }

    std::optional<bench::Phrase> looseLive() {
        for (std::size_t c = 0; c < bench.cables.size(); ++c)
            for (std::size_t end = 0; end < 2; ++end)
                if (!bench.cables[c].ends[end].at && live.count(groups.top(wiring.ends[c][end])))
                    return bench::phrase("found/loose-end", {{"name", bench.cables[c].label}});
        return std::nullopt;
    }
};

} // namespace

std::optional<bench::Phrase> stillLive(const Bench& bench, const Isolated& wanted) {
    const auto has = [&](PartClass partClass) {
        return std::any_of(bench.parts.begin(), bench.parts.end(), [&](const bench::Part& part) {
            return bench::isA(part, partClass);
        });
    };
    if (!has(PartClass::Isolator) || !has(PartClass::Battery)) return std::nullopt;
    return Behind(bench, wanted).firstLive();
}

} // namespace loom::lesson

// SPDX-License-Identifier: MIT
#include "lesson/fault_sweep.h"

#include "bench/catalogue.h"
#include "bench/wiring.h"
#include "circuit/cable.h"
#include "circuit/fuse_time.h"
#include "circuit/node_groups.h"
#include "circuit/portable_math.h"
#include "lesson/steady_network.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

namespace loom::lesson {
namespace {

using bench::Bench;
using circuit::Node;
using Branch = SteadyNetwork::Branch;
using Changes = std::vector<SteadyNetwork::Change>;

// A fuse is taken to open at this share of its current: cables get warm on the way, and their
// resistance with them (by a quarter up to their limit), and lamps and batteries give way.
constexpr double kFuseSees = 0.75;
// Cables may spend this share of what they bear without any loss of heat.
constexpr double kMostSpent = 0.6;
constexpr double kShort_ohm = 1e-3;
// Between two points with less than this no short draws a current that matters.
constexpr double kLeast_V = 1.0;
constexpr double kLeaves = 1e-6; // of a conductance, when its branch opens
// How long a fault is run.
constexpr double kRun_s = 60.0;
// Positions that are gone through at the most; a learner's bench has some twenty.
constexpr std::size_t kMostPositions = 512;

// One cable's bounds. See circuit/cable.h for the figures.
struct CableBound {
    bench::CableId id;
    bool told = false;          // a threat to it is known
    bool spared = false;        // shorts are not asked of it: Protection::thinReturns
    double carried_A = 0.0;     // for ever, without passing its limit
    double adiabatic_A2s = 0.0; // from cold to its limit without loss
    double spentBefore = 0.0;   // share of its heating up by the current before the fault
};

CableBound boundOf(const circuit::Cable& cable, double ambient_K) {
    const circuit::CableValues v = circuit::cableValues(cable);
    CableBound bound;
    const double loss_W_per_K = 1.0 / (1.0 / v.inner_W_per_K + 1.0 / v.outer_W_per_K);
    const double atLimit = circuit::copperFactor(v.limit_K);
    bound.carried_A =
        std::sqrt(loss_W_per_K * (v.limit_K - ambient_K) / (v.copper_ohm * atLimit));
    // C dT = i^2 R20 (1 + a (T - T0)) dt  =>  i^2 t = C ln(R(limit)/R(ambient)) / (R20 a)
    bound.adiabatic_A2s = v.heatConductor_J_per_K *
                          circuit::portableLog(atLimit / circuit::copperFactor(ambient_K)) /
                          (v.copper_ohm * circuit::kCopperPerK);
    return bound;
}

// How warm it is before the fault, by its current then, counts as spent.
double spentBefore(const CableBound& bound, double before_A) {
    const double share = before_A / bound.carried_A;
    return share * share;
}

// How long a fuse carries a current at the most, by steps of a tenth in the current.
class OpeningTimes {
public:
    explicit OpeningTimes(const circuit::Fuse& fuse) {
        double multiple = 1.0;
        for (double& time_s : times_s) {
            time_s = circuit::openingTime_s(fuse, kFuseSees * multiple * fuse.rating_A);
            bounds_A.push_back(multiple * fuse.rating_A);
            multiple *= 1.1;
        }
    }

    double at_s(double current_A) const {
        const auto above = std::upper_bound(bounds_A.begin(), bounds_A.end(), current_A);
        if (above == bounds_A.begin()) return circuit::kCarriedForEver_s;
        return times_s[static_cast<std::size_t>(above - bounds_A.begin()) - 1];
    }

private:
    std::vector<double> bounds_A;
    std::array<double, 72> times_s{}; // up to 870 times the rating
};

// Cables and fuses as branches, the same whatever relays and diodes do.
struct Lines {
    std::vector<std::uint32_t> element;
    std::vector<Node> a, b;
    std::vector<double> siemens;

    void add(std::uint32_t index, const Branch* branch) {
        element.push_back(index);
        a.push_back(branch ? branch->a : 0);
        b.push_back(branch ? branch->b : 0);
        siemens.push_back(branch ? branch->siemens : 0.0);
    }

    double ampere(std::size_t k, const std::vector<double>& volts_V) const {
        return std::fabs(siemens[k] * (volts_V[a[k]] - volts_V[b[k]]));
    }
};

constexpr std::uint32_t kNoElement = ~std::uint32_t{0};

// Faults of a bench with its controls in one position.
class AtPosition {
public:
    AtPosition(const Bench& fresh,
               const Bench& exerciseStart,
               const Positions& controls,
               const Protection& protection,
               FaultSweep& found)
        : bench(fresh), start(exerciseStart), set(controls), asked(protection), sweep(found),
          wiring(bench::wire(fresh)), base(wiring.netlist) {
        for (std::uint32_t i = 0; i < wiring.netlist.elements.size(); ++i)
            bound(i, wiring.netlist.elements[i]);
        findPlaces();
        findUnprotected();
        if (asked.thinReturns) findReturns();
    }

    // A control of this part makes a difference: one of its terminals is at voltage.
    bool feeds(std::size_t part) const {
        const auto& nodes = wiring.nodes[part];
        return std::any_of(nodes.begin(), nodes.end(), [&](Node node) {
            return base.fed(node) && (common >= wiring.netlist.nodeCount ||
                                      std::fabs(base.voltage_V(node, common)) >= kLeast_V);
        });
    }

    void look() {
        for (const bench::CableId id : exposed)
            if (!excused.count(id)) tell({Threat::Kind::Unprotected, set, {}, {}, {}, id});
        ++sweep.tried;
        if (!bears(base, {}, kNoElement)) run(std::nullopt, {Threat::Kind::AsItStands, set});
        lookAtOpenings();
        lookAtWelds();
        lookAtShorts();
    }

private:
    const Bench& bench;
    const Bench& start;
    const Positions& set;
    const Protection& asked;
    FaultSweep& sweep;
    bench::Wiring wiring;
    SteadyNetwork base;
    std::map<SteadyNetwork::Decided, SteadyNetwork> others; // with relays and diodes otherwise
    std::vector<CableBound> cables; // excused ones left out
    std::vector<OpeningTimes> fuses;
    Lines cableLines, fuseLines;
    std::vector<std::pair<Node, bench::ProbeTip>> places;
    Node common = 0;              // one of the common return; nodeCount for none
    std::vector<bool> beforeFuse, onCommon; // by node
    std::set<bench::CableId> exposed, excused;
    std::vector<double> volts, spent;
    std::vector<std::size_t> over;
    std::vector<char> opened;
    Changes changed;
    bool shorted = false;         // a short is looked at
    bool flips = false;           // relays or diodes do otherwise with the changes: as in `after`
    SteadyNetwork::Decided after;

    const bench::Cable* cableOf(const circuit::Element& element) const {
        return bench::findCable(bench, bench::cableOf(element.key));
    }

    void bound(std::uint32_t index, const circuit::Element& element) {
        if (const auto* fuse = std::get_if<circuit::Fuse>(&element.part)) {
            if (fuse->blown) return;
            fuses.push_back(OpeningTimes(*fuse));
            fuseLines.add(index, base.branchOf(index));
        }
        const auto* cable = std::get_if<circuit::Cable>(&element.part);
        const bench::Cable* on = cableOf(element);
        if (!cable || !on) return;
        if (isNamed(*on)) {
            excused.insert(on->id);
            return;
        }
        CableBound of = boundOf(*cable, wiring.netlist.ambient_K);
        of.id = on->id;
        const Branch* branch = base.branchOf(index);
        of.spentBefore = branch ? spentBefore(of, base.current_A(*branch)) : 0.0;
        of.told = isTold(of.id);
        cables.push_back(std::move(of));
        cableLines.add(index, branch);
    }

    bool isNamed(const bench::Cable& cable) const {
        const auto& named = asked.unprotected;
        return std::any_of(named.begin(), named.end(), [&](const NamedCable& one) {
            return lesson::isNamed(bench, cable, one);
        });
    }

    void addPlace(Node node, const bench::ProbeTip& tip) {
        const auto same = [&](const auto& place) { return place.first == node; };
        if (base.fed(node) && std::none_of(places.begin(), places.end(), same))
            places.push_back({node, tip});
    }

    void findPlaces() {
        for (std::size_t p = 0; p < bench.parts.size(); ++p)
            for (std::size_t t = 0; t < wiring.nodes[p].size(); ++t)
                addPlace(wiring.nodes[p][t],
                         {bench::TerminalRef{bench.parts[p].id, static_cast<std::uint8_t>(t)}, {}});
        for (std::size_t c = 0; c < bench.cables.size(); ++c)
            for (int end = 0; end < 2; ++end)
                addPlace(wiring.ends[c][static_cast<std::size_t>(end)],
                         {std::nullopt, bench.cables[c].id, end});
    }

    // Whether current gets through without a fuse and without anything that uses it.
    bool isConductor(const Branch& branch) const {
        const circuit::Part& part = wiring.netlist.elements[branch.element].part;
        if (std::holds_alternative<circuit::Cable>(part) ||
            std::holds_alternative<circuit::Contact>(part))
            return true;
        const auto* relay = std::get_if<circuit::Relay>(&part);
        return relay && (branch.a == relay->common || branch.b == relay->common);
    }

    void findUnprotected() {
        circuit::NodeGroups groups(wiring.netlist.nodeCount);
        for (const Branch& branch : base.branches())
            if (isConductor(branch)) groups.join(branch.a, branch.b);
        std::set<Node> poles;
        for (const circuit::Element& element : wiring.netlist.elements)
            if (const auto* battery = std::get_if<circuit::Battery>(&element.part)) {
                poles.insert(groups.top(battery->plus));
                poles.insert(groups.top(battery->minus));
            }
        common = commonOf(groups, poles);
        beforeFuse.assign(wiring.netlist.nodeCount, false);
        onCommon.assign(wiring.netlist.nodeCount, false);
        for (Node node = 0; node < wiring.netlist.nodeCount; ++node) {
            const Node top = groups.top(node);
            onCommon[node] = top == common;
            beforeFuse[node] = top != common && poles.count(top) > 0;
        }
        for (std::size_t c = 0; c < bench.cables.size(); ++c)
            if (beforeFuse[wiring.ends[c][0]] || beforeFuse[wiring.ends[c][1]])
                exposed.insert(bench.cables[c].id);
    }

    void findReturns() {
        for (CableBound& bound : cables)
            for (std::size_t c = 0; c < bench.cables.size(); ++c) {
                const bench::Cable& cable = bench.cables[c];
                if (cable.id != bound.id || !cable.ends[0].at || !cable.ends[1].at) continue;
                bound.spared = onCommon[wiring.ends[c][0]] && onCommon[wiring.ends[c][1]];
            }
    }

    bool isSpared(const CableBound& cable) const { return cable.told || (shorted && cable.spared); }

    Node commonOf(circuit::NodeGroups& groups, const std::set<Node>& poles) const {
        const auto named = find(bench, asked.common);
        if (named)
            if (const auto node = bench::nodeOf(bench, wiring, *named)) return groups.top(*node);
        std::map<Node, std::size_t> ends;
        for (const auto& cable : wiring.ends)
            for (const Node node : cable)
                if (poles.count(groups.top(node))) ++ends[groups.top(node)];
        const auto most = std::max_element(ends.begin(), ends.end(), [](const auto& l, const auto& r) {
            return l.second < r.second;
        });
        return most == ends.end() ? wiring.netlist.nodeCount : most->first;
    }

    // Whether by bounds every cable bears these changes until fuses have opened. `open`: the element
    // that the changes open.
    bool bears(const SteadyNetwork& network, const Changes& changes, std::uint32_t open) {
        changed = changes;
        opened.assign(fuses.size(), 0);
        for (std::size_t round = 0; round <= fuses.size(); ++round) {
            network.changed(changed, volts);
            if (round == 0) {
                flips = network.decidesOtherwise(volts);
                if (flips) after = network.decidedAt(volts);
            }
            over.clear();
            for (std::size_t k = 0; k < cables.size(); ++k)
                if (cableLines.ampere(k, volts) > cables[k].carried_A && !isSpared(cables[k]) &&
                    cableLines.element[k] != open)
                    over.push_back(k);
            if (over.empty()) return true;
            const std::size_t first = nextToOpen(open);
            if (first == fuses.size()) return false;
            const double after_s = fuses[first].at_s(fuseLines.ampere(first, volts));
            if (round == 0) spent.assign(cables.size(), 0.0);
            for (const std::size_t k : over) {
                const double current_A = cableLines.ampere(k, volts);
                spent[k] += current_A * current_A * after_s / cables[k].adiabatic_A2s;
                if (spent[k] + cables[k].spentBefore > kMostSpent) return false;
            }
            opened[first] = 1;
            changed.push_back({fuseLines.a[first],
                               fuseLines.b[first],
                               -fuseLines.siemens[first] * (1.0 - kLeaves)});
        }
        return false;
    }

    // The fuse that opens first; their number when none does.
    std::size_t nextToOpen(std::uint32_t open) const {
        double soonest_s = circuit::kCarriedForEver_s;
        std::size_t first = fuses.size();
        for (std::size_t f = 0; f < fuses.size(); ++f) {
            if (opened[f] || fuseLines.element[f] == open) continue;
            const double time_s = fuses[f].at_s(fuseLines.ampere(f, volts));
            if (time_s >= soonest_s) continue;
            soonest_s = time_s;
            first = f;
        }
        return first;
    }

    const SteadyNetwork& with(const SteadyNetwork::Decided& decided) {
        if (decided == base.decided()) return base;
        auto at = others.find(decided);
        if (at == others.end())
            at = others.emplace(decided, SteadyNetwork(wiring.netlist, decided)).first;
        return at->second;
    }

    // As above, also with relays and diodes as the changes leave them.
    bool bearsAll(const Changes& changes, std::uint32_t open) {
        constexpr int kMostRounds = 4;
        const SteadyNetwork* network = &base;
        for (int round = 0; round < kMostRounds; ++round) {
            if (!bears(*network, changes, open)) return false;
            if (!flips) break;
            network = &with(after);
        }
        return true;
    }

    // Runs it through the circuit.
    void run(const std::optional<Fault>& fault, Threat threat) {
        ++sweep.run;
        Trial trial(bench, start, set, fault);
        std::set<bench::CableId> known = excused;
        for (const Threat& told : sweep.threats)
            known.insert(told.suffers);
        for (const CableBound& cable : cables)
            if (isSpared(cable)) known.insert(cable.id);
        trial.runFault(kRun_s, known);
        for (const Harm& harm : trial.harms()) {
            if (!harm.cable || known.count(harm.id)) continue;
            threat.suffers = harm.id;
            threat.current_A = harm.current_A;
            threat.temp_K = harm.temp_K;
            threat.after_s = harm.after_s;
            tell(threat);
        }
    }

    bool isTold(bench::CableId id) const {
        const auto of = [&](const Threat& told) { return told.suffers == id; };
        return std::any_of(sweep.threats.begin(), sweep.threats.end(), of);
    }

    void tell(Threat threat) {
        if (isTold(threat.suffers)) return;
        if (const bench::Cable* cable = bench::findCable(bench, threat.suffers))
            threat.cable = cable->label;
        for (CableBound& cable : cables)
            cable.told = cable.told || cable.id == threat.suffers;
        sweep.threats.push_back(std::move(threat));
    }

    void lookAtShorts() {
        Changes joint(1);
        shorted = true;
        for (std::size_t i = 0; i < places.size(); ++i)
            for (std::size_t k = i + 1; k < places.size(); ++k) {
                const auto& [a, tipA] = places[i];
                const auto& [b, tipB] = places[k];
                if (beforeFuse[a] || beforeFuse[b] || !base.joined(a, b)) continue;
                if (std::fabs(base.voltage_V(a, b)) < kLeast_V) continue;
                joint[0] = {a, b, 1.0 / kShort_ohm};
                ++sweep.tried;
                if (!bearsAll(joint, kNoElement))
                    run(Fault{Fault::Kind::Short, tipA, tipB, kShort_ohm},
                        {Threat::Kind::Short, set, tipA, tipB});
            }
        shorted = false;
    }

    void lookAtOpenings() {
        for (std::uint32_t i = 0; i < wiring.netlist.elements.size(); ++i) {
            const circuit::Element& element = wiring.netlist.elements[i];
            const Branch* branch = base.branchOf(i);
            if (!branch || !base.fed(branch->a)) continue;
            Fault fault;
            fault.kind = Fault::Kind::Open;
            Threat threat{Threat::Kind::Opened, set};
            if (const bench::Cable* cable = cableOf(element)) {
                fault.cable = cable->id;
                threat.part = cable->label;
            } else if (const bench::Part* part =
                           bench::findPart(bench, bench::partOf(element.key))) {
                fault.part = part->id;
                threat.part = part->ref;
            } else {
                continue;
            }
            ++sweep.tried;
            if (!bearsOpen(i, *branch)) run(fault, threat);
        }
    }

    bool bearsOpen(std::uint32_t element, const Branch& branch) {
        if (branch.pushed_A == 0.0)
            return bearsAll({{branch.a, branch.b, -branch.siemens * (1.0 - kLeaves)}}, element);
        circuit::Netlist without = wiring.netlist; // it does not only conduct: solved anew
        without.elements[element].part = circuit::Resistor{0, 0, 1.0};
        return bears(SteadyNetwork(without), {}, element);
    }

    void lookAtWelds() {
        SteadyNetwork::Decided decided = base.decided();
        std::size_t which = 0;
        for (const circuit::Element& element : wiring.netlist.elements) {
            const bool relay = std::holds_alternative<circuit::Relay>(element.part);
            if (!relay && !std::holds_alternative<circuit::Diode>(element.part)) continue;
            const std::size_t at = which++;
            const bench::Part* part = bench::findPart(bench, bench::partOf(element.key));
            if (!relay || !part || decided[at]) continue;
            SteadyNetwork::Decided welded = decided;
            welded[at] = true;
            ++sweep.tried;
            Fault fault;
            fault.kind = Fault::Kind::Weld;
            fault.part = part->id;
            Threat threat{Threat::Kind::Welded, set};
            threat.part = part->ref;
            if (!bears(with(welded), {}, kNoElement)) run(fault, threat);
        }
    }
};

// A control that a hand sets, with the positions that differ.
struct Control {
    std::size_t part = 0;
    std::vector<int> positions;
};

std::vector<Control> controlsOf(const Bench& bench) {
    std::vector<Control> controls;
    for (std::size_t p = 0; p < bench.parts.size(); ++p) {
        const bench::PartSpec& kind = bench::spec(bench.parts[p].kind);
        if (kind.positions.empty() || bench::isA(kind.kind, bench::PartClass::Battery)) continue;
        Control control{p, {}};
        for (int at = 0; at < static_cast<int>(kind.positions.size()); ++at)
            if (!bench::isA(kind.kind, bench::PartClass::Isolator) || at != 1) // off is as with its key out
                control.positions.push_back(at);
        controls.push_back(std::move(control));
    }
    return controls;
}

Positions wordsOf(const Bench& bench, const std::vector<Control>& controls) {
    Positions set;
    for (const Control& control : controls) {
        const bench::Part& part = bench.parts[control.part];
        const bench::PartSpec& kind = bench::spec(part.kind);
        if (part.position != kind.restPosition)
            set[part.ref] = kind.positions[static_cast<std::size_t>(part.position)];
    }
    return set;
}

// Thinner than named by this share is another cable [m2 of m2].
constexpr double kAsThick = 0.99;

bool isAt(const Bench& bench, const bench::CableEnd& end, const plan::Spot& spot) {
    const bench::Part* part = end.at ? bench::findPart(bench, end.at->part) : nullptr;
    if (!part || part->ref != spot.ref) return false;
    const bench::PartSpec& kind = bench::spec(part->kind);
    if (bench::isEitherWay(kind)) return true;
    return kind.terminals[end.at->terminal].node == bench::metalOf(kind, spot.terminal);
}

} // namespace

bool isNamed(const Bench& bench, const bench::Cable& cable, const NamedCable& named) {
    const auto& ends = cable.ends;
    const bool joins = (isAt(bench, ends[0], named.a) && isAt(bench, ends[1], named.b)) ||
                       (isAt(bench, ends[0], named.b) && isAt(bench, ends[1], named.a));
    return joins && cable.area_m2 >= named.least_m2 * kAsThick;
}

FaultSweep
sweepFaults(const Bench& bench, const Bench& start, const Protection& asked) {
    FaultSweep sweep;
    Bench fresh = freshCopy(bench, start, {});
    const std::vector<Control> controls = controlsOf(fresh);
    std::vector<int> rest;
    for (const Control& control : controls)
        rest.push_back(fresh.parts[control.part].position);
    std::set<std::vector<int>> seen, waiting{rest};
    while (!waiting.empty() && sweep.positions < kMostPositions) {
        std::vector<int> now = *waiting.begin();
        waiting.erase(waiting.begin());
        for (std::size_t c = 0; c < controls.size(); ++c)
            fresh.parts[controls[c].part].position = now[c];
        Positions set = wordsOf(fresh, controls);
        AtPosition at(fresh, start, set, asked, sweep);
        // A control without current behind it makes no difference: as at rest.
        bool same = true;
        for (std::size_t c = 0; c < controls.size(); ++c)
            if (!at.feeds(controls[c].part) && now[c] != rest[c]) {
                now[c] = rest[c];
                same = false;
            }
        if (!seen.insert(now).second) continue;
        if (!same) {
            seen.erase(now);
            waiting.insert(now);
            continue;
        }
        ++sweep.positions;
        at.look();
        for (std::size_t c = 0; c < controls.size(); ++c) {
            if (!at.feeds(controls[c].part)) continue;
            for (const int position : controls[c].positions) {
                std::vector<int> next = now;
                next[c] = position;
                if (!seen.count(next)) waiting.insert(std::move(next));
            }
        }
    }
    return sweep;
}

} // namespace loom::lesson
